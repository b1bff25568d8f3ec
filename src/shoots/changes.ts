/** What differs between two plans, as a photographer would say it. */
import type { ListName, Plan } from "../plan/index.ts";
import { faceWords, meterWords } from "../sheet/words.ts";
import type { LengthUnits } from "../units/index.ts";
import { briefSaid } from "./changes-brief.ts";
import { LIGHT, lightText, PANEL } from "./changes-lights.ts";
import {
  isSameThing,
  isZero,
  type Look,
  lookAt,
  matchNamed,
  type Side,
  type Tellers,
  tellAll,
} from "./changes-look.ts";
import { CAMERA, MARK, METER, PERSON } from "./changes-people.ts";
import { floorTexts } from "./changes-places.ts";
import { readingsSaid } from "./changes-readings.ts";
import { circuitsSaid, shootingSaid } from "./changes-rig.ts";
import { ambientSaid, backdropSaid, printSaid, roomSaid } from "./changes-set.ts";
import { isSame, listText, moveWords, type Said } from "./changes-words.ts";
import type { PlanChange } from "./types.ts";

/** Everything in which two plans differ, thing by thing; none where they are the same, at least one where they are not.
 * Things are known by name; one that is the same but for its name was renamed. What most of the set did together (all of
 * it a metre to the left) is one change. The other way round it is the same list with before and after in each other's place.
 * Units   lengths as `units` says; stops, degrees, mired
 * Errors  none: both are checked plans
 * @example key 2.5 to 3.2 stops down -> { what: "key", which: "power", before: "−2.5 of 400 Ws", change: "0.7 stop down" } */
export function planChanges(before: Plan, after: Plan, units: LengthUnits): PlanChange[] {
  if (isSame(before, after)) return [];
  const look = lookAt(before, after, units);
  return [...shiftSaid(look), ...Object.values(PLAN).flatMap((differs) => differs(before, after, look))];
}

type Own = { readonly [Key in Exclude<keyof Plan, "format" | "version">]-?: Differs };
type Differs = (before: Plan, after: Plan, look: Look) => PlanChange[];

/** One for every part of a plan, in the order in which a set is looked over. */
const PLAN: Own = {
  title: (before, after) =>
    about("plan", before.title, after.title, (b, a) => [
      { which: "title", before: b, after: a, change: "renamed" },
    ]),
  room: (before, after, look) => about("room", before.room, after.room, (b, a) => roomSaid(b, a, look)),
  ambient: (before, after) =>
    about("room", before.ambient.lux, after.ambient.lux, (b, a) => [ambientSaid(b, a)]),
  people: (before, after, look) =>
    listSaid("people", PERSON, before.people, after.people, look, ({ pose }) => pose),
  camera: (before, after, look) => of("camera", tellAll(CAMERA, before.camera, after.camera, look)),
  lights: (before, after, look) =>
    listSaid("lights", LIGHT, before.lights, after.lights, look, (light) => lightText(light, look)),
  panels: (before, after, look) =>
    listSaid("panels", PANEL, before.panels, after.panels, look, ({ height, width }) =>
      faceWords({ shape: "rectangle", width, height }, look.units),
    ),
  backdrop: (before, after, look) => of("backdrop", backdropSaid(before.backdrop, after.backdrop, look)),
  meters: (before, after, look) =>
    listSaid("meters", METER, before.meters, after.meters, look, (meter, { plan, places }) =>
      meterWords(plan, plan.meters.indexOf(meter), places.noses),
    ),
  marks: (before, after, look) =>
    listSaid("marks", MARK, before.marks, after.marks, look, () => "tape on the floor"),
  readings: (before, after, look) => readingsSaid(before.readings, after.readings, look),
  print: (before, after, look) =>
    about("picture", before.print, after.print, (b, a) => printSaid(b, a, look)),
  circuits: (before, after) =>
    about("mains", before.circuits, after.circuits, (b, a) => [circuitsSaid(b, a)]),
  shooting: (before, after) =>
    about("shooting", before.shooting, after.shooting, (b, a) => [shootingSaid(b, a)]),
  brief: (before, after, look) => about("brief", before.brief, after.brief, (b, a) => briefSaid(b, a, look)),
  photometry: (before, after) => photometrySaid(before.photometry ?? {}, after.photometry ?? {}),
};

function of(what: string, said: readonly Said[]): PlanChange[] {
  return said.map((each) => ({ what, ...each }));
}

