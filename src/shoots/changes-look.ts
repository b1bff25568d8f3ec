/** Two plans side by side: which thing is which, what moved along with the whole set, and where everything stands. */
import type { Direction, Plan } from "../plan/index.ts";
import { measurePlaces, type Place, type Places } from "../sheet/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { isSame, type Said } from "./changes-words.ts";

export interface Side {
  readonly plan: Plan;
  readonly places: Places;
}

export interface Look {
  readonly before: Side;
  readonly after: Side;
  readonly units: LengthUnits;
  /** how far the whole set went across the floor, by itself one change; zero where it stayed */
  readonly shift: readonly [right_m: number, into_m: number];
}

/** What to say of one field of a thing, called where it differs. It says at least one change, unless that of another field
 * has told it. */
export type Tell<Thing> = (before: Thing, after: Thing, look: Look) => readonly Said[];
/** One for every field: a field that is new to the format does not compile until something is said of it. */
export type Tellers<Thing extends object> = { readonly [Key in keyof Thing]-?: Tell<Thing> };

/** A thing with its place among its list's, which the places are told by. */
export interface Pair<Thing> {
  readonly before: Thing;
  readonly after: Thing;
}

export interface Matched<Thing> {
  readonly both: readonly Pair<Thing>[];
  readonly gone: readonly Thing[];
  readonly come: readonly Thing[];
}

interface Named {
  readonly name: string;
}

/** By name; of what is left over, what is the same but for its name was renamed. */
export function matchNamed<Thing extends Named>(
  before: readonly Thing[],
  after: readonly Thing[],
  isSameThing: (before: Thing, after: Thing) => boolean,
): Matched<Thing> {
  const both: Pair<Thing>[] = [];
  const later = new Map(after.map((thing) => [thing.name, thing]));
  const gone: Thing[] = [];
  for (const thing of before) {
    const own = later.get(thing.name);
    if (own === undefined) gone.push(thing);
    else both.push({ before: thing, after: own });
    later.delete(thing.name);
  }
  const come = [...later.values()];
  const left = gone.filter((thing) => {
    const index = come.findIndex((other) => isSameThing(thing, { ...other, name: thing.name }));
    if (index < 0) return true;
    for (const other of come.splice(index, 1)) both.push({ before: thing, after: other });
    return false;
  });
  return { both, gone: left, come };
}

/** Fields that go with the set when all of it is moved. */
interface Placed {
  readonly position?: readonly number[] | undefined;
  readonly direction?: Direction | undefined;
}

/** A plan keeps micrometres: what is shifted is rounded once. */
const ROUNDED_M = 2e-6;

/** Whether a field is the same, once the whole set's own move is taken away. */
export function isSameField<Thing extends object>(
  before: Thing,
  after: Thing,
  key: keyof Thing,
  { shift }: Look,
): boolean {
  const [b, a] = [before[key], after[key]];
  if (isZero(shift)) return isSame(b, a);
  if (key === "position") return isShifted((before as Placed).position, (after as Placed).position, shift);
  const [from, to] = [pointOf((before as Placed).direction), pointOf((after as Placed).direction)];
  if (key === "direction" && from !== undefined && to !== undefined) return isShifted(from, to, shift);
  return isSame(b, a);
}

function pointOf(direction: Direction | undefined): readonly number[] | undefined {
  return direction !== undefined && "at" in direction ? direction.at : undefined;
}

export function isZero([right, into]: Look["shift"]): boolean {
  return right === 0 && into === 0;
}

function isShifted(
  before: readonly number[] | undefined,
  after: readonly number[] | undefined,
  shift: Look["shift"],
): boolean {
  if (before === undefined || after === undefined) return before === after;
  return before.every((value, axis) => Math.abs(value + (shift[axis] ?? 0) - (after[axis] ?? 0)) < ROUNDED_M);
}

export function isSameThing<Thing extends object>(before: Thing, after: Thing, look: Look): boolean {
  const keys = new Set([...Object.keys(before), ...Object.keys(after)]) as Set<string & keyof Thing>;
  return [...keys].every((key) => isSameField(before, after, key, look));
}

/** The plans with everything measured, and the move that most of what stands in them made together. */
export function lookAt(before: Plan, after: Plan, units: LengthUnits): Look {
  return {
    before: { plan: before, places: measurePlaces(before) },
    after: { plan: after, places: measurePlaces(after) },
    units,
    shift: commonShift(before, after),
  };
}

/** What at least half of all there is has made together, somebody who sits there among it. Where two moves could be called
 * that, neither is. */
function commonShift(before: Plan, after: Plan): Look["shift"] {
  const people = movesOf(before.people, after.people);
  const moves = [
    ...people,
    ...movesOf([before.camera], [after.camera]),
    ...movesOf(before.lights, after.lights),
    ...movesOf(before.panels, after.panels),
    ...movesOf(before.meters, after.meters),
    ...movesOf(before.marks, after.marks),
    ...movesOf([before.backdrop ?? {}], [after.backdrop ?? {}]),
  ];
  const along = (move: Look["shift"], own: readonly Look["shift"][]) =>
    own.filter(([x, y]) => Math.abs(x - move[0]) < ROUNDED_M && Math.abs(y - move[1]) < ROUNDED_M).length;
  const common = moves.filter((move) => {
    const count = along(move, moves);
    return count >= 2 && 2 * count >= moves.length && (people.length === 0 || along(move, people) > 0);
  });
  const [first] = common;
  return first !== undefined && along(first, common) === common.length ? first : STAYS;
}

const STAYS: Look["shift"] = [0, 0];

type Standing = Placed & { readonly name?: string };

function movesOf(before: readonly Standing[], after: readonly Standing[]): [number, number][] {
  const later = new Map(after.map((thing) => [thing.name ?? "", thing]));
  return before.flatMap(({ name, position: from }) => {
    const to = later.get(name ?? "")?.position;
    if (from === undefined || to === undefined) return [];
    const move = (axis: number) => Math.round(1e6 * ((to[axis] ?? 0) - (from[axis] ?? 0))) / 1e6;
    return [[move(0), move(1)] as [number, number]];
  });
}

/** What all tellers of a thing have to say of it. */
export function tellAll<Thing extends object>(
  tellers: Tellers<Thing>,
  before: Thing,
  after: Thing,
  look: Look,
): Said[] {
  return (Object.keys(tellers) as (string & keyof Thing)[]).flatMap((key) =>
    isSameField(before, after, key, look) ? [] : tellers[key](before, after, look),
  );
}

/** Where one thing stands on either side. */
export function placesOf(
  list: "lights" | "panels",
  before: string,
  after: string,
  look: Look,
): [Place, Place] {
  const find = ({ places }: Side, name: string): Place => {
    const place = places[list].find((each) => each.name === name);
    if (place === undefined) throw new Error(`${name} stands nowhere`);
    return place;
  };
  return [find(look.before, before), find(look.after, after)];
}
