/** Where a thing stands and points, as it is set up: from the nose, up from the floor, and along the floor. */
import { type Direction, directionOf, type Plan, type Vec3 } from "../plan/index.ts";
import type { Place } from "../sheet/index.ts";
import { aimedAt } from "../sheet/target.ts";
import { aimWords, markWords, wallsWords } from "../sheet/words.ts";
import { formatDegrees, formatLength } from "../units/index.ts";
import { isSameField, type Look, type Side } from "./changes-look.ts";
import {
  amountOfDegrees,
  amountOfLength,
  apart,
  lengthApart,
  moreOrLess,
  moveWords,
  type Said,
} from "./changes-words.ts";

/** A thing that moved, in what a tape and a protractor show. Where they show nothing, the move itself. */
export function placeSaid(
  before: Place,
  after: Place,
  from: readonly number[],
  to: readonly number[],
  look: Look,
): Said[] {
  const said = [...noseSaid(before, after, look), ...heightSaid(before, after, look)];
  return said.length > 0 ? said : [floorSaid("place", from, to, look)];
}

function noseSaid({ nose: before }: Place, { nose: after }: Place, { units }: Look): Said[] {
  if (before === null || after === null) return [];
  // with several people, whose nose it is goes with the number where that is another one
  const whose = (person: string) => (before.person === after.person ? "" : ` to ${person}`);
  const said: Said[] = [];
  const put = (which: string, was: string, is: string, change: string) => {
    if (was !== is) said.push({ which, before: was, after: is, change });
  };
  const nearer = lengthApart(before.distance_m, after.distance_m, units);
  put(
    "distance from the nose",
    `${formatLength(before.distance_m, units)}${whose(before.person)}`,
    `${formatLength(after.distance_m, units)}${whose(after.person)}`,
    moreOrLess(nearer, amountOfLength(nearer, units), "farther", "nearer"),
  );
  put(
    "side",
    sideText(before.side_deg),
    sideText(after.side_deg),
    sideChange(before.side_deg, after.side_deg),
  );
  const up = apart(before.elevation_deg, after.elevation_deg, 1);
  put(
    "elevation",
    upText(before.elevation_deg),
    upText(after.elevation_deg),
    moreOrLess(up, amountOfDegrees(up), "steeper", "flatter"),
  );
  return said;
}

function sideText(side_deg: number): string {
  const side = Math.round(side_deg);
  if (side === 0) return "straight ahead";
  if (Math.abs(side) === 180) return "straight behind";
  return `${Math.abs(side)}° to own ${side > 0 ? "left" : "right"}`;
}

function upText(elevation_deg: number): string {
  const up = Math.round(elevation_deg);
  return up === 0 ? "level" : `${Math.abs(up)}° ${up > 0 ? "up" : "down"}`;
}

function sideChange(before: number, after: number): string {
  const further = apart(Math.abs(before), Math.abs(after), 1);
  const words = moreOrLess(further, amountOfDegrees(further), "further round", "less far round");
  // straight behind is on neither side
  const sides = [before, after].map((side) =>
    Math.abs(Math.round(side)) === 180 ? 0 : Math.sign(Math.round(side)),
  );
  const isAcross = sides[0] === -(sides[1] ?? 0) && sides[0] !== 0;
  return isAcross ? `to the other side, ${words}` : words;
}

function heightSaid(before: Place, after: Place, { units }: Look): Said[] {
  const up = lengthApart(before.height_m, after.height_m, units);
  const [was, is] = [formatLength(before.height_m, units), formatLength(after.height_m, units)];
  if (was === is) return [];
  const change = moreOrLess(up, amountOfLength(up, units), "higher", "lower");
  return [{ which: "height", before: was, after: is, change }];
}

type Point = readonly number[];

/** A thing on the floor: where it is from walls or zero point, and which way it went; the set's own move is told by itself. */
export function floorSaid(which: string, from: Point, to: Point, look: Look): Said {
  const { shift, units } = look;
  const [right, into] = [0, 1].map((axis) => (to[axis] ?? 0) - (from[axis] ?? 0) - (shift[axis] ?? 0));
  const [before, after] = floorTexts(from, to, look);
  return { which, before, after, change: moveWords(right ?? 0, into ?? 0, units) };
}

