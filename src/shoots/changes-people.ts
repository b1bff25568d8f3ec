/** What differs at a person, the camera, a meter, a mark on the floor. */
import type { Camera, Mark, Meter, Person } from "../plan/index.ts";
import { apertureWords } from "../sheet/words.ts";
import { formatLength, formatShutter, type LengthUnits } from "../units/index.ts";
import { colourSaid, nameSaid, pinSaid, reflectanceSaid, rollSaid } from "./changes-lights.ts";
import { type Look, type Tellers, tellAll } from "./changes-look.ts";
import {
  aimSaid,
  angleSaid,
  floorSaid,
  lengthSaid,
  placeSaid,
  shortWay,
  zeroText,
} from "./changes-places.ts";
import { pixelsSaid } from "./changes-rig.ts";
import {
  amountOf,
  amountOfDegrees,
  amountOfStops,
  moreOrLess,
  moveWords,
  reflectanceText,
  type Said,
} from "./changes-words.ts";

type Glasses = NonNullable<Person["glasses"]>;
type SkinForm = Person["skin"]["reflectance"];

const HEAD: Tellers<Person["head"]> = {
  turn: (before, after) => [
    angleSaid("turn of the head", before.turn, after.turn, "to own left", "to own right", turnText),
  ],
  tip: (before, after) => [angleSaid("chin", before.tip, after.tip, "up", "down", tipText)],
  tilt: (before, after) => [
    angleSaid("tilt of the head", before.tilt, after.tilt, "toward own left", "toward own right", turnText),
  ],
  follows: (before, after) => [
    {
      which: "nose",
      before: followsText(before.follows),
      after: followsText(after.follows),
      change: after.follows === "camera" ? "follows from now on" : "stays from now on",
    },
  ],
};

const HAIR: Tellers<Person["hair"]> = {
  length: (before, after) => [wordSaid("hair", before.length, after.length, "another length")],
  reflectance: (before, after) => [reflectanceSaid(before, after, "hair's tone")],
};

const SKIN: Tellers<Person["skin"]> = {
  reflectance: (before, after) => [skinSaid(before.reflectance, after.reflectance)],
  shine: (before, after) => [plainSaid("shine", before.shine, after.shine, 2, "", "more", "less")],
  roughness: (before, after) => [
    plainSaid("roughness", before.roughness, after.roughness, 2, "", "rougher", "smoother"),
  ],
};

const CLOTHING: Tellers<Person["clothing"]> = {
  reflectance: (before, after) => [reflectanceSaid(before, after, "clothing")],
};

export const PERSON: Tellers<Person> = {
  position: (before, after, look) => [floorSaid("mark", before.position, after.position, look)],
  facing: (before, after) => [facingSaid("facing", before.facing, after.facing)],
  head: (before, after, look) => tellAll(HEAD, before.head, after.head, look),
  pose: (before, after) => [
    wordSaid("pose", before.pose, after.pose, after.pose === "seated" ? "sits" : "stands"),
  ],
  stature: (before, after, look) => [
    lengthSaid("stature", before.stature, after.stature, "taller", "shorter", look),
  ],
  seatHeight: (before, after, look) => [
    lengthSaid("seat", before.seatHeight, after.seatHeight, "higher", "lower", look),
  ],
  eyeHeight: (before, after, look) => [eyeHeightSaid(before.eyeHeight, after.eyeHeight, look)],
  headSize: (before, after) => [
    plainSaid("size of the head", before.headSize, after.headSize, 0, " percentiles", "larger", "smaller"),
  ],
  hair: (before, after, look) => tellAll(HAIR, before.hair, after.hair, look),
  glasses: (before, after, { units }) => [glassesSaid(before.glasses, after.glasses, units)],
  skin: (before, after, look) => tellAll(SKIN, before.skin, after.skin, look),
  clothing: (before, after, look) => tellAll(CLOTHING, before.clothing, after.clothing, look),
  name: nameSaid,
  pinned: ({ pinned }) => [pinSaid(pinned)],
};

