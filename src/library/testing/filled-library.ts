/** Shoots with everything in them, put straight into a library's tables: archives and copies are held against these. */
import fs from "node:fs";
import { join } from "node:path";
import { factsOfPlan } from "../../shoots/index.ts";
import type { PhotoReading } from "../../testframe/index.ts";
import { titleOf } from "../../workbench/index.ts";
import { noteFields, noteFrames, noteReadPattern, noteWork } from "../facts.ts";
import { packReading } from "../frame-shelf.ts";
import type { Library } from "../open.ts";

export interface MadePlan {
  readonly key: string;
  readonly plan: unknown;
  readonly history: unknown;
  readonly by: string | null;
  readonly pattern: string | null;
  readonly placed: readonly string[];
  readonly versions: readonly { readonly name: string; readonly plan: unknown }[];
}

export interface MadeFrame {
  readonly id: string;
  readonly name: string;
  /** bytes of the photograph; null where it is not there, or was handed over */
  readonly photograph: Uint8Array | null;
  readonly thumbnail: boolean;
  readonly reading: Readonly<Record<string, unknown>>;
  readonly stars: number;
  readonly isSelect: boolean;
  /** number of the plan it was shot on */
  readonly plan: number | null;
  readonly ratioStops: number | null;
}

export interface MadeShoot {
  readonly id: string;
  readonly title: string;
  readonly date: string | null;
  readonly notes: string;
  readonly isPutAway: boolean;
  readonly plans: readonly MadePlan[];
  readonly frames: readonly MadeFrame[];
}

const AT = "2026-11-26T10:00:00.000Z";
const JPEG = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]);

/** Photographs lie in `photographs`, each in a folder of its own. */
export function fill(library: Library, shoot: MadeShoot, photographs: string): void {
  library.write((db) => {
    db.prepare(
      `INSERT INTO shoots (id, title, date, place, client, notes, is_put_away, created_at, changed_at, revision)
         VALUES (?, ?, ?, 'Studio two', 'Halden Quartet', ?, ?, ?, ?, 3)`,
    ).run(shoot.id, shoot.title, shoot.date, shoot.notes, Number(shoot.isPutAway), AT, AT);
    for (const plan of shoot.plans) fillPlan(library, shoot.id, plan);
    for (const frame of shoot.frames) fillFrame(library, shoot, frame, photographs);
    noteFrames(db, shoot.id);
    noteFields(db, shoot.id);
  });
}

function fillPlan({ db }: Library, shoot: string, made: MadePlan): void {
  const { key, plan, history, by, placed, versions } = made;
  db.prepare(
    "INSERT INTO works (key, title, plan, history, revision, by, saved_at, shoot) VALUES (?, ?, ?, ?, 7, ?, ?, ?)",
  ).run(key, titleOf(plan), JSON.stringify(plan), JSON.stringify(history), by, AT, shoot);
  for (const [i, { name, plan }] of versions.entries())
    db.prepare(
      "INSERT INTO versions (id, key, number, name, plan, made_at, is_automatic) VALUES (?, ?, ?, ?, ?, ?, ?)",
    ).run(`${key}-v${i}`, key, i + 1, name, JSON.stringify(plan), AT, i % 2);
  for (const thing of placed)
    db.prepare("INSERT INTO placed (key, thing, by, at, set_up) VALUES (?, ?, 'Ada', ?, ?)").run(
      key,
      thing,
      AT,
      `set up as ${thing}`,
    );
  noteWork(db, shoot, key, factsOfPlan(plan));
  noteReadPattern(db, shoot, key, made.pattern);
}

function fillFrame({ db }: Library, shoot: MadeShoot, frame: MadeFrame, photographs: string): void {
  const { id, name, photograph, reading, stars, isSelect, ratioStops } = frame;
  const plan = frame.plan === null ? undefined : shoot.plans[frame.plan];
  const folder = join(photographs, id);
  const path = photograph === null ? null : join(folder, name);
  if (photograph !== null && path !== null) {
    fs.mkdirSync(folder, { recursive: true });
    fs.writeFileSync(path, photograph);
  }
  const version = plan && plan.versions.length > 0 ? `${plan.key}-v0` : null;
  db.prepare(
    `INSERT INTO frames (id, shoot, key, version, name, path, bytes, taken_at, arrived_at, width, height, pattern,
       ratio_stops, clipped_skin, stars, is_select) VALUES (?, ?, ?, ?, ?, ?, ?, NULL, ?, 6000, 4000, 'loop', ?, 0.02, ?, ?)`,
  ).run(
    ...[id, shoot.id, plan?.key ?? null, version, name, path, photograph?.length ?? null, AT],
    ...[ratioStops, stars, Number(isSelect)],
  );
  const image = { name, width: 6000, height: 4000, exif: {} };
  const read = { image, faces: [], warnings: [], ...reading } as unknown as PhotoReading;
  db.prepare("INSERT INTO frame_parts (id, reading, thumbnail) VALUES (?, ?, ?)").run(
    id,
    packReading(read),
    frame.thumbnail ? JPEG : null,
  );
}

const EMPTY_PLAN = {
  format: "tapemark/plan",
  version: 1,
  title: "Cellist",
  room: { width: 5, depth: 6, height: 3 },
};

/** A shoot with two plans of one title, versions, and frames of which one photograph is missing. */
export function cellistShoot(id = "cellist"): MadeShoot {
  const plan = (key: string): MadePlan => ({
    key: `${id}-${key}`,
    plan: { ...EMPTY_PLAN, camera: { position: [2.5000001, 0.1 + 0.2, 1.5] } },
    history: { opened: "", at: 0, parts: [1, "two"], steps: [] },
    by: "window-1",
    pattern: "loop",
    placed: ["camera"],
    versions: [
      { name: "first light", plan: EMPTY_PLAN },
      { name: "CON", plan: { ...EMPTY_PLAN, title: "after the break" } },
    ],
  });
  const frame = (name: string, photograph: string | null, number: number | null): MadeFrame => ({
    id: `${id}-${name}-${photograph === null}`,
    name,
    photograph: photograph === null ? null : Buffer.from(photograph),
    thumbnail: photograph !== null,
    reading: {},
    stars: 4,
    isSelect: number === 0,
    plan: number,
    ratioStops: 1 / 3,
  });
  return {
    id,
    title: "Cellist / season poster",
    date: "2026-11-26",
    notes: "Bow from the left.\nQuiet room.",
    isPutAway: false,
    plans: [plan("plan"), plan("second")],
    frames: [
      frame("IMG_0001.JPG", "a photograph", 0),
      frame("IMG_0001.jpg", "another of that name", 1),
      frame("IMG_0002.JPG", null, null),
    ],
  };
}