/** From the same two walls on either side: those that are nearer in the mean. From the zero point in open space. */
export function floorTexts(from: Point, to: Point, look: Look): [before: string, after: string] {
  const [b, a] = [look.before.plan.room, look.after.plan.room];
  if (b === null || a === null) return [zeroText(from, look), zeroText(to, look)];
  const isFirst = (axis: 0 | 1, size: "width" | "depth") =>
    2 * ((from[axis] ?? 0) + (to[axis] ?? 0)) <= b[size] + a[size];
  const [isLeft, isNear] = [isFirst(0, "width"), isFirst(1, "depth")];
  const text = ([x = 0, y = 0]: Point, { depth, width }: NonNullable<Plan["room"]>) =>
    wallsWords(
      {
        side: isLeft ? "left" : "right",
        side_m: isLeft ? x : width - x,
        depth: isNear ? "near" : "far",
        depth_m: isNear ? y : depth - y,
      },
      look.units,
    ).join(", ");
  return [text(from, b), text(to, a)];
}

/** From the plan's zero point. */
export function zeroText([right_m = 0, into_m = 0]: Point, { units }: Look): string {
  return markWords({ person: null, distance_m: 0, right_m, into_m }, units).join(", ");
}

interface Aimed {
  readonly position: Vec3;
  readonly direction: Direction;
}

/** What it points at, or its bearing and tilt; and how far it was turned. One that was moved and points the same way is told
 * as moved. */
export function aimSaid(before: Aimed, after: Aimed, look: Look): Said[] {
  const b = directionOf(before.direction, before.position);
  const a = directionOf(after.direction, after.position);
  const change = turnWords(shortWay(a.bearing_deg - b.bearing_deg), a.tilt_deg - b.tilt_deg);
  if (change === SAME_WAY && !isSameField(before, after, "position", look)) return [];
  return [{ which: "aim", before: aimText(before, look.before), after: aimText(after, look.after), change }];
}

const SAME_WAY = "the same way within 1°";

function aimText({ direction, position }: Aimed, { plan, places }: Side): string {
  const { bearing_deg, tilt_deg } = directionOf(direction, position);
  const words = aimWords(((bearing_deg % 360) + 360) % 360, tilt_deg);
  const target = aimedAt(plan, position, direction, places.noses);
  return target === null ? words : `at ${target}, ${words}`;
}

/** Bearings grow to the right, seen along the aim. */
function turnWords(right_deg: number, up_deg: number): string {
  const parts: string[] = [];
  const least = 0.5;
  if (Math.abs(right_deg) >= least)
    parts.push(moreOrLess(right_deg, amountOfDegrees(right_deg), "to the right", "to the left"));
  if (Math.abs(up_deg) >= least) parts.push(moreOrLess(up_deg, amountOfDegrees(up_deg), "up", "down"));
  return parts.length === 0 ? SAME_WAY : parts.join(", ");
}

/** Half a turn either way is the same as the other. */
export function shortWay(degrees: number): number {
  const way = (((degrees % 360) + 540) % 360) - 180;
  return way === -180 ? 180 : way;
}

/** A turn in whole degrees: roll, facing, turn of the head. */
export function angleSaid(
  which: string,
  before: number,
  after: number,
  more: string,
  less: string,
  text: (degrees: number) => string = formatDegrees,
): Said {
  const by = apart(before, after, 1);
  return {
    which,
    before: text(before),
    after: text(after),
    change: moreOrLess(by, amountOfDegrees(by), more, less),
  };
}

/** A length as the sheet writes it. */
export function lengthSaid(
  which: string,
  before: number,
  after: number,
  more: string,
  less: string,
  { units }: Look,
): Said {
  const by = lengthApart(before, after, units);
  return {
    which,
    before: formatLength(before, units),
    after: formatLength(after, units),
    change: moreOrLess(by, amountOfLength(by, units), more, less),
  };
}