function about<Value>(
  what: string,
  before: Value,
  after: Value,
  tell: (before: Value, after: Value) => readonly Said[],
): PlanChange[] {
  return isSame(before, after) ? [] : of(what, tell(before, after));
}

function listSaid<Thing extends { readonly name: string }>(
  list: ListName,
  tellers: Tellers<Thing>,
  before: readonly Thing[],
  after: readonly Thing[],
  look: Look,
  text: (thing: Thing, side: Side) => string,
): PlanChange[] {
  const { both, come, gone } = matchNamed(before, after, (b, a) => isSameThing(b, a, look));
  return [
    ...both.flatMap((pair) => of(pair.after.name, tellAll(tellers, pair.before, pair.after, look))),
    ...gone.map((thing) => existence(thing.name, text(thing, look.before), "")),
    ...come.map((thing) => existence(thing.name, "", text(thing, look.after))),
    ...orderSaid(list, both, before, after),
  ];
}

function existence(what: string, before: string, after: string): PlanChange {
  return { what, which: "there", before, after, change: after === "" ? "taken away" : "added" };
}

/** Things that are on both sides, one before the other on one side and after it on the other. */
function orderSaid<Thing extends { readonly name: string }>(
  list: ListName,
  both: readonly { readonly before: Thing; readonly after: Thing }[],
  before: readonly Thing[],
  after: readonly Thing[],
): PlanChange[] {
  const first = [...both].sort((a, b) => before.indexOf(a.before) - before.indexOf(b.before));
  const then = [...both].sort((a, b) => after.indexOf(a.after) - after.indexOf(b.after));
  if (first.every((pair, i) => pair === then[i])) return [];
  return [
    {
      what: list,
      which: "order",
      before: listText(first.map((pair) => pair.before.name)),
      after: listText(then.map((pair) => pair.after.name)),
      change: "in another order",
    },
  ];
}

/** All of the set moved across the floor: told once, from where the first person stands, or else the camera. */
function shiftSaid(look: Look): PlanChange[] {
  const { after, before, shift, units } = look;
  if (isZero(shift)) return [];
  const [from, to] = [before, after].map(({ plan }) => (plan.people[0] ?? plan.camera).position);
  const [was, is] = floorTexts(from ?? [], to ?? [], look);
  const [right, into] = shift;
  const change = `all of it ${moveWords(right, into, units)}`;
  return [{ what: "set", which: "place in the room", before: was, after: is, change }];
}

function photometrySaid(
  before: Readonly<Record<string, string>>,
  after: Readonly<Record<string, string>>,
): PlanChange[] {
  const names = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return names.flatMap((name) => {
    const [b, a] = [before[name], after[name]];
    if (b === a) return [];
    const text = (file: string | undefined) => (file === undefined ? "" : "photometric file");
    const change = b === undefined ? "added" : a === undefined ? "taken away" : "another text";
    return [{ what: name, which: "photometry", before: text(b), after: text(a), change }];
  });
}

/** What a change is to: where light comes from, how much of it there is, or neither. They are told apart. */
export type ChangePart = "direction" | "power" | "other";

const DIRECTION = [
  "distance from the nose",
  "side",
  "elevation",
  "height",
  "place",
  "mark",
  "facing",
  "aim",
  "roll",
];
const POWER = [
  "power",
  "on or off",
  "front",
  "beam",
  "colour",
  "gel",
  "calibration",
  "dial",
  "lets through",
  "surface",
];
const EXPOSURE = ["aperture", "shutter", "ISO", "white balance"];

export function partOfChange({ which }: PlanChange): ChangePart {
  if (DIRECTION.includes(which)) return "direction";
  return POWER.includes(which) || EXPOSURE.includes(which) ? "power" : "other";
}

export interface ChangeGroup {
  readonly what: string;
  readonly parts: readonly { readonly part: ChangePart; readonly changes: readonly PlanChange[] }[];
}

const PARTS: readonly ChangePart[] = ["direction", "power", "other"];

/** The changes thing by thing, and of each thing direction and power apart. */
export function changeGroups(changes: readonly PlanChange[]): ChangeGroup[] {
  return [...new Set(changes.map(({ what }) => what))].map((what) => {
    const own = changes.filter((change) => change.what === what);
    const parts = PARTS.map((part) => ({
      part,
      changes: own.filter((change) => partOfChange(change) === part),
    }));
    return { what, parts: parts.filter((each) => each.changes.length > 0) };
  });
}
