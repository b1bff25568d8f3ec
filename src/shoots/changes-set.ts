/** What differs at the room, the backdrop, and what light is there anyway. */
import type { Backdrop, Plan, Room } from "../plan/index.ts";
import { backdropWords } from "../sheet/words.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import { calibrationChange, pinSaid, reflectanceSaid } from "./changes-lights.ts";
import { type Look, type Tellers, tellAll } from "./changes-look.ts";
import { facingSaid, wordSaid } from "./changes-people.ts";
import { floorSaid, lengthSaid } from "./changes-places.ts";
import { printedSaid, sprinklersSaid } from "./changes-rig.ts";
import { amountOfStops, moreOrLess, type Said } from "./changes-words.ts";

type RoomCalibration = NonNullable<Room["calibration"]>;

const surface =
  (name: keyof Room["reflectance"], which: string) =>
  (before: Room["reflectance"], after: Room["reflectance"]): Said[] => [
    reflectanceSaid({ reflectance: before[name] }, { reflectance: after[name] }, which),
  ];

const SURFACES: Tellers<Room["reflectance"]> = {
  floor: surface("floor", "floor"),
  ceiling: surface("ceiling", "ceiling"),
  near: surface("near", "near wall"),
  far: surface("far", "far wall"),
  left: surface("left", "left wall"),
  right: surface("right", "right wall"),
};

export const ROOM: Tellers<Room> = {
  width: (before, after, look) => [lengthSaid("width", before.width, after.width, "wider", "narrower", look)],
  depth: (before, after, look) => [
    lengthSaid("depth", before.depth, after.depth, "deeper", "shallower", look),
  ],
  height: (before, after, look) => [
    lengthSaid("ceiling's height", before.height, after.height, "higher", "lower", look),
  ],
  reflectance: (before, after, look) => tellAll(SURFACES, before.reflectance, after.reflectance, look),
  bounce: (before, after) => [
    wordSaid(
      "bounce",
      bounceText(before),
      bounceText(after),
      after.bounce ? "counted again" : "no longer counted",
    ),
  ],
  sprinklers: (before, after, look) => [sprinklersSaid(before.sprinklers, after.sprinklers, look)],
  calibration: (before, after) => [
    wordSaid(
      "calibration",
      calibrationText(before.calibration),
      calibrationText(after.calibration),
      calibrationChange(before.calibration?.bounceStops ?? null, after.calibration?.bounceStops ?? null),
    ),
  ],
};

const BACKDROP: Tellers<Backdrop> = {
  position: (before, after, look) => [floorSaid("place", before.position, after.position, look)],
  bearing: (before, after) => [facingSaid("facing", before.bearing, after.bearing)],
  kind: (before, after) => [wordSaid("kind", before.kind, after.kind, "another kind")],
  width: (before, after, look) => [lengthSaid("width", before.width, after.width, "wider", "narrower", look)],
  top: (before, after, look) => [lengthSaid("top", before.top, after.top, "higher", "lower", look)],
  sweepRadius: (before, after, look) => [
    lengthSaid("curve", before.sweepRadius, after.sweepRadius, "wider", "tighter", look),
  ],
  floorLength: (before, after, look) => [
    lengthSaid("along the floor", before.floorLength, after.floorLength, "longer", "shorter", look),
  ],
  reflectance: (before, after) => [reflectanceSaid(before, after)],
  pinned: ({ pinned }) => [pinSaid(pinned)],
};

/** "7.00 × 9.00 m, 3.40 m high" */
function roomText(room: Room, units: LengthUnits): string {
  const length = (metres: number) => formatLength(metres, units);
  return `${length(room.width)} × ${length(room.depth)}, ${length(room.height)} high`;
}

export function roomSaid(before: Room | null, after: Room | null, look: Look): Said[] {
  if (before !== null && after !== null) return tellAll(ROOM, before, after, look);
  const text = (room: Room | null) => (room === null ? "open space" : roomText(room, look.units));
  return [wordSaid("room", text(before), text(after), after === null ? "walls taken away" : "walls given")];
}

export function backdropSaid(before: Backdrop | null, after: Backdrop | null, look: Look): Said[] {
  if (before !== null && after !== null) return tellAll(BACKDROP, before, after, look);
  const text = (each: Backdrop | null) =>
    each === null ? "" : `${each.kind}, ${backdropWords(each, look.units)}`;
  return [wordSaid("backdrop", text(before), text(after), after === null ? "taken away" : "added")];
}

export function ambientSaid(before: number, after: number): Said {
  const text = (lux: number) => (lux === 0 ? "none" : `${Number(lux.toPrecision(3))} lx`);
  const stops = before > 0 && after > 0 ? Math.log2(after / before) : null;
  const change =
    stops === null
      ? after > before
        ? "let in"
        : "shut out"
      : moreOrLess(stops, amountOfStops(stops), "brighter", "darker");
  return wordSaid("ambient light", text(before), text(after), change);
}

export function printSaid(before: Plan["print"], after: Plan["print"], { units }: Look): Said[] {
  const size = sizeSaid(before, after, units);
  if (before === null || after === null) return [size];
  const isSameSize = before.width === after.width && before.height === after.height;
  return [...(isSameSize ? [] : [size]), ...printedSaid(before, after, units)];
}

function sizeSaid(before: Plan["print"], after: Plan["print"], units: LengthUnits): Said {
  const text = (print: Plan["print"]) =>
    print === null
      ? "not settled"
      : `${formatLength(print.width, units)} × ${formatLength(print.height, units)}`;
  const change = before === null ? "settled" : after === null ? "open again" : printChange(before, after);
  return wordSaid("finished size", text(before), text(after), change);
}

function printChange(before: NonNullable<Plan["print"]>, after: NonNullable<Plan["print"]>): string {
  const by = after.width * after.height - before.width * before.height;
  return by === 0 ? "another shape" : by > 0 ? "larger" : "smaller";
}

function bounceText({ bounce }: Room): string {
  return bounce ? "counted" : "left out";
}

function calibrationText(calibration: RoomCalibration | null): string {
  if (calibration === null) return "none";
  const { bounceStops, measuredOn, uncertaintyStops } = calibration;
  const day = measuredOn === "" ? "" : `, ${measuredOn}`;
  return `bounce ${bounceStops.toFixed(2).replace("-", "−")} ± ${uncertaintyStops.toFixed(2)} stop${day}`;
}
