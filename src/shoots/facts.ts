/** What of a plan and of a test frame's reading shoots are searched by. Kept plans were checked when they were opened, maybe
 * by a newer or an older program: what is not as expected is passed over. */
import type { Face } from "../plan/index.ts";
import { PATTERNS, patternName } from "../reading/index.ts";
import { faceWords } from "../sheet/index.ts";
import type { PhotoFace, PhotoReading } from "../testframe/index.ts";
import { formatLength } from "../units/index.ts";

export interface PlanFacts {
  readonly title: string;
  /** what a person might remember of it: title, names of all that stands in it, fronts, room */
  readonly words: string;
  /** names, each once */
  readonly lights: readonly string[];
  /** "7.00 × 9.00 m"; null in open space */
  readonly room: string | null;
  /** that the brief asks for, by its name: "Rembrandt" */
  readonly pattern: string | null;
  /** made on set and written into it */
  readonly readings: number;
  /** of any of its lights, or of its room, something was measured */
  readonly isCalibrated: boolean;
}

type Loose = Readonly<Record<string, unknown>>;

export function factsOfPlan(plan: unknown): PlanFacts {
  const { brief, room, title, lights, panels, people, ...rest } = loose(plan);
  const wanted = patternCalled(loose(loose(brief).want).pattern);
  const names = namesOf(lights);
  const size = roomWords(room);
  const said = [
    text(title),
    ...names,
    ...list(lights).map(({ face }) => frontWords(face)),
    ...[panels, people, rest.marks, rest.meters].flatMap(namesOf),
    ...gearWords(loose(brief).gear),
    wanted,
    size,
  ];
  return {
    title: text(title) || "Untitled",
    words: [...new Set(said.filter((word) => word !== null && word !== ""))].join("\n"),
    lights: names,
    room: size,
    pattern: wanted,
    readings: list(rest.readings).length,
    isCalibrated: [room, ...list(lights)].some((part) => isThere(loose(part).calibration)),
  };
}

export interface FrameFacts {
  /** of the largest face, by its name; null where there is none, or it cannot be told */
  readonly pattern: string | null;
  readonly ratioStops: number | null;
  readonly clippedSkin: number | null;
}

export function factsOfFrame({ faces }: PhotoReading): FrameFacts {
  const face = largest(faces);
  return {
    pattern: patternCalled(face?.pattern),
    ratioStops: face?.ratioStops ?? null,
    clippedSkin: face?.clippedSkin ?? null,
  };
}

/** "Rembrandt" for "rembrandt", or for its name itself; null for what is no pattern. */
export function patternCalled(pattern: unknown): string | null {
  const known = PATTERNS.find((one) => one === pattern || patternName(one) === pattern);
  return known === undefined ? null : patternName(known);
}

function largest(faces: readonly PhotoFace[]): PhotoFace | null {
  const area = ({ box }: PhotoFace) => box.width * box.height;
  return faces.reduce<PhotoFace | null>((a, b) => (a === null || area(b) > area(a) ? b : a), null);
}

/** "7.00 × 9.00 m": walls as a tape measures them, width before depth. */
function roomWords(room: unknown): string | null {
  const { width, depth } = loose(room);
  if (typeof width !== "number" || typeof depth !== "number") return null;
  return `${formatLength(width, "metric").replace(" m", "")} × ${formatLength(depth, "metric")}`;
}

function frontWords(face: unknown): string {
  const { shape, width, height } = loose(face);
  const isWhole =
    shape === "point" || (typeof width === "number" && (shape !== "rectangle" || typeof height === "number"));
  return isWhole && typeof shape === "string" ? faceWords(face as Face, "metric") : "";
}

/** Heads, what goes on them, and panels that a brief has at hand. */
function gearWords(gear: unknown): string[] {
  const { lights, panels } = loose(gear);
  return [...namesOf(lights), ...list(lights).flatMap(({ fronts }) => namesOf(fronts)), ...namesOf(panels)];
}

function namesOf(things: unknown): string[] {
  const names = list(things).map(({ name }) => text(name));
  return [...new Set(names.filter((name) => name !== ""))];
}

function loose(value: unknown): Loose {
  return typeof value === "object" && value !== null ? (value as Loose) : {};
}

function list(value: unknown): Loose[] {
  return Array.isArray(value) ? value.map(loose) : [];
}

function text(value: unknown): string {
  return typeof value === "string" ? value.trim() : "";
}

function isThere(value: unknown): boolean {
  return value !== null && value !== undefined;
}
