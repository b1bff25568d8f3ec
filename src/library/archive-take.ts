/** The one transaction that takes what was unpacked and checked over into the library. */
import { addedToShelf, EMPTY_SHELF, type Shelf, shelfText } from "../gear/index.ts";
import { factsOfPlan } from "../shoots/index.ts";
import { type GearBook, gearBookText, readGearBook } from "../workbench/index.ts";
import type { Arriving } from "./archive-arriving.ts";
import { contentNote, type StagedShoot } from "./archive-stage.ts";
import { noteFields, noteFrames, noteWork } from "./facts.ts";
import type { Library } from "./open.ts";
import { shelfIn } from "./shelf-store.ts";
import type { Db } from "./sqlite.ts";

export interface Taken {
  /** the library that it was unpacked into */
  readonly staged: string;
  readonly arriving: Arriving;
  readonly gear: GearBook | null;
  readonly shelf: Shelf | null;
  readonly shoots: readonly StagedShoot[];
}

const COPY = [
  `INSERT INTO main.shoots (id, title, date, place, client, notes, is_put_away, created_at, changed_at, revision)
     SELECT id, title, date, place, client, notes, is_put_away, created_at, changed_at, revision FROM staged.shoots`,
  `INSERT INTO main.works (key, title, plan, history, revision, by, saved_at, shoot)
     SELECT key, title, plan, history, revision, by, saved_at, shoot FROM staged.works`,
  `INSERT INTO main.versions (id, key, number, name, plan, made_at, is_automatic)
     SELECT id, key, number, name, plan, made_at, is_automatic FROM staged.versions`,
  `INSERT INTO main.frames (id, shoot, key, version, name, path, bytes, taken_at, arrived_at, width, height, pattern,
       ratio_stops, clipped_skin, stars, is_select)
     SELECT id, shoot, key, version, name, path, bytes, taken_at, arrived_at, width, height, pattern, ratio_stops,
       clipped_skin, stars, is_select FROM staged.frames`,
  `INSERT INTO main.frame_parts (id, reading, thumbnail) SELECT id, reading, thumbnail FROM staged.frame_parts`,
  `INSERT INTO main.placed (key, thing, by, at, set_up) SELECT key, thing, by, at, set_up FROM staged.placed`,
  `INSERT INTO main.facts (shoot, kind, value, source)
     SELECT shoot, kind, value, source FROM staged.facts WHERE kind = 'read pattern'`,
];

/** How many entries of the gear book and things on the shelf are new. */
export interface TakenGear {
  readonly gear: number;
  readonly shelf: number;
}

export function takeOver(library: Library, { staged, arriving, gear, shelf, shoots }: Taken): TakenGear {
  const fresh = shoots.filter(({ how }) => how !== "there");
  library.db.prepare("ATTACH ? AS staged").run(staged);
  let learnt: TakenGear = { gear: 0, shelf: 0 };
  try {
    library.write((db) => {
      for (const copy of COPY) db.exec(copy);
      for (const { id, how, content } of fresh) {
        find(db, id);
        if (how === "second")
          db.prepare("INSERT OR REPLACE INTO about (name, value) VALUES (?, ?)").run(
            contentNote(content),
            id,
          );
      }
      learnt = {
        gear: gear === null ? 0 : takeGear(db, gear),
        shelf: shelf === null ? 0 : takeShelf(db, shelf),
      };
      arriving.note(db);
    });
  } finally {
    library.db.exec("DETACH staged");
  }
  arriving.settle(library);
  return learnt;
}

/** What it is searched by. */
function find(db: Db, shoot: string): void {
  const works = db.prepare("SELECT key, plan FROM works WHERE shoot = ?").all(shoot);
  for (const { key, plan } of works as { key: string; plan: string }[])
    noteWork(db, shoot, key, factsOfPlan(JSON.parse(plan)));
  noteFrames(db, shoot);
  noteFields(db, shoot);
}

/** What was learnt here stays as it is; what only the archive knows is added. */
function takeGear(db: Db, gear: GearBook): number {
  const row = db.prepare("SELECT book, revision FROM gear").get() as
    | { book: string; revision: number }
    | undefined;
  const here = row === undefined ? { bodies: {}, lights: {} } : bookOf(row.book);
  // one that cannot be read is kept as it is, for whoever loads it to set aside
  if (here === null) return 0;
  const book = { bodies: added(here.bodies, gear.bodies), lights: added(here.lights, gear.lights) };
  const count = (b: GearBook) => Object.keys(b.bodies).length + Object.keys(b.lights).length;
  const learnt = count(book) - count(here);
  if (learnt > 0)
    db.prepare(
      `INSERT INTO gear (one, book, revision) VALUES (1, ?, ?)
         ON CONFLICT (one) DO UPDATE SET book = excluded.book, revision = excluded.revision`,
    ).run(gearBookText(book), (row?.revision ?? 0) + 1);
  return learnt;
}

/** A shelf that was never changed here is only the one to begin with: the archive's takes its place. */
function takeShelf(db: Db, archived: Shelf): number {
  const row = db.prepare("SELECT shelf, revision FROM shelf").get() as
    | { shelf: string; revision: number }
    | undefined;
  const here = row === undefined ? EMPTY_SHELF : shelfIn(row.shelf);
  // one that cannot be read is kept as it is, for whoever loads it to set aside
  if (here === null) return 0;
  const { added, shelf } = addedToShelf(here, archived);
  if (added > 0 || row === undefined)
    db.prepare(
      `INSERT INTO shelf (one, shelf, revision) VALUES (1, ?, ?)
         ON CONFLICT (one) DO UPDATE SET shelf = excluded.shelf, revision = excluded.revision`,
    ).run(shelfText(shelf), (row?.revision ?? 0) + 1);
  return added;
}

function bookOf(text: string): GearBook | null {
  try {
    return readGearBook(JSON.parse(text));
  } catch {
    return null;
  }
}

function added<T>(
  here: Readonly<Record<string, T>>,
  archived: Readonly<Record<string, T>>,
): Record<string, T> {
  return Object.fromEntries([
    ...Object.entries(here),
    ...Object.entries(archived).filter(([key]) => !Object.hasOwn(here, key)),
  ]);
}
