/** The gear book in the user's data folder: one file, replaced whole. */
import fs from "node:fs";
import { join } from "node:path";
import {
  EMPTY_BOOK,
  fileError,
  type GearBook,
  type GearStore,
  gearBookText,
  readGearBook,
  syncFolder,
  WorkError,
  writeWholeFile,
} from "../workbench/index.ts";

const NAME = "gear.json";

/** A book that cannot be read is set aside beside the new one, and the book that is loaded says so. */
export function createGearFile(folder: string, now: () => Date): GearStore {
  const path = join(folder, NAME);
  return {
    async load(): Promise<GearBook> {
      let text: string;
      try {
        text = fs.readFileSync(path, "utf8");
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code === "ENOENT") return EMPTY_BOOK;
        throw fileError(`could not read ${path}`, error);
      }
      return readGearBook(parsed(text)) ?? { ...EMPTY_BOOK, notice: setAside(path, now()) };
    },
    async save(book) {
      try {
        fs.mkdirSync(folder, { recursive: true });
        // a name of its own for each process: two that save at once each write a whole book, and the later one stays
        const temporary = join(folder, `.gear-${process.pid}.tmp`);
        // a process of the same number that was killed while it wrote left its own
        fs.rmSync(temporary, { force: true });
        writeWholeFile(fs, path, temporary, Buffer.from(gearBookText(book)));
        syncFolder(fs, folder);
      } catch (error) {
        if (error instanceof WorkError) throw error;
        throw fileError(`could not keep the gear in ${path}`, error);
      }
    },
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function setAside(path: string, now: Date): string {
  const aside = path.replace(/\.json$/, ` damaged ${now.toISOString().replaceAll(":", "-")}.json`);
  try {
    fs.renameSync(path, aside);
  } catch (error) {
    throw fileError(`the gear book ${path} is damaged and could not be set aside`, error);
  }
  return `the gear book could not be read: it was set aside as ${aside}, and a new one begins`;
}
