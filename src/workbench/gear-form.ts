/** The gear book as a file: checked before anything is believed of it. */
import type { GearBook, KeptLight } from "./ports.ts";

const FORMAT = "tapemark/gear";
const VERSION = 1;
/** Far more than anybody owns. */
const MOST = 5000;

export function gearBookText({ bodies, lights }: GearBook): string {
  return `${JSON.stringify({ format: FORMAT, version: VERSION, bodies, lights }, null, 2)}\n`;
}

/** The book in a document, or null where it is none. A later version's book is none either: it is not to be overwritten. */
export function readGearBook(value: unknown): GearBook | null {
  if (!isGroup(value) || value.format !== FORMAT || value.version !== VERSION) return null;
  const { bodies, lights, revision } = value;
  if (!isRecordOf(bodies, isBody) || !isRecordOf(lights, isKeptLight)) return null;
  return (Number.isSafeInteger(revision) ? { bodies, lights, revision } : { bodies, lights }) as GearBook;
}

function isKeptLight(value: unknown): value is KeptLight {
  return (
    isGroup(value) &&
    isWithin(value.stops, -10, 10) &&
    isWithin(value.uncertaintyStops, 0, 10) &&
    typeof value.measuredOn === "string" &&
    (value.exponent === undefined || isWithin(value.exponent, 0, 60))
  );
}

function isBody(value: unknown): boolean {
  return (
    isGroup(value) &&
    Array.isArray(value.stops) &&
    value.stops.length > 1 &&
    value.stops.every((stops) => isWithin(stops, -40, 40)) &&
    isWithin(value.clippingStops, -40, 40) &&
    isWithin(value.frames, 0, 1e6) &&
    isWithin(value.rmsStops, 0, 40) &&
    typeof value.measuredOn === "string"
  );
}

function isRecordOf(value: unknown, is: (entry: unknown) => boolean): boolean {
  if (!isGroup(value)) return false;
  const keys = Object.keys(value);
  return keys.length <= MOST && keys.every((key) => key !== "__proto__" && is(value[key]));
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isWithin(value: unknown, low: number, high: number): boolean {
  return typeof value === "number" && value >= low && value <= high;
}