export const CAMERA: Tellers<Camera> = {
  position: (before, after, look) =>
    placeSaid(look.before.places.camera, look.after.places.camera, before.position, after.position, look),
  direction: (before, after, look) => aimSaid(before, after, look),
  roll: rollSaid,
  focalLength: (before, after) => [
    plainSaid("lens", before.focalLength, after.focalLength, 1, " mm", "longer", "shorter"),
  ],
  fNumber: ({ fNumber: before }, { fNumber: after }) => {
    const stops = 2 * Math.log2(after / before);
    return [
      {
        which: "aperture",
        before: apertureWords(before),
        after: apertureWords(after),
        change: moreOrLess(stops, amountOfStops(stops), "smaller", "wider open"),
      },
    ];
  },
  shutter: ({ shutter: before }, { shutter: after }) => {
    const stops = Math.log2(after / before);
    return [
      {
        which: "shutter",
        before: formatShutter(before),
        after: formatShutter(after),
        change: moreOrLess(stops, amountOfStops(stops), "longer", "shorter"),
      },
    ];
  },
  iso: ({ iso: before }, { iso: after }) => [isoSaid(before, after)],
  // a body set to a higher number shows all of it warmer
  whiteBalance: (before, after) => [
    colourSaid("white balance", before.whiteBalance, after.whiteBalance, "cooler", "warmer"),
  ],
  headroom: (before, after) => {
    const by = after.headroom - before.headroom;
    return [
      {
        which: "headroom",
        before: `${before.headroom.toFixed(2)} stops`,
        after: `${after.headroom.toFixed(2)} stops`,
        change: moreOrLess(by, amountOfStops(by), "more", "less"),
      },
    ];
  },
  sensor: (before, after) => [
    {
      which: "sensor",
      before: sensorText(before),
      after: sensorText(after),
      change:
        sensorArea(after) > sensorArea(before)
          ? "larger"
          : sensorArea(after) < sensorArea(before)
            ? "smaller"
            : "another shape",
    },
  ],
  pixels: (before, after) => [pixelsSaid(before.pixels, after.pixels)],
  orientation: (before, after) => [wordSaid("picture", before.orientation, after.orientation, "turned over")],
  pinned: ({ pinned }) => [pinSaid(pinned)],
};

export const METER: Tellers<Meter> = {
  position: (before, after, look) => [freeSaid(before.position, after.position, look)],
  direction: (before, after, look) => aimSaid(before, after, look),
  receptor: (before, after) => [wordSaid("receptor", before.receptor, after.receptor, "another receptor")],
  name: nameSaid,
  pinned: ({ pinned }) => [pinSaid(pinned)],
};

export const MARK: Tellers<Mark> = {
  position: (before, after, look) => [floorSaid("place", before.position, after.position, look)],
  name: nameSaid,
  pinned: ({ pinned }) => [pinSaid(pinned)],
};

export function isoSaid(before: number, after: number): Said {
  const stops = Math.log2(after / before);
  return {
    which: "ISO",
    before: `ISO ${Number(before.toFixed(0))}`,
    after: `ISO ${Number(after.toFixed(0))}`,
    change: moreOrLess(stops, amountOfStops(stops), "up", "down"),
  };
}

/** Where a meter is held: by no wall and no mark, so from the plan's zero point. */
function freeSaid(before: readonly number[], after: readonly number[], look: Look): Said {
  const { shift, units } = look;
  const [right = 0, into = 0, up = 0] = before.map(
    (from, axis) => (after[axis] ?? 0) - from - (shift[axis] ?? 0),
  );
  const across =
    Math.hypot(right, into) < 0.0005 && Math.abs(up) >= 0.0005 ? [] : [moveWords(right, into, units)];
  const upward = Math.abs(up) < 0.0005 ? [] : [lengthSaid("", 0, up, "higher", "lower", look).change];
  return {
    which: "place",
    before: heldText(before, look),
    after: heldText(after, look),
    change: [...across, ...upward].join(", "),
  };
}

