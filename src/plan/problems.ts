/** What is wrong with a document, in words that name the place, the value, what is allowed and the cure. */
import { isLoose } from "./fill-in.ts";

export interface Problem {
  /** such as lights[0].beam.exponent; "plan" for the document itself */
  readonly path: string;
  readonly what: string;
}

/** A problem before it is put into words: only those that are shown need any. */
export interface Finding {
  readonly path: readonly PropertyKey[];
  readonly say: () => string;
}

export const MOST_PROBLEMS = 100;

export function pathText(path: readonly PropertyKey[]): string {
  let text = "";
  for (const step of path) {
    const key = String(step);
    if (typeof step === "number") text += `[${step}]`;
    else if (/^[\p{L}_$][\p{L}\p{N}_$]{0,39}$/u.test(key)) text += text ? `.${key}` : key;
    else text += `[${quoted(key)}]`;
  }
  return text || "plan";
}

/** The findings as problems, in the order of the document, the first hundred and how many more there are. */
export function toProblems(findings: readonly Finding[], more: number, document: unknown): Problem[] {
  const sorted = [...findings].sort(inOrderOf(document));
  const shown = sorted
    .slice(0, MOST_PROBLEMS)
    .map((finding) => ({ path: pathText(finding.path), what: finding.say() }));
  const left = sorted.length - shown.length + more;
  if (left > 0) shown.push({ path: "plan", what: `and ${left} more problems like these` });
  return shown;
}

/** Compares by where things stand in the document; what is missing comes after what is there. */
function inOrderOf(document: unknown): (a: Finding, b: Finding) => number {
  const places = new WeakMap<object, ReadonlyMap<string, number>>();
  const placeIn = (holder: unknown, step: PropertyKey): number => {
    if (typeof step === "number") return step;
    if (!isLoose(holder)) return 0;
    let known = places.get(holder);
    if (!known) {
      known = new Map(Object.keys(holder).map((key, i) => [key, i]));
      places.set(holder, known);
    }
    return known.get(String(step)) ?? known.size;
  };
  return (a, b) => {
    let holder = document;
    const shared = Math.min(a.path.length, b.path.length);
    for (let i = 0; i < shared; i++) {
      if (a.path[i] !== b.path[i]) return placeIn(holder, a.path[i]) - placeIn(holder, b.path[i]);
      holder = valueAt(holder, [a.path[i]]);
    }
    return a.path.length - b.path.length;
  };
}

export function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  let here = value;
  for (const step of path) {
    if (typeof here !== "object" || here === null || !Object.hasOwn(here, step)) return undefined;
    here = (here as Record<PropertyKey, unknown>)[step];
  }
  return here;
}

const LONGEST_SHOWN = 60;

function quoted(text: string): string {
  return JSON.stringify(text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN - 1)}…` : text);
}

/** The value that stands there, short, on one line; big ones by their kind only. */
export function shown(value: unknown): string {
  if (value === undefined) return "it is missing";
  if (typeof value === "string") return `it is ${quoted(value)}`;
  if (typeof value === "number" && !Number.isFinite(value)) return "it is more than a number can hold";
  if (Array.isArray(value)) {
    const short = value.length <= 4 && value.every((v) => v === null || typeof v === "number");
    if (short) return `it is [${value.map(String).join(", ")}]`;
    return `it is a list of ${value.length}`;
  }
  return typeof value === "object" && value !== null
    ? "it is a group in braces { … }"
    : `it is ${String(value)}`;
}
