/** What differs at a light, and at a panel. */
import {
  beamAngle,
  type Dial,
  faceArea,
  type Light,
  type LightCalibration,
  type Output,
  type Panel,
  type Plan,
  wattSecondsText,
  writePower,
} from "../plan/index.ts";
import { faceWords, powerWords } from "../sheet/words.ts";
import { luminousEnergyOf } from "../staging/index.ts";
import { formatStops } from "../units/index.ts";
import { type Look, placesOf, type Tellers } from "./changes-look.ts";
import { aimSaid, angleSaid, lengthSaid, placeSaid } from "./changes-places.ts";
import { headSaid, supportSaid } from "./changes-rig.ts";
import {
  amountOf,
  amountOfStops,
  isSame,
  moreOrLess,
  reflectanceChange,
  reflectanceText,
  type Said,
} from "./changes-words.ts";

/** Direction first, then power, then what is neither. */
export const LIGHT: Tellers<Light> = {
  position: (before, after, look) => {
    const [from, to] = placesOf("lights", before.name, after.name, look);
    return placeSaid(from, to, before.position, after.position, look);
  },
  direction: (before, after, look) => aimSaid(before, after, look),
  roll: rollSaid,
  output: (before, after, look) => [powerSaid(before, after, look)],
  on: ({ on }) => [onSaid(on)],
  face: (before, after, { units }) => [
    {
      which: "front",
      before: faceWords(before.face, units),
      after: faceWords(after.face, units),
      change: frontChange(before, after),
    },
  ],
  beam: (before, after) => [
    { which: "beam", before: beamText(before), after: beamText(after), change: beamChange(before, after) },
  ],
  kelvin: (before, after) => [colourSaid("colour", before.kelvin, after.kelvin, "warmer", "cooler")],
  gel: (before, after) => [
    {
      which: "gel",
      before: gelText(before.gel.rgb),
      after: gelText(after.gel.rgb),
      change: gelChange(before.gel.rgb, after.gel.rgb),
    },
  ],
  calibration: (before, after) => [calibrationSaid(before.calibration, after.calibration)],
  dial: (before, after) => [
    {
      which: "dial",
      before: dialText(before.dial),
      after: dialText(after.dial),
      change: "marked another way",
    },
  ],
  head: (before, after) => [headSaid(before.head, after.head)],
  support: (before, after, look) => [supportSaid(before.support, after.support, look)],
  name: nameSaid,
  pinned: ({ pinned }) => [pinSaid(pinned)],
};

export const PANEL: Tellers<Panel> = {
  position: (before, after, look) => {
    const [from, to] = placesOf("panels", before.name, after.name, look);
    return placeSaid(from, to, before.position, after.position, look);
  },
  direction: (before, after, look) => aimSaid(before, after, look),
  roll: rollSaid,
  width: (before, after, look) => [lengthSaid("width", before.width, after.width, "wider", "narrower", look)],
  height: (before, after, look) => [
    lengthSaid("length", before.height, after.height, "longer", "shorter", look),
  ],
  reflectance: (before, after) => [reflectanceSaid(before, after)],
  transmittance: (before, after) => {
    const by = after.transmittance - before.transmittance;
    return [
      {
        which: "lets through",
        before: reflectanceText(before.transmittance),
        after: reflectanceText(after.transmittance),
        change: moreOrLess(by, amountOf(100 * by, 1, " %"), "more", "less"),
      },
    ];
  },
  support: (before, after, look) => [supportSaid(before.support, after.support, look)],
  name: nameSaid,
  pinned: ({ pinned }) => [pinSaid(pinned)],
};

/** A light or panel that was not there, in a few words. */
export function lightText(light: Light, { units }: Look): string {
  return `${faceWords(light.face, units)}, ${powerText(light)}${light.on ? "" : ", off"}`;
}

function powerSaid(before: Light, after: Light, look: Look): Said {
  return {
    which: "power",
    before: isDialled(before.output) ? powerText(before) : powerWords(before, look.units),
    after: isDialled(after.output) ? powerText(after) : powerWords(after, look.units),
    change: powerChange(before, after, look),
  };
}

function isDialled(output: Output): output is Output & { stopsDown: number } {
  return "stopsDown" in output;
}

/** As the dial is marked, and of what: "−2.2 of 400 Ws", "1/8 + 0.8 of 400 Ws", "87 Ws". */
function powerText(light: Light): string {
  const { dial, output } = light;
  if (!isDialled(output)) return powerWords(light, "metric");
  const full = "wattSeconds" in output ? output.wattSeconds : null;
  const set =
    output.stopsDown === 0 && dial.marked !== "wattSeconds"
      ? "full"
      : writePower(output.stopsDown, dial, full);
  if (full === null)
    return `${set} of ${powerWords({ ...light, output: { ...output, stopsDown: 0 } }, "metric")}`;
  return dial.marked === "wattSeconds" ? set : `${set} of ${wattSecondsText(full)}`;
}

/** What leaves the head by what is written, whatever the way it is told. */
function powerChange(before: Light, after: Light, look: Look): string {
  const stops = dialledApart(before.output, after.output) ?? stopsBetween(before, after, look);
  if (stops === null) return "another output";
  if (Math.abs(stops) < 1e-9) return "the same, told another way";
  if (!Number.isFinite(stops)) return stops > 0 ? "from nothing" : "to nothing";
  return moreOrLess(stops, amountOfStops(stops), "up", "down");
}

