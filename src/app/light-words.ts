/** What a light is, in a few words. */
import { filterOfShift, LUMINANCE, meterColour, miredShift } from "../photometry/index.ts";
import {
  beamAngle,
  type Dial,
  type Face,
  type Light,
  type Output,
  type OutputForm,
  outsideDial,
  wattSecondsText,
  writePower,
} from "../plan/index.ts";
import { formatFStops, formatLength, type LengthUnits } from "../units/index.ts";

const POLYGON: Readonly<Record<number, string>> = {
  3: "triangle",
  5: "pentagon",
  6: "hexagon",
  8: "octagon",
};

export function frontWords(face: Face, units: LengthUnits): string {
  if (face.shape === "point") return "bare point";
  const width = formatLength(face.width, units);
  if (face.shape === "rectangle") return `${width} × ${formatLength(face.height, units)}`;
  return `${face.shape === "disc" ? "round" : (POLYGON[face.sides] ?? `${face.sides} sides`)} ${width}`;
}

export function angleText(exponent: number): string {
  return `${Number(beamAngle(exponent).toFixed(1))}°`;
}

export function beamWords({ beam, face }: Light): string {
  const spread = beam.photometry ?? (beam.exponent === 1 ? "diffuser 120°" : angleText(beam.exponent));
  return beam.edgeDrop > 0 && face.shape !== "point" ? `${spread}, rim −${tidy(beam.edgeDrop)}` : spread;
}

export interface NamedValue<T> {
  readonly name: string;
  readonly value: T;
}

/** Typical of their kind (common practice, no source). */
export const SOURCES: readonly NamedValue<number>[] = [
  { name: "flash", value: 5600 },
  { name: "tungsten", value: 3200 },
  { name: "bulb", value: 2700 },
  { name: "open shade", value: 7500 },
];

type Rgb = Light["gel"]["rgb"];
const NO_GEL: Rgb = [1, 1, 1];
const FULL = miredShift(5600, 3200);
const millionths = (v: number) => Math.round(v * 1e6) / 1e6;
const gel = (name: string, shift: number): NamedValue<Rgb> => {
  const [r, g, b] = filterOfShift(shift);
  return { name, value: [millionths(r), millionths(g), millionths(b)] };
};

/** Filters by what they do, full being from daylight to tungsten and back. */
export const GELS: readonly NamedValue<Rgb>[] = [
  { name: "none", value: NO_GEL },
  gel("warming", FULL),
  gel("½ warming", FULL / 2),
  gel("¼ warming", FULL / 4),
  gel("cooling", -FULL),
  gel("½ cooling", -FULL / 2),
  gel("¼ cooling", -FULL / 4),
];

/** The filter that this is, null where it is one of somebody's own. */
export function gelName(rgb: Rgb): string | null {
  // plans keep six decimals
  return (
    GELS.find(({ value }) => value.every((v, c) => Math.abs(v - (rgb[c] as number)) < 2e-6))?.name ?? null
  );
}

/** What a filter takes from this light, as a meter reads it: stops, 0 or more; Infinity where it lets nothing through. */
export function gelLoss(light: Pick<Light, "kelvin" | "gel">): number {
  const white = meterColour(light.kelvin);
  const through = LUMINANCE.reduce(
    (sum, v, c) => sum + v * (white[c] as number) * (light.gel.rgb[c] as number),
    0,
  );
  return Math.max(0, -Math.log2(through));
}

export function colourWords(light: Light): string {
  const name = gelName(light.gel.rgb);
  const filter = name === null ? "own filter" : name;
  return `${Math.round(light.kelvin)} K${name === "none" ? "" : `, ${filter}`}`;
}

export const FORM_WORDS: Readonly<Record<OutputForm, string>> = {
  wattSeconds: "watt-seconds",
  guideNumber: "guide number",
  meter: "meter",
  lumenSeconds: "lm·s",
};

/** The head itself: "400 Ws head, in stops" */
export function headWords(output: Output, dial: Dial, units: LengthUnits): string {
  if ("wattSeconds" in output) {
    const full = wattSecondsText(output.wattSeconds);
    return dial.marked === "wattSeconds" ? full : `${full}, ${MARK_WORDS[dial.marked]}`;
  }
  if ("guideNumber" in output) return `guide number ${formatLength(output.guideNumber, units)}`;
  if ("lumenSeconds" in output) return `${tidy(output.lumenSeconds)} lm·s`;
  return `${formatFStops(output.meter.fNumber)} at ${formatLength(output.meter.distance, units)}`;
}

export const MARK_WORDS: Readonly<Record<Dial["marked"], string>> = {
  stops: "in stops",
  fractions: "in fractions",
  wattSeconds: "in Ws",
};

export function fullPower_Ws(output: Output): number | null {
  return "wattSeconds" in output ? output.wattSeconds : null;
}

/** State, margin, remedy of a power that the dial does not reach; null where it does. A small source is meant by the
 * distances: a large front near by gains and loses less. */
export function dialFault(stopsDown: number, dial: Dial, full_Ws: number | null): string | null {
  const outside = outsideDial(stopsDown, dial);
  if (outside === 0) return null;
  const margin = stopsWord(Math.abs(outside));
  const times = tidy(2 ** (outside / -2));
  if (outside > 0) {
    const head =
      full_Ws === null ? "a stronger head" : `a head of ${wattSecondsText(full_Ws * 2 ** outside)}`;
    return `Over full power by ${margin}; ${head}, or about ${times} × as far away, or ISO up by ${margin}.`;
  }
  const least = writePower(dial.range, dial, full_Ws);
  return `Under the dial's least, ${least}, by ${margin}; a grey filter of ${margin}, or about ${times} × as far away.`;
}

export function stopsWord(stops: number): string {
  const text = stops.toFixed(1);
  return `${text} ${text === "1.0" ? "stop" : "stops"}`;
}

export function tidy(value: number): string {
  return String(Number(value.toFixed(value < 10 ? 2 : value < 100 ? 1 : 0)));
}
