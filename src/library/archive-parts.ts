/** The files of an archive, made from what the library keeps. */
import fs from "node:fs";
import { checkPlan } from "../plan/index.ts";
import {
  ARCHIVE_VERSION,
  type ArchivedPlan,
  documentText,
  FRAMES_FORMAT,
  readingsCsv,
} from "../shoots/index.ts";
import { archivedFrames, archivedShoot } from "./archive-rows.ts";
import { unpackReading } from "./frame-shelf.ts";
import { damaged } from "./problems.ts";
import type { Db } from "./sqlite.ts";
import type { ZipPart } from "./zip-write.ts";

/** The placement sheet of a plan, a PDF; null where none can be made of it. */
export type MakeSheet = (plan: unknown) => Promise<Uint8Array | null>;

export interface PackedShoot {
  readonly title: string;
  readonly parts: readonly ZipPart[];
  readonly plans: number;
  readonly frames: number;
  readonly photographs: number;
  /** photographs that are not where they lay: name, and where that was (null: it was never known) */
  readonly missing: readonly { readonly name: string; readonly path: string | null }[];
}

/** Texts and pictures are read from the library when their turn comes.
 * Errors  WorkError where there is no such shoot, or what is kept of it is damaged */
export function packShoot(db: Db, id: string, folder: string, sheet: MakeSheet | null): PackedShoot {
  const about = archivedShoot(db, id);
  const frames = archivedFrames(db, id, sizeOf);
  const documents = { format: FRAMES_FORMAT, version: ARCHIVE_VERSION, frames: frames.map((f) => f.frame) };
  const parts: ZipPart[] = [
    textPart("shoot.json", () => documentText(about)),
    ...about.plans.flatMap((plan) => planParts(db, plan)),
    textPart("readings.csv", () => readingsCsv(plansOf(db, about.plans))),
    textPart("frames.json", () => documentText(documents)),
    ...frames.flatMap(({ frame, photograph }): ZipPart[] => [
      { name: frame.reading, bytes: () => Buffer.from(documentText(readingOf(db, frame.id))) },
      ...(frame.thumbnail === null
        ? []
        : [{ name: frame.thumbnail, bytes: () => thumbnailOf(db, frame.id) }]),
      ...(frame.photograph === null || photograph === null
        ? []
        : [{ name: frame.photograph, ...photograph }]),
    ]),
    ...(sheet === null ? [] : about.plans.map((plan) => sheetPart(db, plan, sheet))),
  ];
  return {
    title: about.shoot.title,
    parts: parts.map((part) => ({ ...part, name: `${folder}${part.name}` })),
    plans: about.plans.length,
    frames: frames.length,
    photographs: frames.filter(({ photograph }) => photograph !== null).length,
    missing: missingOf(db, frames),
  };
}

/** Whether it is part of what the library keeps: the rest is made from it, or lies elsewhere. */
export function isContent(part: ZipPart): part is ZipPart & { readonly bytes: () => Uint8Array } {
  return "bytes" in part && !/^(readings\.csv$|sheets\/)/.test(part.name);
}

function planParts(db: Db, plan: ArchivedPlan): ZipPart[] {
  return [
    textPart(plan.file, () => documentText(planOf(db, plan.key))),
    textPart(plan.history, () => documentText(parsed(db, columnOf(db, "history", plan.key)))),
    ...plan.versions.map(({ id, file }) =>
      textPart(file, () => {
        const row = db.prepare("SELECT plan FROM versions WHERE id = ?").get(id) as { plan: string };
        return documentText(parsed(db, row.plan));
      }),
    ),
  ];
}

function sheetPart(db: Db, { key, file }: ArchivedPlan, sheet: MakeSheet): ZipPart {
  const name = file.replace(/^plans\/(.*)\.json$/, "sheets/$1.pdf");
  return { name, bytes: () => sheet(planOf(db, key)) };
}

function textPart(name: string, text: () => string): ZipPart {
  return { name, bytes: () => Buffer.from(text()) };
}

function columnOf(db: Db, column: "plan" | "history", key: string): string {
  const row = db.prepare("SELECT plan, history FROM works WHERE key = ?").get(key);
  return (row as { plan: string; history: string })[column];
}

function planOf(db: Db, key: string): unknown {
  return parsed(db, columnOf(db, "plan", key));
}

/** A plan that cannot be read any more has no readings to list; it is in the archive as it is. */
function plansOf(db: Db, plans: readonly ArchivedPlan[]) {
  return plans.flatMap(({ key, title }) => {
    const checked = checkPlan(planOf(db, key));
    return checked.ok ? [{ title, plan: checked.plan }] : [];
  });
}

function readingOf(db: Db, id: string): unknown {
  const row = db.prepare("SELECT reading FROM frame_parts WHERE id = ?").get(id);
  try {
    return unpackReading((row as { reading: Uint8Array }).reading);
  } catch {
    throw damaged(db.location() ?? "the library");
  }
}

function thumbnailOf(db: Db, id: string): Uint8Array {
  const row = db.prepare("SELECT thumbnail FROM frame_parts WHERE id = ?").get(id);
  return (row as { thumbnail: Uint8Array }).thumbnail;
}

function parsed(db: Db, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw damaged(db.location() ?? "the library");
  }
}

function missingOf(db: Db, frames: ReturnType<typeof archivedFrames>): PackedShoot["missing"] {
  const path = db.prepare("SELECT path FROM frames WHERE id = ?");
  return frames
    .filter(({ photograph }) => photograph === null)
    .map(({ frame }) => ({ name: frame.name, path: (path.get(frame.id) as { path: string | null }).path }));
}

/** Only what lies there as a plain file: a folder, a pipe or a device is no photograph. */
function sizeOf(path: string): number | null {
  try {
    const there = fs.statSync(path);
    return there.isFile() ? there.size : null;
  } catch {
    return null;
  }
}
