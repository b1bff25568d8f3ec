/** Shoots, or the whole library, as one archive. */
import fs from "node:fs";
import { shelfText } from "../gear/index.ts";
import { ARCHIVE_VERSION, createNames, documentText, LIBRARY_FORMAT } from "../shoots/index.ts";
import { fileError, gearBookText, readGearBook, WorkError, type WorkOptions } from "../workbench/index.ts";
import { type ArchiveCalls, isSameFile, writeLarge } from "./archive-file.ts";
import { type MakeSheet, type PackedShoot, packShoot } from "./archive-parts.ts";
import { libraryProblem } from "./problems.ts";
import { shelfIn } from "./shelf-store.ts";
import { atOneMoment, type Db } from "./sqlite.ts";
import { writeZip, type ZipPart } from "./zip-write.ts";

export interface ExportOptions extends WorkOptions {
  /** left out: the archive has no sheets */
  readonly sheet?: MakeSheet;
  readonly files?: ArchiveCalls;
}

export interface Exported {
  readonly bytes: number;
  readonly shoots: number;
  readonly plans: number;
  readonly frames: number;
  readonly photographs: number;
  readonly missing: PackedShoot["missing"];
}

/** Writes an archive of one shoot, or of all of them with gear book and shelf, as they are at this moment; who works on goes on.
 * Errors  WorkError where there is no such shoot or the archive cannot be written: what lay at `out` stays, nothing else does */
export async function exportShoots(
  library: { readonly path: string },
  what: { readonly shoot: string } | "all",
  out: string,
  options: ExportOptions = {},
): Promise<Exported> {
  for (const end of ["", "-wal", "-shm"])
    if (isSameFile(out, `${library.path}${end}`))
      throw new WorkError(`${out} is the library itself`, "name another file with --out");
  try {
    return await atOneMoment(library.path, async (db) => {
      const packing =
        what === "all" ? packingAll(db) : { first: [], shoots: [{ id: what.shoot, folder: "" }] };
      const far: Far = { ...NOTHING, missing: [], done: 0, share: 1, expected: 1 };
      const bytes = await writeLarge(
        out,
        (write) =>
          writeZip(partsOf(db, packing, options.sheet ?? null, far), write, (written) =>
            follow(options, written, far),
          ),
        options.files,
      );
      const { shoots, plans, frames, photographs, missing } = far;
      return { bytes, shoots, plans, frames, photographs, missing };
    });
  } catch (error) {
    const told = libraryProblem(error, library.path);
    throw told instanceof WorkError ? told : fileError(`could not write the archive ${out}`, error);
  }
}

const NOTHING = { shoots: 0, plans: 0, frames: 0, photographs: 0 };

/** What has been packed so far, and how far that is. */
interface Far {
  shoots: number;
  plans: number;
  frames: number;
  photographs: number;
  readonly missing: PackedShoot["missing"][number][];
  /** share of the shoots before this one, and of this one */
  done: number;
  share: number;
  /** bytes of this one, as far as they can be foreseen */
  expected: number;
}

/** A shoot's files are listed when its turn comes. */
function* partsOf(db: Db, { first, shoots }: Packing, sheet: MakeSheet | null, far: Far): Generator<ZipPart> {
  yield* first;
  for (const [i, { id, folder }] of shoots.entries()) {
    const shoot = packShoot(db, id, folder, sheet);
    far.done = i / shoots.length;
    far.share = 1 / shoots.length;
    far.expected = expectedBytes(shoot.parts);
    yield* shoot.parts;
    far.shoots++;
    far.plans += shoot.plans;
    far.frames += shoot.frames;
    far.photographs += shoot.photographs;
    far.missing.push(...shoot.missing);
  }
}

interface Packing {
  readonly first: readonly ZipPart[];
  readonly shoots: readonly { readonly id: string; readonly folder: string }[];
}

function packingAll(db: Db): Packing {
  const names = createNames();
  const rows = db.prepare("SELECT id, title, date FROM shoots ORDER BY created_at, id").all() as {
    id: string;
    title: string;
    date: string | null;
  }[];
  const shoots = rows.map(({ id, title, date }) => ({
    id,
    folder: `shoots/${names.take(date === null ? title : `${date} ${title}`, [""], "shoot")}/`,
  }));
  const folders = shoots.map(({ folder }) => folder.slice(0, -1));
  const about = { format: LIBRARY_FORMAT, version: ARCHIVE_VERSION, shoots: folders };
  const gear = gearTextOf(db);
  const shelf = shelfTextOf(db);
  return {
    first: [
      { name: "library.json", bytes: () => Buffer.from(documentText(about)) },
      ...(gear === null ? [] : [{ name: "gear.json", bytes: () => Buffer.from(gear) }]),
      ...(shelf === null ? [] : [{ name: "shelf.json", bytes: () => Buffer.from(shelf) }]),
    ],
    shoots,
  };
}

/** Null where nothing was learnt of gear yet, or the book cannot be read. */
function gearTextOf(db: Db): string | null {
  const row = db.prepare("SELECT book FROM gear").get() as { book: string } | undefined;
  try {
    const book = readGearBook(JSON.parse(row?.book ?? "null"));
    const isEmpty = book === null || Object.keys({ ...book.bodies, ...book.lights }).length === 0;
    return isEmpty ? null : gearBookText(book);
  } catch {
    return null;
  }
}

/** Null where nobody has changed the shelf to begin with, or it cannot be read. */
function shelfTextOf(db: Db): string | null {
  const row = db.prepare("SELECT shelf FROM shelf").get() as { shelf: string } | undefined;
  const shelf = row === undefined ? null : shelfIn(row.shelf);
  return shelf && shelfText(shelf);
}

/** Photographs are what there is much of; the rest is a guess for the progress that is shown. */
function expectedBytes(parts: readonly ZipPart[]): number {
  return parts.reduce((sum, part) => sum + ("path" in part ? part.size : 20_000), 1);
}

function follow({ signal, onProgress }: ExportOptions, written: number, far: Far): void {
  if (signal?.aborted) throw new WorkError("stopped", "nothing was written");
  onProgress?.({ done: far.done + far.share * Math.min(1, written / far.expected), what: "packing" });
}

/** What a file of a shoot's archive may be called. */
export function archiveName(title: string, date: string | null): string {
  return `${createNames().take(date === null ? title : `${date} ${title}`, [".zip"], "shoot")}.zip`;
}

/** As large as the library's files are on the disk. */
export function libraryBytes(path: string): number {
  return ["", "-wal"].reduce(
    (sum, end) => sum + (fs.statSync(`${path}${end}`, { throwIfNoEntry: false })?.size ?? 0),
    0,
  );
}
