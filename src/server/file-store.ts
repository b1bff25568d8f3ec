/** Works kept as files in the user's data folder, one file a work, replaced whole. */
import fs from "node:fs";
import { join } from "node:path";
import {
  fileError,
  type KeptWork,
  type PlanStore,
  SaveConflict,
  type SavedWork,
  syncFolder,
  titleOf,
  WorkError,
  writeNewFile,
} from "../workbench/index.ts";

export const KEY_PATTERN = /^[a-z0-9-]{1,64}$/;

/** A process that was killed while it wrote leaves its file; no save takes as long as this. */
const STALE_MS = 10_000;

function clearStale(temporary: string, now: Date): void {
  const there = fs.statSync(temporary, { throwIfNoEntry: false });
  if (there && Math.abs(now.getTime() - there.mtimeMs) > STALE_MS) fs.rmSync(temporary, { force: true });
}

function changedAt(path: string): string {
  return (fs.statSync(path, { throwIfNoEntry: false })?.mtime ?? new Date(0)).toISOString();
}

/** The same save again: its answer did not reach the page that sent it, which has been loaded anew. */
function isKept(kept: SavedWork | null, work: SavedWork): boolean {
  return work.by !== undefined && kept?.by === work.by && kept.revision === work.revision;
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
      const demandNext = () => {
        if ((read(key)?.revision ?? 0) !== work.revision - 1) throw new SaveConflict(key);
      };
      if (isKept(read(key), work)) return;
      demandNext();
      const row: Row = { ...work, savedAt: now().toISOString() };
      try {
        fs.mkdirSync(works, { recursive: true });
        // one name for all processes: while one writes a work, no other can
        const temporary = join(works, `.${key}.tmp`);
        clearStale(temporary, now());
        writeNewFile(fs, temporary, Buffer.from(JSON.stringify(row)));
        try {
          demandNext(); // another process may have saved before this one had the name
          fs.renameSync(temporary, path);
        } catch (error) {
          fs.rmSync(temporary, { force: true });
          throw error;
        }
        syncFolder(fs, works);
      } catch (error) {
        if (error instanceof WorkError) throw error;
        if ((error as NodeJS.ErrnoException).code === "EEXIST")
          throw new WorkError("another window is saving this plan just now", "saving is tried again");
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
      const rows: KeptWork[] = [];
      for (const name of names.sort()) {
        const key = name.replace(/\.json$/, "");
        if (key === name || !KEY_PATTERN.test(key)) continue;
        try {
          const row = read(key);
          if (row) rows.push({ key, title: titleOf(row.plan), savedAt: row.savedAt });
        } catch {
          // one that cannot be read must not hide the others; opening it says what is wrong
          rows.push({ key, title: key, savedAt: changedAt(join(works, name)), isDamaged: true });
        }
      }
      return rows.sort((a, b) => b.savedAt.localeCompare(a.savedAt));
    },
  };
}
