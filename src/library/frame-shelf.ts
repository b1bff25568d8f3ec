/** What the desk puts frames on: read, they lie in the shoot of the work in hand, with its plan as it was. */
import { deflateRawSync, inflateRawSync } from "node:zlib";
import type { CameFrom, FrameShelf, ReadPhoto, ShelfFrame } from "../files/index.ts";
import { factsOfFrame } from "../shoots/index.ts";
import type { PhotoReading } from "../testframe/index.ts";
import type { NewsDesk, TestFrame } from "../workbench/index.ts";
import { noteFrames } from "./facts.ts";
import { idElsewhere, inHand, placeOfFrame } from "./frame-place.ts";
import type { Library } from "./open.ts";
import type { Db } from "./sqlite.ts";

export interface FrameShelfParts {
  readonly now: () => Date;
  readonly newId: () => string;
  readonly news: NewsDesk;
}

interface Standing {
  readonly id: string;
  readonly stars: number;
  readonly is_select: number;
}

export function createFrameShelf(library: Library, parts: FrameShelfParts): FrameShelf {
  const { db, read, write } = library;
  return {
    ids(most) {
      return read(() => {
        const { shoot } = inHand(db, parts.now());
        if (shoot === null) return [];
        const sql = "SELECT id FROM frames WHERE shoot = ? ORDER BY arrived_at DESC, id DESC LIMIT ?";
        return (db.prepare(sql).all(shoot, most) as { id: string }[]).map(({ id }) => id).reverse();
      });
    },
    frame: (id) => read(() => shelfFrame(db, id)),
    put(photo, from) {
      const { frame, shoot } = write(() => putFrame(db, photo, from, parts));
      parts.news.tell({ kind: "shoots", shoot });
      return frame;
    },
    drop(id) {
      const shoot = write(() => {
        const row = db.prepare("DELETE FROM frames WHERE id = ? RETURNING shoot").get(id);
        if (row !== undefined) noteFrames(db, String(row.shoot));
        return row === undefined ? null : String(row.shoot);
      });
      if (shoot !== null) parts.news.tell({ kind: "shoots", shoot });
      return shoot !== null;
    },
    thumbnail(id) {
      const row = read(() => db.prepare("SELECT thumbnail FROM frame_parts WHERE id = ?").get(id));
      return (row?.thumbnail as Uint8Array | null | undefined) ?? null;
    },
    subscribe: (listener) =>
      parts.news.subscribe(({ kind }) => {
        if (kind === "shoots" || kind === "hand") listener();
      }),
  };
}

function putFrame(db: Db, photo: ReadPhoto, from: CameFrom, parts: FrameShelfParts) {
  const { reading } = photo;
  const { image } = reading;
  const { path, bytes, before } = from;
  const now = parts.now();
  const coming = { id: photo.id, takenAt: image.exif.takenAt, name: image.name, before };
  const place = placeOfFrame(db, coming, parts);
  const { shoot } = place;
  const id = idIn(db, shoot, photo.id);
  const replaced = standingAt(db, shoot, [...before, ...(path === null ? [] : [path])], id);
  const stars = Math.max(0, ...replaced.map((row) => row.stars));
  const isSelect = Math.max(0, ...replaced.map((row) => row.is_select));
  const { pattern, ratioStops, clippedSkin } = factsOfFrame(reading);
  // what somebody said of it, and when and under which plan it came first, stays
  const row = db
    .prepare(
      `INSERT INTO frames (id, shoot, key, version, name, path, bytes, taken_at, arrived_at, width, height, pattern,
           ratio_stops, clipped_skin, stars, is_select)
         VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
         ON CONFLICT (id) DO UPDATE SET path = coalesce(excluded.path, path), bytes = excluded.bytes,
           pattern = excluded.pattern, ratio_stops = excluded.ratio_stops, clipped_skin = excluded.clipped_skin,
           stars = max(stars, excluded.stars), is_select = max(is_select, excluded.is_select)
         RETURNING arrived_at`,
    )
    .get(
      ...[id, shoot, place.key, place.version, image.name, path, bytes, image.exif.takenAt],
      ...[now.toISOString(), image.width, image.height, pattern, ratioStops, clippedSkin, stars, isSelect],
    ) as { arrived_at: string };
  db.prepare(
    `INSERT INTO frame_parts (id, reading, thumbnail) VALUES (?, ?, ?)
       ON CONFLICT (id) DO UPDATE SET reading = excluded.reading, thumbnail = excluded.thumbnail`,
  ).run(id, packReading(reading), photo.thumbnail);
  for (const { id: old } of replaced) db.prepare("DELETE FROM frames WHERE id = ?").run(old);
  noteFrames(db, shoot);
  const frame: TestFrame = { id, name: image.name, arrivedAt: row.arrived_at, reading };
  return { frame, shoot };
}

/** The same file is the same frame in a shoot, and another one in another shoot. */
function idIn(db: Db, shoot: string, id: string): string {
  const there = db.prepare("SELECT shoot FROM frames WHERE id = ?").get(id) as { shoot: string } | undefined;
  return there === undefined || there.shoot === shoot ? id : idElsewhere(id, shoot);
}

/** Other frames of the shoot that came from these files. */
function standingAt(db: Db, shoot: string, paths: readonly string[], id: string): Standing[] {
  const select = db.prepare(
    "SELECT id, stars, is_select FROM frames WHERE path = ? AND shoot = ? AND id <> ?",
  );
  return paths.flatMap((path) => select.all(path, shoot, id) as unknown as Standing[]);
}

function shelfFrame(db: Db, id: string): ShelfFrame | null {
  const row = db
    .prepare(
      `SELECT f.name, f.path, f.bytes, f.arrived_at, p.reading FROM frames f JOIN frame_parts p ON p.id = f.id
         WHERE f.id = ?`,
    )
    .get(id) as
    | { name: string; path: string | null; bytes: number | null; arrived_at: string; reading: Uint8Array }
    | undefined;
  if (row === undefined) return null;
  const reading = unpackReading(row.reading);
  return {
    frame: { id, name: row.name, arrivedAt: row.arrived_at, reading },
    path: row.path,
    bytes: row.bytes ?? 0,
  };
}

/** As it lies in `frame_parts`: JSON, deflated (RFC 1951). */
export function packReading(reading: PhotoReading): Uint8Array {
  return deflateRawSync(JSON.stringify(reading));
}

export function unpackReading(packed: Uint8Array): PhotoReading {
  return JSON.parse(inflateRawSync(packed).toString("utf8")) as PhotoReading;
}
