/** Works kept as files in the user's data folder, one file a work, replaced whole. */
import { randomBytes } from "node:crypto";
import fs from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import {
  fileError,
  type PlanStore,
  SaveConflict,
  type SavedWork,
  syncFolder,
  titleOf,
  WorkError,
  writeWholeFile,
} from "../workbench/index.ts";

export const KEY_PATTERN = /^[a-z0-9-]{1,64}$/;

/** Where works are kept: TAPEMARK_DATA, or the platform's own place for a user's data. */
export function dataFolder(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): string {
  if (env.TAPEMARK_DATA) return env.TAPEMARK_DATA;
  if (platform === "win32") return join(env.APPDATA ?? join(homedir(), "AppData", "Roaming"), "Tapemark");
  if (platform === "darwin") return join(homedir(), "Library", "Application Support", "Tapemark");
  return join(env.XDG_DATA_HOME ?? join(homedir(), ".local", "share"), "tapemark");
}

interface Row extends SavedWork {
  readonly savedAt: string;
}

export function createFileStore(folder: string, now: () => Date): PlanStore {
  const works = join(folder, "works");
  const pathOf = (key: string) => {
    if (!KEY_PATTERN.test(key)) {
      throw new WorkError(`"${key}" cannot name a work`, "use small letters, digits and hyphens, at most 64");
    }
    return join(works, `${key}.json`);
  };
  const read = (key: string): Row | null => {
    const path = pathOf(key);
    let text: string;
    try {
      text = fs.readFileSync(path, "utf8");
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
      throw fileError(`could not read ${path}`, error);
    }
    try {
      return JSON.parse(text) as Row;
    } catch {
      throw new WorkError(`${path} is damaged`, "move it away; the plan files themselves are untouched");
    }
  };
  return {
    load: async (key) => read(key),
    async save(key, work) {
      const path = pathOf(key);
      if ((read(key)?.revision ?? 0) !== work.revision - 1) throw new SaveConflict(key);
      const row: Row = { ...work, savedAt: now().toISOString() };
      try {
        fs.mkdirSync(works, { recursive: true });
        const temporary = join(works, `.${key}.${randomBytes(6).toString("hex")}.tmp`);
        writeWholeFile(fs, path, temporary, Buffer.from(JSON.stringify(row)));
        syncFolder(fs, works);
      } catch (error) {
        throw fileError(`could not keep the plan in ${path}`, error);
      }
    },
    async list() {
      let names: string[];
      try {
        names = fs.readdirSync(works);
      } catch {
        return []; // nothing has been kept yet
      }
      const rows: { key: string; title: string; savedAt: string }[] = [];
      for (const name of names.sort()) {
        const key = name.replace(/\.json$/, "");
        if (key === name || !KEY_PATTERN.test(key)) continue;
        const row = read(key);
        if (row) rows.push({ key, title: titleOf(row.plan), savedAt: row.savedAt });
      }
      return rows.sort((a, b) => b.savedAt.localeCompare(a.savedAt));
    },
  };
}
