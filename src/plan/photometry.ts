/** Photometric files of a plan: their texts are kept inside it, so that a plan that is mailed keeps its lights. */
import { type PhotometricFile, type PhotometricResult, readPhotometricFile } from "../photometry/index.ts";
import { isLoose, type Loose } from "./fill-in.ts";
import type { Light, Plan } from "./schema.ts";

/** The same text is read once: plans are copied at every edit. A handful of files is open at a time. */
const read = new Map<string, PhotometricResult>();
const MOST_KEPT = 16;

export function readOnce(text: string): PhotometricResult {
  let result = read.get(text);
  if (!result) {
    result = readPhotometricFile(text);
    if (read.size >= MOST_KEPT) read.clear();
    read.set(text, result);
  }
  return result;
}

/** The file that a light's beam names; null where it has a lobe of its own. The plan has been checked. */
export function photometryOf(plan: Plan, light: Light): PhotometricFile | null {
  const name = light.beam.photometry;
  if (name === undefined) return null;
  const text = plan.photometry?.[name];
  const result = text === undefined ? null : readOnce(text);
  if (!result?.ok) throw new Error(`${light.name}: ${name} has not been checked`);
  return result.file;
}

/** Names of photometric files that a document's lights use and that it does not hold. */
export function missingPhotometry(document: unknown): string[] {
  if (!isLoose(document) || !Array.isArray(document.lights)) return [];
  const held = isLoose(document.photometry) ? document.photometry : {};
  const names = document.lights.map(nameOf).filter((name) => name !== null && !Object.hasOwn(held, name));
  return [...new Set(names as string[])];
}

function nameOf(light: unknown): string | null {
  const beam = isLoose(light) ? light.beam : null;
  return isLoose(beam) && typeof beam.photometry === "string" ? beam.photometry : null;
}

/** A light's front by its file's luminous opening: width across, length upward; nothing where the file is unknown. */
export function faceOfFile(light: Loose, held: unknown): Loose | null {
  const name = nameOf(light);
  const text = name !== null && isLoose(held) && Object.hasOwn(held, name) ? held[name] : null;
  const result = typeof text === "string" ? readOnce(text) : null;
  if (!result?.ok) return null;
  const { width, length, round } = result.file.opening;
  if (!(width > LEAST && length > LEAST)) {
    const across = Math.max(width, length);
    return round && across > LEAST ? { shape: "disc", width: across } : { shape: "point" };
  }
  return round
    ? { shape: "disc", width: Math.max(width, length) }
    : { shape: "rectangle", width, height: length };
}

/** A front narrower than this is none. */
const LEAST = 0.001;

/** What is wrong with the file that a light names, in words; null where nothing is. */
export function photometryProblem(light: Loose, held: unknown): string | null {
  const name = nameOf(light);
  if (name === null) return null;
  const text = isLoose(held) && Object.hasOwn(held, name) ? held[name] : undefined;
  if (text === undefined)
    return `${name} was not found; put the file beside the plan, or its text into the plan as photometry["${name}"]`;
  if (typeof text !== "string") return null;
  const result = readOnce(text);
  return result.ok ? null : `${name}, line ${result.fault.line}: ${result.fault.what}`;
}
