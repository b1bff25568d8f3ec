/** Takes archives into the library: all of one or nothing of it. Everything is read and checked first, into a library of its
 * own beside the photographs; then one transaction takes it over. */
import { join } from "node:path";
import type { Shelf } from "../gear/index.ts";
import { checkLibrary } from "../shoots/index.ts";
import { fileError, type GearBook, readGearBook, WorkError, type WorkOptions } from "../workbench/index.ts";
import { type Arriving, beginArriving } from "./archive-arriving.ts";
import { documentProblem, openDocuments } from "./archive-documents.ts";
import { type StagedShoot, stageShoot } from "./archive-stage.ts";
import { takeOver } from "./archive-take.ts";
import type { Around } from "./homes.ts";
import { MIGRATIONS } from "./migrations.ts";
import type { Library } from "./open.ts";
import { libraryProblem } from "./problems.ts";
import { shelfOf } from "./shelf-store.ts";
import { openFile } from "./sqlite.ts";
import { openZip, type ZipEntries } from "./zip-read.ts";

export interface ImportOptions extends WorkOptions, Around {}

export interface Imported {
  readonly shoots: readonly StagedShoot[];
  readonly photographs: number;
  /** entries of the gear book that the library did not have */
  readonly gear: number;
  /** things on its shelf that the library's did not have */
  readonly shelf: number;
}

/** Errors  WorkError: what is wrong with the archive and where, or why it cannot be kept; nothing of it stays then */
export async function importArchive(
  library: Library,
  path: string,
  options: ImportOptions,
): Promise<Imported> {
  let zip: ZipEntries | null = null;
  let arriving: Arriving | null = null;
  try {
    zip = await openZip(path);
    const { folders, gear, shelf } = await contents(zip, path);
    arriving = beginArriving(library);
    const staged = join(arriving.folder, "staged.tapemark");
    const shoots = await stage(library, staged, { zip, path, folders, arriving, options });
    const isNew = shoots.some(({ how }) => how !== "there");
    const isGear = gear !== null || shelf !== null;
    const learnt =
      isNew || isGear ? takeOver(library, { staged, arriving, gear, shelf, shoots }) : { gear: 0, shelf: 0 };
    return {
      shoots,
      photographs: shoots.reduce((sum, { photographs }) => sum + photographs, 0),
      ...learnt,
    };
  } catch (error) {
    const told = libraryProblem(error, library.path);
    throw told instanceof WorkError ? told : fileError(`could not take in ${path}`, error);
  } finally {
    arriving?.clear();
    zip?.close();
  }
}

interface Given {
  readonly zip: ZipEntries;
  readonly path: string;
  readonly folders: readonly string[];
  readonly arriving: Arriving;
  readonly options: ImportOptions;
}

async function stage(library: Library, path: string, given: Given): Promise<StagedShoot[]> {
  const { zip, folders, arriving, options } = given;
  const staged = openFile(path);
  try {
    // nobody else sees it, and where it fails it is thrown away
    staged.exec("PRAGMA journal_mode = MEMORY; PRAGMA synchronous = OFF; PRAGMA foreign_keys = ON; BEGIN");
    for (const step of MIGRATIONS) staged.exec(step);
    const shoots: StagedShoot[] = [];
    for (const [i, folder] of folders.entries()) {
      const follow = (share: number) => {
        if (options.signal?.aborted) throw new WorkError("stopped", "nothing was taken in");
        options.onProgress?.({ done: (i + share) / folders.length, what: "unpacking" });
      };
      follow(0);
      const documents = await openDocuments(zip, given.path, folder);
      const parts = { zip, folder, documents, arriving, library, newId: options.newId, follow };
      shoots.push(await stageShoot(staged, parts));
    }
    staged.exec("COMMIT");
    return shoots;
  } finally {
    staged.close();
  }
}

interface Contents {
  readonly folders: string[];
  readonly gear: GearBook | null;
  readonly shelf: Shelf | null;
}

/** The folders of shoots in an archive, and gear book and shelf where it has them. */
async function contents(zip: ZipEntries, path: string): Promise<Contents> {
  if (zip.has("shoot.json")) return { folders: [""], gear: null, shelf: null };
  if (!zip.has("library.json"))
    throw new WorkError(
      `${path} is no archive of a shoot or a library`,
      "choose one that `tapemark shoots export` or `tapemark library export` wrote",
    );
  const checked = checkLibrary(await jsonOf(zip, path, "library.json"));
  if (!checked.ok) throw documentProblem(path, "library.json", checked.problems);
  const folders = checked.value.shoots.map((folder) => `${folder}/`);
  const documentIn = async <T>(name: string, read: (document: unknown) => T | null, called: string) => {
    if (!zip.has(name)) return null;
    const found = read(await jsonOf(zip, path, name));
    if (found === null) throw documentProblem(path, name, [`is no ${called}`]);
    return found;
  };
  return {
    folders,
    gear: await documentIn("gear.json", readGearBook, "gear book"),
    shelf: await documentIn("shelf.json", shelfOf, "gear shelf"),
  };
}

const MOST_BYTES = 32 * 1024 * 1024;

async function jsonOf(zip: ZipEntries, path: string, file: string): Promise<unknown> {
  const text = (await zip.bytes(file, MOST_BYTES)).toString("utf8");
  try {
    return JSON.parse(text);
  } catch {
    throw documentProblem(path, file, ["is not JSON"]);
  }
}
