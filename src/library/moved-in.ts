/** What earlier versions kept as files in the data folder comes into the library, once. The files stay where they are. */
import fs from "node:fs";
import { join } from "node:path";
import { gearBookText, readGearBook, type SavedWork, titleOf } from "../workbench/index.ts";
import { namesIn } from "./folder-names.ts";
import { type Around, ownShoot } from "./homes.ts";
import type { Library } from "./open.ts";
import { KEY_PATTERN, type WorkParts } from "./works.ts";

const NOTE = "moved in";

interface OldWork extends SavedWork {
  readonly savedAt: string;
}

/** All of it or nothing. Gives what people should know: files that are damaged and were left. */
export function moveIn(
  library: Library,
  folder: string,
  { now, newId, alongside }: Around & Pick<WorkParts, "alongside">,
): readonly string[] {
  const noted = library.read((db) => db.prepare("SELECT value FROM about WHERE name = ?").get(NOTE));
  if (noted !== undefined) return [];
  const { works, left } = oldWorks(join(folder, "works"));
  const gear = oldGear(join(folder, "gear.json"));
  return library.write((db) => {
    // another copy that was started at the same moment may have been quicker
    const note = db.prepare("INSERT OR IGNORE INTO about (name, value) VALUES (?, ?)");
    const value = JSON.stringify({ from: folder, at: now().toISOString(), works: works.size });
    if (note.run(NOTE, value).changes === 0) return [];
    const put = db.prepare(
      `INSERT OR IGNORE INTO works (key, title, plan, history, revision, by, saved_at, shoot)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    for (const [key, { plan, history, revision, by, savedAt }] of works) {
      if (db.prepare("SELECT 1 FROM works WHERE key = ?").get(key) !== undefined) continue;
      const shoot = newId();
      const title = titleOf(plan);
      ownShoot(db, shoot, title, new Date(savedAt));
      const texts = [JSON.stringify(plan), JSON.stringify(history ?? null)];
      put.run(key, title, ...texts, revision, by ?? null, savedAt, shoot);
      alongside?.({ key, shoot, plan });
    }
    if (gear.text !== null)
      db.prepare("INSERT OR IGNORE INTO gear (one, book, revision) VALUES (1, ?, 1)").run(gear.text);
    return [...left, ...gear.left].map(
      (path) => `${path} is damaged and was left where it is; everything else came into ${library.path}`,
    );
  });
}

function oldWorks(folder: string): { works: ReadonlyMap<string, OldWork>; left: readonly string[] } {
  const works = new Map<string, OldWork>();
  const left: string[] = [];
  for (const name of namesIn(folder).sort()) {
    const key = name.replace(/\.json$/, "");
    if (key === name || !KEY_PATTERN.test(key)) continue;
    const path = join(folder, name);
    const work = parsed(path);
    if (isOldWork(work)) works.set(key, work);
    else left.push(path);
  }
  return { works, left };
}

function oldGear(path: string): { text: string | null; left: readonly string[] } {
  if (!fs.existsSync(path)) return { text: null, left: [] };
  const book = readGearBook(parsed(path));
  return book === null ? { text: null, left: [path] } : { text: gearBookText(book), left: [] };
}

/** Undefined where it cannot be read. */
function parsed(path: string): unknown {
  try {
    return JSON.parse(fs.readFileSync(path, "utf8"));
  } catch {
    return undefined;
  }
}

function isOldWork(value: unknown): value is OldWork {
  if (typeof value !== "object" || value === null) return false;
  const { plan, history, revision, savedAt, by } = value as Partial<Record<keyof OldWork, unknown>>;
  return (
    plan !== undefined &&
    history !== undefined &&
    Number.isSafeInteger(revision) &&
    typeof savedAt === "string" &&
    !Number.isNaN(Date.parse(savedAt)) &&
    (by === undefined || typeof by === "string")
  );
}
