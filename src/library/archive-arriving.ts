/** Where an archive is unpacked before it counts: a folder beside the photographs that it brought before. What a killed import
 * leaves there is cleared, or finished where the library has it already. */
import { randomBytes } from "node:crypto";
import fs from "node:fs";
import { dirname, join } from "node:path";
import { syncFolder } from "../workbench/index.ts";
import type { Library } from "./open.ts";
import type { Db } from "./sqlite.ts";

const ARRIVING = /^\.arriving-(\d{1,10})-[0-9a-f]{12}$/;
/** Name of what `about` keeps from the commit until all folders are in their places. */
const NOTE = "arriving ";

/** Where photographs of imported shoots lie: a folder a shoot. */
function photographsFolder(library: Pick<Library, "path">): string {
  return join(dirname(library.path), "photographs");
}

export interface Arriving {
  readonly folder: string;
  /** the folder that a shoot's photographs will lie in; unpacked into `coming` */
  place(shoot: string): { readonly coming: string; readonly final: string };
  /** within the transaction that takes the shoots in */
  note(db: Db): void;
  /** after it */
  settle(library: Library): void;
  /** in any case, at the end */
  clear(): void;
}

export function beginArriving(library: Library): Arriving {
  const photographs = photographsFolder(library);
  fs.mkdirSync(photographs, { recursive: true });
  const name = `.arriving-${process.pid}-${randomBytes(6).toString("hex")}`;
  const folder = join(photographs, name);
  fs.mkdirSync(folder);
  const places = new Set<string>();
  let isTaken = false;
  return {
    folder,
    place(shoot) {
      const isFree = (final: string) => !fs.existsSync(join(photographs, final));
      let final = shoot.replace(/[^\w-]/g, "-");
      for (let number = 2; !isFree(final); number++) final = `${shoot.replace(/[^\w-]/g, "-")}-${number}`;
      const coming = join(folder, final);
      fs.mkdirSync(coming, { recursive: true });
      places.add(final);
      return { coming, final: join(photographs, final) };
    },
    note(db) {
      db.prepare("INSERT INTO about (name, value) VALUES (?, ?)").run(
        `${NOTE}${name}`,
        JSON.stringify([...places]),
      );
    },
    settle(into) {
      isTaken = true;
      settle(into, name);
      isTaken = false;
    },
    clear() {
      // what the library has and could not be put in its place stays for the next start
      if (!isTaken) fs.rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Puts the folders of an import that counts into their places, and forgets about it. */
function settle(library: Library, name: string): void {
  const photographs = photographsFolder(library);
  const about = library.db.prepare("SELECT value FROM about WHERE name = ?").get(`${NOTE}${name}`);
  for (const final of JSON.parse((about as { value: string }).value) as string[]) {
    const [from, to] = [join(photographs, name, final), join(photographs, final)];
    if (fs.existsSync(from)) fs.renameSync(from, to);
  }
  syncFolder(fs, photographs);
  library.write((db) => db.prepare("DELETE FROM about WHERE name = ?").run(`${NOTE}${name}`));
}

/** What imports left that were ended in between: at the start, before anything else. Folders of an import that is still going
 * on, and files of anybody else, are left alone.
 * Errors  none: what cannot be cleared now is cleared another time */
export function clearArriving(library: Library): void {
  const photographs = photographsFolder(library);
  let names: string[];
  try {
    names = fs.readdirSync(photographs);
  } catch {
    return; // nothing was ever imported
  }
  for (const name of names) {
    const process = ARRIVING.exec(name)?.[1];
    if (process === undefined || isRunning(Number(process))) continue;
    try {
      const isTaken = library.read((db) =>
        db.prepare("SELECT 1 FROM about WHERE name = ?").get(`${NOTE}${name}`),
      );
      if (isTaken !== undefined) settle(library, name);
      fs.rmSync(join(photographs, name), { recursive: true, force: true });
    } catch {
      // a disk that is read-only or full now
    }
  }
}

function isRunning(id: number): boolean {
  if (id === process.pid) return true;
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}
