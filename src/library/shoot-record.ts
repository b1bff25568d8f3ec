/** What the library has for the record of a shoot: the plan as it was set for the pick, the state before it, the photographs. */
import type { Plan } from "../plan/index.ts";
import type { FrameRow, ShootFields } from "../shoots/index.ts";
import { type OnRecord, openPlan, type RecordPhoto, WorkError } from "../workbench/index.ts";
import { unpackReading } from "./frame-shelf.ts";
import { frameWith } from "./frames.ts";
import type { Library } from "./open.ts";
import { demandShoot } from "./shoot-rows.ts";
import { demandWork, plansOf } from "./shoots-works.ts";
import type { Db } from "./sqlite.ts";
import { versionPlan, versionsOf } from "./versions.ts";

/** The pick and what else is printed. */
const MOST_PHOTOS = 9;

export interface ShootRecord extends OnRecord {
  /** as it was set for the pick, with every reading made */
  readonly plan: Plan;
}

/** `key`: of which plan of the shoot; that of the pick where it is null.
 * Errors  WorkError where there is no such shoot, it has no plan, or a plan cannot be read */
export function recordOf(library: Library, id: string, key: string | null): ShootRecord {
  return library.read((db) => {
    const shoot = demandShoot(db, id);
    const works = plansOf(db, id);
    const frames = chosenFrames(db, id, key);
    const own = key ?? frames[0]?.key ?? works[0]?.key;
    if (own === undefined || !works.some((work) => work.key === own))
      throw new WorkError(
        `${shoot.title.trim() || "the shoot"} has no plan ${key === null ? "yet" : `"${key}"`}`,
        "move a plan into it, or record another shoot",
      );
    const now = planIn(demandWork(db, own).plan, "the plan");
    const [pick] = frames;
    const versions = versionsOf(db, own);
    const of = versions.find((version) => version.id === pick?.version);
    // readings are written down after the frame, too
    const plan = of === undefined ? now : { ...planOfVersion(db, of.id), readings: now.readings };
    const first = versions.find((version) => version.id !== of?.id);
    return {
      plan,
      planned:
        first === undefined || (of !== undefined && first.number > of.number)
          ? null
          : { plan: planOfVersion(db, first.id), name: `version ${first.number}, ${first.name}` },
      shoot: fieldsOf(shoot),
      photos: frames.map((row) => photoOf(db, row)),
    };
  });
}

/** The photographs that a record would have, the pick first.
 * Errors  WorkError where there is no such shoot */
export function recordFrames(library: Library, id: string, key: string | null): FrameRow[] {
  return library.read((db) => chosenFrames(db, demandShoot(db, id).id, key));
}

const PICKED = "(is_select = 1 OR stars > 0)";
const BEST = "is_select DESC, stars DESC, coalesce(taken_at, arrived_at), id";
const LAST = "coalesce(taken_at, arrived_at) DESC, id LIMIT 1";

/** Selects before others, the better rated first; where nothing was picked the last one taken stands for them. */
function chosenFrames(db: Db, shoot: string, key: string | null): FrameRow[] {
  const of = "shoot = ?1 AND (?2 IS NULL OR key = ?2)";
  const found = (rest: string) =>
    db.prepare(`SELECT id FROM frames WHERE ${of} ${rest}`).all(shoot, key) as { id: string }[];
  const picked = found(`AND ${PICKED} ORDER BY ${BEST} LIMIT ${MOST_PHOTOS}`);
  const ids = picked.length > 0 ? picked : found(`ORDER BY ${LAST}`);
  return ids.flatMap(({ id }) => frameWith(db, id) ?? []);
}

function photoOf(db: Db, { id, name, stars, isSelect }: FrameRow): RecordPhoto {
  const row = db.prepare("SELECT reading, thumbnail FROM frame_parts WHERE id = ?").get(id) as {
    reading: Uint8Array;
    thumbnail: Uint8Array | null;
  };
  return { name, stars, isSelect, photo: unpackReading(row.reading), thumbnail: row.thumbnail };
}

function planOfVersion(db: Db, id: string): Plan {
  return planIn(JSON.stringify(versionPlan(db, id)), "its version");
}

function planIn(text: string, what: string): Plan {
  const opened = openPlan(text);
  if (opened.ok) return opened.plan;
  const [{ path, what: wrong }] = opened.problems;
  throw new WorkError(`${what} cannot be read: ${path}: ${wrong}`, "open it in the workbench and correct it");
}

function fieldsOf({ title, date, place, client, notes }: ShootFields): OnRecord["shoot"] {
  return { title, date, place, client, notes };
}