/** Only the dial was turned. */
function dialledApart(before: Output, after: Output): number | null {
  if (!isDialled(before) || !isDialled(after)) return null;
  return isSame({ ...before, stopsDown: 0 }, { ...after, stopsDown: 0 })
    ? before.stopsDown - after.stopsDown
    : null;
}

function stopsBetween(before: Light, after: Light, look: Look): number | null {
  const [b, a] = [energyOf(before, look.before.plan), energyOf(after, look.after.plan)];
  if (b === null || a === null) return null;
  return a === b ? 0 : Math.log2(a / b);
}

/** Null where its photometric file is not there to tell. */
function energyOf(light: Light, plan: Plan): number | null {
  const file = light.beam.photometry;
  if (file !== undefined && plan.photometry?.[file] === undefined) return null;
  return luminousEnergyOf(light, plan);
}

function onSaid(was: boolean): Said {
  return {
    which: "on or off",
    before: was ? "on" : "off",
    after: was ? "off" : "on",
    change: was ? "switched off" : "switched on",
  };
}

function frontChange({ face: before }: Light, { face: after }: Light): string {
  const by = faceArea(after) - faceArea(before);
  const shape = before.shape === after.shape ? "" : ", another shape";
  if (Math.abs(by) < 1e-9) return before.shape === after.shape ? "other sides" : "another shape";
  return `${by > 0 ? "larger" : "smaller"}${shape}`;
}

function beamText({ beam, face }: Light): string {
  const spread = beam.photometry ?? `${amountOf(beamAngle(beam.exponent), 1, "°")} wide`;
  return beam.edgeDrop > 0 && face.shape !== "point"
    ? `${spread}, rim ${formatStops(-beam.edgeDrop, 2)}`
    : spread;
}

function beamChange({ beam: before }: Light, { beam: after }: Light): string {
  if (before.photometry !== after.photometry) return "spreads another way";
  if (before.exponent !== after.exponent) return after.exponent > before.exponent ? "narrower" : "wider";
  return after.edgeDrop > before.edgeDrop ? "darker at the rim" : "brighter at the rim";
}

/** A step of colour that is seen goes with the mired, not with the kelvin. */
export function colourSaid(which: string, before: number, after: number, more: string, less: string): Said {
  const mired = 1e6 / after - 1e6 / before;
  return {
    which,
    before: `${Number(before.toFixed(0))} K`,
    after: `${Number(after.toFixed(0))} K`,
    change: moreOrLess(mired, amountOf(mired, 0, " mired"), more, less),
  };
}

type Rgb = Light["gel"]["rgb"];

function gelText(rgb: Rgb): string {
  return isClear(rgb) ? "none" : `passes ${reflectanceText(rgb)}`;
}

function isClear(rgb: Rgb): boolean {
  return rgb.every((share) => share === 1);
}

function gelChange(before: Rgb, after: Rgb): string {
  if (isClear(before)) return "put on";
  return isClear(after) ? "taken off" : "another one";
}

function calibrationSaid(before: LightCalibration | null, after: LightCalibration | null): Said {
  return {
    which: "calibration",
    before: before === null ? "none" : calibrationText(before),
    after: after === null ? "none" : calibrationText(after),
    change: calibrationChange(before?.stops ?? null, after?.stops ?? null),
  };
}

function calibrationText({ from, measuredOn, stops, uncertaintyStops }: LightCalibration): string {
  const day = measuredOn === "" ? "" : `, ${measuredOn}`;
  return `${formatStops(stops, 2)} ± ${uncertaintyStops.toFixed(2)} stop from ${from}${day}`;
}

export function calibrationChange(before: number | null, after: number | null): string {
  if (before === null) return "measured";
  if (after === null) return "forgotten";
  const by = after - before;
  return by === 0 ? "measured again, the same" : moreOrLess(by, amountOfStops(by), "more", "less");
}

function dialText({ marked, range, step }: Dial): string {
  const marks = marked === "wattSeconds" ? "watt-seconds" : marked;
  return `in ${marks}, ${range} stops down, by ${step}`;
}

export function nameSaid(before: { readonly name: string }, after: { readonly name: string }): Said[] {
  return [{ which: "name", before: before.name, after: after.name, change: "renamed" }];
}

export function pinSaid(was: boolean): Said {
  return {
    which: "pin",
    before: was ? "pinned" : "free",
    after: was ? "free" : "pinned",
    change: was ? "let go" : "held in its place",
  };
}

export function rollSaid(before: { readonly roll: number }, after: { readonly roll: number }): Said[] {
  return [angleSaid("roll", before.roll, after.roll, "clockwise", "anticlockwise")];
}

export function reflectanceSaid(
  before: Pick<Panel, "reflectance">,
  after: Pick<Panel, "reflectance">,
  which = "surface",
): Said {
  return {
    which,
    before: `${reflectanceText(before.reflectance)} back`,
    after: `${reflectanceText(after.reflectance)} back`,
    change: reflectanceChange(before.reflectance, after.reflectance),
  };
}
