/** Amounts of change in words. Each has its opposite: what is "12 cm higher" one way is "12 cm lower" the other. */
import { LUMINANCE } from "../photometry/index.ts";
import type { Reflectance } from "../plan/index.ts";
import { formatLength, type LengthUnits, METRES_PER_INCH } from "../units/index.ts";

/** One thing that differs, before it is known whose it is. */
export interface Said {
  readonly which: string;
  readonly before: string;
  readonly after: string;
  readonly change: string;
}

/** "12 cm", "1.20 m", "3 mm"; "4¾″" and "3′ 11¼″" in feet. What no tape shows is "under 1 mm" or "under ¼″". */
export function amountOfLength(metres: number, units: LengthUnits): string {
  const size = Math.abs(metres);
  if (units === "feet") {
    const text = formatLength(size, units);
    return text === "0′ 0″" ? "under ¼″" : text.replace(/^0′ /, "");
  }
  if (size < 0.0005) return "under 1 mm";
  if (size < 0.00995) return `${Math.round(1000 * size)} mm`;
  if (size < 0.995) return `${Math.round(100 * size)} cm`;
  return formatLength(size, units);
}

export function amountOfStops(stops: number): string {
  const text = Math.abs(stops).toFixed(1);
  if (Number(text) === 0) return "under 0.1 stop";
  return `${text} ${Number(text) <= 1 ? "stop" : "stops"}`;
}

export function amountOfDegrees(degrees: number): string {
  const whole = Math.round(Math.abs(degrees));
  return whole === 0 ? "under 1°" : `${whole}°`;
}

/** How far apart two numbers are as they are shown, so that the sum on the page is right; as they are where they show the same. */
export function apart(before: number, after: number, step: number): number {
  const shown = Math.round(after / step) - Math.round(before / step);
  return shown === 0 ? after - before : shown * step;
}

export function lengthApart(before: number, after: number, units: LengthUnits): number {
  return apart(before, after, units === "feet" ? METRES_PER_INCH / 4 : 0.01);
}

/** A number with so many digits at most, or how little it is where they do not show it. */
export function amountOf(value: number, digits: number, unit: string): string {
  const text = Number(Math.abs(value).toFixed(digits));
  return text === 0 ? `under ${Number((10 ** -digits).toFixed(digits))}${unit}` : `${text}${unit}`;
}

/** "12 cm higher": the amount, and the word for more or for less. */
export function moreOrLess(difference: number, amount: string, more: string, less: string): string {
  return `${amount} ${difference > 0 ? more : less}`;
}

/** Which way on the floor, as seen from the camera side: "20 cm to the right, 10 cm into the set". */
export function moveWords(right_m: number, into_m: number, units: LengthUnits): string {
  const parts: string[] = [];
  const least = 0.0005;
  if (Math.abs(right_m) >= least)
    parts.push(moreOrLess(right_m, amountOfLength(right_m, units), "to the right", "to the left"));
  if (Math.abs(into_m) >= least)
    parts.push(moreOrLess(into_m, amountOfLength(into_m, units), "into the set", "to the camera side"));
  return parts.length === 0 ? `moved ${amountOfLength(0, units)}` : parts.join(", ");
}

/** "18 %", or the three channels. */
export function reflectanceText(reflectance: Reflectance): string {
  const channels = typeof reflectance === "number" ? [reflectance] : reflectance;
  return `${channels.map((share) => Number((100 * share).toFixed(1))).join("/")} %`;
}

/** In stops of what it sends back; a surface that sends back nothing is no number of stops under another. */
export function reflectanceChange(before: Reflectance, after: Reflectance): string {
  const [b, a] = [luminanceOf(before), luminanceOf(after)];
  if (Math.abs(a - b) < 1e-9) return "another tint";
  if (!(b > 0 && a > 0)) return a > b ? "lighter" : "darker";
  const stops = Math.log2(a / b);
  return moreOrLess(stops, amountOfStops(stops), "lighter", "darker");
}

function luminanceOf(reflectance: Reflectance): number {
  if (typeof reflectance === "number") return reflectance;
  return reflectance.reduce((sum, share, c) => sum + share * (LUMINANCE[c] as number), 0);
}

export function listText(names: readonly string[]): string {
  return names.length === 0 ? "nothing" : names.join(", ");
}

/** The same all the way down; the order of a group's fields is no difference. */
export function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return a === b;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [keysA, keysB] = [definedKeys(a), definedKeys(b)];
  if (keysA.length !== keysB.length) return false;
  return keysA.every((key) => isSame((a as Fields)[key], (b as Fields)[key]));
}

type Fields = Readonly<Record<string, unknown>>;

/** A field that is there and says nothing is as one that is left out. */
function definedKeys(group: object): string[] {
  return Object.keys(group).filter((key) => (group as Fields)[key] !== undefined);
}