export function heldText(point: readonly number[], look: Look): string {
  return `${zeroText(point, look)}, ${formatLength(point[2] ?? 0, look.units)} high`;
}

export function facingSaid(which: string, before: number, after: number): Said {
  const by = shortWay(after - before);
  const text = (degrees: number) => `bearing ${Math.round(((degrees % 360) + 360) % 360) % 360}°`;
  const isHalf = Math.abs(by) === 180;
  const change = isHalf ? "half a turn" : moreOrLess(by, amountOfDegrees(by), "clockwise", "anticlockwise");
  return { which, before: text(before), after: text(after), change };
}

function turnText(degrees: number): string {
  const whole = Math.round(degrees);
  return whole === 0 ? "straight" : `${Math.abs(whole)}° to own ${whole > 0 ? "left" : "right"}`;
}

function tipText(degrees: number): string {
  const whole = Math.round(degrees);
  return whole === 0 ? "level" : `${Math.abs(whole)}° ${whole > 0 ? "up" : "down"}`;
}

function followsText(follows: Person["head"]["follows"]): string {
  return follows === "camera" ? "to the camera" : "as it is turned";
}

export function wordSaid(which: string, before: string, after: string, change: string): Said {
  return { which, before, after, change };
}

function plainSaid(
  which: string,
  before: number,
  after: number,
  digits: number,
  unit: string,
  more: string,
  less: string,
): Said {
  const by = after - before;
  const text = (value: number) =>
    `${Number(value.toFixed(digits))}${unit.replace(" percentiles", "th percentile")}`;
  return {
    which,
    before: text(before),
    after: text(after),
    change: moreOrLess(by, amountOf(by, digits, unit), more, less),
  };
}

function eyeHeightSaid(before: number | undefined, after: number | undefined, look: Look): Said {
  if (before !== undefined && after !== undefined)
    return lengthSaid("eyes", before, after, "higher", "lower", look);
  const text = (height: number | undefined) =>
    height === undefined ? "as stature and pose have it" : `${formatLength(height, look.units)}, measured`;
  return wordSaid("eyes", text(before), text(after), after === undefined ? "no longer measured" : "measured");
}

function glassesSaid(before: Glasses | null, after: Glasses | null, units: LengthUnits): Said {
  const text = (glasses: Glasses | null) => (glasses === null ? "none" : glassesText(glasses, units));
  const change = before === null ? "put on" : after === null ? "taken off" : "other ones";
  return wordSaid("glasses", text(before), text(after), change);
}

function glassesText(
  { coated, curve, lensHeight, lensWidth, tilt, wrap }: Glasses,
  units: LengthUnits,
): string {
  const size = (metres: number) =>
    units === "feet" ? formatLength(metres, units) : `${Number((1000 * metres).toFixed(1))} mm`;
  const lens = `${size(lensWidth)} × ${size(lensHeight)}`;
  return `${lens}, leaning ${tilt}°, wrap ${wrap}°, curve ${curve}, ${coated ? "coated" : "bare"}`;
}

function skinSaid(before: SkinForm, after: SkinForm): Said {
  const isPlain = (form: SkinForm) => typeof form === "number" || Array.isArray(form);
  if (isPlain(before) && isPlain(after))
    return reflectanceSaid({ reflectance: before as number }, { reflectance: after as number }, "skin");
  return wordSaid("skin", skinText(before), skinText(after), "another skin");
}

function skinText(form: SkinForm): string {
  if (typeof form === "number" || Array.isArray(form)) return `${reflectanceText(form)} back`;
  return "tone" in form ? form.tone : `L*a*b* ${form.lab.join(" ")}`;
}

function sensorText({ sensor }: Camera): string {
  return `${sensor.width} × ${sensor.height} mm`;
}

function sensorArea({ sensor }: Camera): number {
  return sensor.width * sensor.height;
}
