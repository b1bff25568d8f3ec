/** Photometric files of a plan: their texts are kept inside it, so that a plan that is mailed keeps its lights. */
import {
  type PhotometricFile,
  type PhotometricResult,
  readPhotometricFile,
  sendsForward,
} from "../photometry/index.ts";
import { isLoose, type Loose } from "./fill-in.ts";
import { isFileName } from "./parts.ts";
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

/** A light's front by its file's luminous opening: width across, length upward; nothing where no file is named. Where
 * the file is the problem, a point stands in: one problem is told, not two. */
export function faceOfFile(light: Loose, held: unknown): Loose | null {
  const name = nameOf(light);
  if (name === null) return null;
  const text = isLoose(held) && Object.hasOwn(held, name) ? held[name] : null;
  const result = typeof text === "string" ? readOnce(text) : null;
  if (!result?.ok) return { shape: "point" };
  const { width, length, round } = result.file.opening;
  const across = Math.max(width, length);
  if (!(across > LEAST)) return { shape: "point" };
  if (round) return { shape: "disc", width: across };
  // a line of light stays as long as it is
  return { shape: "rectangle", width: Math.max(width, LEAST), height: Math.max(length, LEAST) };
}

/** The narrowest front, m; what is smaller both ways is a point. */
const LEAST = 0.001;

/** Less than this share of the brightest is nothing along the axis. */
const NOTHING = 1e-6;

interface PhotometryProblem {
  /** within the light */
  readonly field: readonly string[];
  readonly what: string;
}

/** What is wrong with the file that a light names, or with what the light asks of it. */
export function photometryProblems(light: Loose, held: unknown): PhotometryProblem[] {
  const name = nameOf(light);
  // names that are none, and what is no group of texts, are told by the schema
  if (name === null || !isFileName(name) || (held !== undefined && !isLoose(held))) return [];
  const problem = (what: string, field: readonly string[] = ["beam", "photometry"]) => [{ field, what }];
  const text = held !== undefined && Object.hasOwn(held, name) ? held[name] : undefined;
  if (text === undefined)
    return problem(
      `${name} was not found; put the file beside the plan, or its text into the plan as photometry["${name}"]`,
    );
  if (typeof text !== "string") return [];
  const result = readOnce(text);
  if (!result.ok) return problem(`${name}, line ${result.fault.line}: ${result.fault.what}`);
  const { beam, face, output } = light;
  if (isLoose(beam) && beam.exponent !== undefined && beam.exponent !== 1)
    return problem("must be left out: the photometric file says how the light spreads", ["beam", "exponent"]);
  if (isLoose(face) && face.shape !== "point" && !sendsForward(result.file))
    return problem(
      `${name} sends nothing forward, at vertical angles under 90, as a front with a size does; make the face a "point"`,
    );
  const isMeasuredOnAxis = isLoose(output) && ("meter" in output || "guideNumber" in output);
  if (isMeasuredOnAxis && !(alongAxis(result.file) > NOTHING))
    return problem(
      `is measured on the axis, where ${name} sends nothing; give lumenSeconds or wattSeconds instead`,
      ["output"],
    );
  return [];
}

/** Intensity along the axis as a share of the brightest. */
function alongAxis({ vertical_deg, candela }: PhotometricFile): number {
  return vertical_deg[0] === 0 ? candela[0] / candela.reduce((most, cd) => Math.max(most, cd), 0) : 0;
}
