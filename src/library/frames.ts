/** Test frames as the library lists them, and what people say of them. */
import { takenBefore } from "../files/index.ts";
import type { Pick as FramePick, FrameRow, FrameRows, Stars } from "../shoots/index.ts";
import { WorkError } from "../workbench/index.ts";
import type { Db } from "./sqlite.ts";

const MOST_ROWS = 1000;

export interface FrameTableRow {
  readonly id: string;
  readonly shoot: string;
  readonly key: string | null;
  readonly version: string | null;
  readonly name: string;
  readonly path: string | null;
  readonly taken_at: string | null;
  readonly arrived_at: string;
  readonly width: number;
  readonly height: number;
  readonly pattern: string | null;
  readonly ratio_stops: number | null;
  readonly clipped_skin: number | null;
  readonly stars: number;
  readonly is_select: number;
  readonly has_thumbnail: number;
}

const ROW = `SELECT f.*, (SELECT p.thumbnail IS NOT NULL FROM frame_parts p WHERE p.id = f.id) AS has_thumbnail
  FROM frames f WHERE f.id = ?`;

/** In the order in which they were taken, as on the desk. */
export function framesOf(db: Db, shoot: string, offset: number, limit: number): FrameRows {
  const all = db.prepare("SELECT id, name, taken_at, arrived_at FROM frames WHERE shoot = ?").all(shoot);
  const order = (all as unknown as FrameTableRow[])
    .map((row) => ({ id: row.id, name: row.name, takenAt: row.taken_at, arrivedAt: row.arrived_at }))
    .sort(takenBefore);
  const first = Math.max(0, Math.floor(offset));
  const most = Math.max(0, Math.min(MOST_ROWS, Math.floor(limit)));
  const one = db.prepare(ROW);
  const rows = order.slice(first, first + most).map(({ id }) => one.get(id) as unknown as FrameTableRow);
  return { total: order.length, rows: rows.map(frameOfRow) };
}

/** What people said of each, and where it lies. */
export function picksOf(db: Db, shoot: string) {
  const rows = db
    .prepare("SELECT name, path, stars, is_select FROM frames WHERE shoot = ? ORDER BY name")
    .all(shoot);
  return (rows as unknown as FrameTableRow[]).map(({ name, path, stars, is_select }) => ({
    ...{ name, path, stars: stars as Stars, isSelect: is_select === 1 },
  }));
}

/** Errors  WorkError where there is no such frame, or no such number of stars */
export function pickFrame(db: Db, id: string, { stars, isSelect }: FramePick): FrameRow {
  if (stars !== undefined && !([0, 1, 2, 3, 4, 5] as readonly unknown[]).includes(stars))
    throw new WorkError(`${String(stars)} is no number of stars`, "give 0 to 5");
  if (stars !== undefined) db.prepare("UPDATE frames SET stars = ? WHERE id = ?").run(stars, id);
  if (isSelect !== undefined)
    db.prepare("UPDATE frames SET is_select = ? WHERE id = ?").run(Number(isSelect), id);
  const row = frameWith(db, id);
  if (row === null) throw new WorkError(`there is no frame "${id}"`, "reload the page");
  return row;
}

/** Null where there is none. */
export function frameWith(db: Db, id: string): FrameRow | null {
  const row = db.prepare(ROW).get(id) as FrameTableRow | undefined;
  return row === undefined ? null : frameOfRow(row);
}

function frameOfRow(row: FrameTableRow): FrameRow {
  const { id, shoot, key, version, name, path, width, height, pattern } = row;
  return {
    ...{ id, shoot, key, version, name, path, width, height, pattern },
    takenAt: row.taken_at,
    arrivedAt: row.arrived_at,
    ratioStops: row.ratio_stops,
    clippedSkin: row.clipped_skin,
    stars: row.stars as Stars,
    isSelect: row.is_select === 1,
    hasThumbnail: row.has_thumbnail === 1,
  };
}
