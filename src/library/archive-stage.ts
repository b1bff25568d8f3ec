/** One shoot of an archive, put into a library that nobody sees yet. */
import fs from "node:fs";
import { basename, join } from "node:path";
import type { ArchivedPlan } from "../shoots/index.ts";
import { syncFolder, titleOf } from "../workbench/index.ts";
import type { Arriving } from "./archive-arriving.ts";
import { createContent, type ShootDocuments } from "./archive-documents.ts";
import { onDisk } from "./archive-file.ts";
import { type Ids, idsFor } from "./archive-ids.ts";
import { isContent, packShoot } from "./archive-parts.ts";
import { noteReadPattern } from "./facts.ts";
import { packReading } from "./frame-shelf.ts";
import type { Library } from "./open.ts";
import { insertShoot } from "./shoot-rows.ts";
import type { Db } from "./sqlite.ts";
import type { ZipEntries } from "./zip-read.ts";

export interface StagedShoot {
  readonly id: string;
  readonly title: string;
  /** new; there already, and nothing is done; or a second one, because what is there has other content */
  readonly how: "new" | "there" | "second";
  readonly photographs: number;
  readonly content: string;
}

export interface StageParts {
  readonly zip: ZipEntries;
  readonly folder: string;
  readonly documents: ShootDocuments;
  readonly arriving: Arriving;
  readonly library: Library;
  readonly newId: () => string;
  readonly follow: (share: number) => void;
}

/** Far more than a photograph has that is read. */
const MOST_PHOTOGRAPH = 2 ** 31;

export async function stageShoot(staged: Db, parts: StageParts): Promise<StagedShoot> {
  const { documents, library, newId } = parts;
  const { about, frames, content } = documents;
  const ids = idsFor(documents, [library.db, staged], newId);
  staged.exec("SAVEPOINT shoot");
  insertShoot(staged, { ...about.shoot, id: ids.shoot });
  for (const plan of about.plans) await insertPlan(staged, ids, plan, documents);
  await insertFrames(staged, ids, documents, parts.follow);
  const { title } = about.shoot;
  const digest = content.digest();
  const known = await knownAs(library, about.shoot.id, digest);
  if (known !== null) {
    staged.exec("ROLLBACK TO shoot; RELEASE shoot");
    return { id: known, title, how: "there", photographs: 0, content: digest };
  }
  const photographs = await unpack(staged, ids, parts);
  staged.exec("RELEASE shoot");
  const how = ids.areNew ? "second" : "new";
  parts.follow(1);
  return { id: ids.shoot, title, how, photographs: frames.length === 0 ? 0 : photographs, content: digest };
}

/** The shoot of the library that has this content: under its own id, or as the second one that it became before. */
async function knownAs({ db }: Library, id: string, digest: string): Promise<string | null> {
  const isThere = db.prepare("SELECT 1 FROM shoots WHERE id = ?");
  if (isThere.get(id) !== undefined) {
    const content = createContent();
    for (const part of packShoot(db, id, "", null).parts) {
      const bytes = isContent(part) ? await part.bytes() : null;
      if (bytes !== null) content.add(part.name, bytes);
    }
    if (content.digest() === digest) return id;
  }
  const before = db.prepare("SELECT value FROM about WHERE name = ?").get(contentNote(digest));
  const second = (before as { value: string } | undefined)?.value;
  return second !== undefined && isThere.get(second) !== undefined ? second : null;
}

/** Name under which `about` keeps which shoot came of content that could not keep its own id. */
export function contentNote(digest: string): string {
  return `archive ${digest}`;
}

async function insertPlan(db: Db, ids: Ids, plan: ArchivedPlan, documents: ShootDocuments): Promise<void> {
  const { value, text } = await documents.plan(plan.file);
  const history = await documents.json(plan.history);
  const key = ids.key(plan.key);
  db.prepare(
    "INSERT INTO works (key, title, plan, history, revision, by, saved_at, shoot) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
  ).run(key, titleOf(value), text, history, plan.revision, plan.by, plan.savedAt, ids.shoot);
  const version = db.prepare(
    "INSERT INTO versions (id, key, number, name, plan, made_at, is_automatic) VALUES (?, ?, ?, ?, ?, ?, ?)",
  );
  for (const { id, number, name, madeAt, isAutomatic, file } of plan.versions) {
    const { text } = await documents.plan(file);
    version.run(ids.version(id), key, number, name, text, madeAt, Number(isAutomatic));
  }
  const placed = db.prepare("INSERT INTO placed (key, thing, by, at, set_up) VALUES (?, ?, ?, ?, ?)");
  for (const { thing, by, at, setUp } of plan.placed) placed.run(key, thing, by, at, setUp);
  noteReadPattern(db, ids.shoot, key, plan.readPattern);
}

async function insertFrames(
  db: Db,
  ids: Ids,
  { frames, reading, thumbnail }: ShootDocuments,
  follow: (share: number) => void,
): Promise<void> {
  const frame = db.prepare(
    `INSERT INTO frames (id, shoot, key, version, name, bytes, taken_at, arrived_at, width, height, pattern, ratio_stops,
       clipped_skin, stars, is_select) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const part = db.prepare("INSERT INTO frame_parts (id, reading, thumbnail) VALUES (?, ?, ?)");
  for (const [i, row] of frames.entries()) {
    const { name, bytes, takenAt, arrivedAt, width, height, pattern, ratioStops, clippedSkin, stars } = row;
    const id = ids.frame(row.id);
    const key = row.key && ids.key(row.key);
    const version = row.version && ids.version(row.version);
    frame.run(
      ...[id, ids.shoot, key, version, name, bytes, takenAt, arrivedAt, width, height],
      ...[pattern, ratioStops, clippedSkin, stars, Number(row.isSelect)],
    );
    const small = row.thumbnail === null ? null : await thumbnail(row.thumbnail);
    part.run(id, packReading(await reading(row.reading)), small);
    follow((0.2 * (i + 1)) / frames.length);
  }
}

/** The photographs, each waited for until it is on the disk. How many. */
async function unpack(db: Db, ids: Ids, parts: StageParts): Promise<number> {
  const { zip, folder, documents, arriving, follow } = parts;
  const there = documents.frames.filter(({ photograph }) => photograph !== null);
  if (there.length === 0) return 0;
  const place = arriving.place(ids.shoot);
  const path = db.prepare("UPDATE frames SET path = ? WHERE id = ?");
  for (const [i, { id, photograph }] of there.entries()) {
    const name = photograph ?? "";
    const file = fs.openSync(join(place.coming, basename(name)), "wx");
    try {
      for await (const piece of zip.pieces(`${folder}${name}`, MOST_PHOTOGRAPH)) {
        for (let at = 0; at < piece.length; ) at += fs.writeSync(file, piece, at);
        follow(0.2 + (0.8 * i) / there.length);
      }
      await onDisk(file);
    } finally {
      fs.closeSync(file);
    }
    path.run(join(place.final, basename(name)), ids.frame(id));
  }
  syncFolder(fs, place.coming);
  return there.length;
}
