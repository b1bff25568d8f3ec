/** What the library's tables say of a shoot, as an archive has it. */
import type { ArchivedFrame, ArchivedPlan, ArchivedShoot, Placed } from "../shoots/index.ts";
import { ARCHIVE_VERSION, createNames, photographEnding, SHOOT_FORMAT } from "../shoots/index.ts";
import type { FrameTableRow } from "./frames.ts";
import { demandShoot } from "./shoot-rows.ts";
import type { Db } from "./sqlite.ts";

interface WorkRow {
  readonly key: string;
  readonly title: string;
  readonly saved_at: string;
  readonly revision: number;
  readonly by: string | null;
}

interface VersionRow {
  readonly id: string;
  readonly number: number;
  readonly name: string;
  readonly made_at: string;
  readonly is_automatic: number;
}

interface FrameRow extends FrameTableRow {
  readonly bytes: number | null;
}

/** Errors  WorkError where there is no such shoot */
export function archivedShoot(db: Db, id: string): ArchivedShoot {
  return {
    format: SHOOT_FORMAT,
    version: ARCHIVE_VERSION,
    shoot: demandShoot(db, id),
    plans: archivedPlans(db, id),
  };
}

function archivedPlans(db: Db, shoot: string): ArchivedPlan[] {
  const names = createNames();
  const works = db
    .prepare("SELECT key, title, saved_at, revision, by FROM works WHERE shoot = ? ORDER BY title, key")
    .all(shoot) as unknown as WorkRow[];
  const read = db.prepare("SELECT value FROM facts WHERE shoot = ? AND source = ? AND kind = 'read pattern'");
  const placed = db.prepare("SELECT thing, by, at, set_up AS setUp FROM placed WHERE key = ? ORDER BY thing");
  return works.map(({ key, title, saved_at, revision, by }) => {
    const stem = names.take(title, [".json", ".history.json"], "plan");
    const pattern = read.get(shoot, key) as { value: string } | undefined;
    return {
      ...{ key, title, savedAt: saved_at, revision, by },
      readPattern: pattern?.value ?? null,
      file: `plans/${stem}.json`,
      history: `plans/${stem}.history.json`,
      placed: (placed.all(key) as unknown as Placed[]).map((p) => ({ ...p })),
      versions: archivedVersions(db, key, stem),
    };
  });
}

function archivedVersions(db: Db, key: string, stem: string): ArchivedPlan["versions"] {
  const names = createNames();
  const rows = db
    .prepare("SELECT id, number, name, made_at, is_automatic FROM versions WHERE key = ? ORDER BY number")
    .all(key) as unknown as VersionRow[];
  return rows.map(({ id, number, name, made_at, is_automatic }) => {
    const called = names.take(`${String(number).padStart(3, "0")} ${name}`, [".json"], "version");
    const file = `versions/${stem}/${called}.json`;
    return { id, number, name, madeAt: made_at, isAutomatic: is_automatic === 1, file };
  });
}

/** A frame as the archive has it, and where its photograph lies; null where it does not lie there any more. */
export interface FrameToPack {
  readonly frame: ArchivedFrame;
  readonly photograph: { readonly path: string; readonly size: number } | null;
}

/** `sizeOf` says how large the file at a path is; null where there is none. */
export function archivedFrames(
  db: Db,
  shoot: string,
  sizeOf: (path: string) => number | null,
): FrameToPack[] {
  const names = createNames();
  const rows = db
    .prepare(
      // a plan that lies in another shoot by now is not in this archive
      `SELECT f.id, w.key, CASE WHEN w.key IS NULL THEN NULL ELSE f.version END AS version, f.name, f.path, f.bytes, f.taken_at,
         f.arrived_at, f.width, f.height, f.pattern, f.ratio_stops, f.clipped_skin, f.stars, f.is_select,
         p.thumbnail IS NOT NULL AS has_thumbnail FROM frames f JOIN frame_parts p ON p.id = f.id
         LEFT JOIN works w ON w.key = f.key AND w.shoot = f.shoot
         WHERE f.shoot = ? ORDER BY f.taken_at, f.arrived_at, f.name, f.id`,
    )
    .all(shoot) as unknown as FrameRow[];
  return rows.map((row) => {
    const { id, key, version, name, path, bytes, width, height, pattern, stars } = row;
    const ending = photographEnding(path ?? name);
    const stem = names.take(name.replace(/\.[^.]*$/, ""), [""], "frame");
    const size = path === null || ending === "" ? null : sizeOf(path);
    // another file may lie there by now
    const isThere = size !== null && (bytes === null || bytes === size);
    const frame: ArchivedFrame = {
      ...{ id, key, version, name, bytes, takenAt: row.taken_at, arrivedAt: row.arrived_at },
      ...{ width, height, pattern, ratioStops: row.ratio_stops, clippedSkin: row.clipped_skin },
      ...{ stars, isSelect: row.is_select === 1 },
      reading: `read/${stem}.json`,
      thumbnail: row.has_thumbnail === 1 ? `thumbnails/${stem}.jpg` : null,
      photograph: isThere ? `frames/${stem}${ending}` : null,
    };
    return { frame, photograph: isThere && path !== null ? { path, size } : null };
  });
}
