/** What is wrong with a document, in words that name the place, the value and the cure. */
import type { z } from "zod";

export interface Problem {
  /** such as lights[0].beam.exponent; "plan" for the document itself */
  readonly path: string;
  readonly what: string;
}

export const MOST_PROBLEMS = 100;

export function pathText(path: readonly PropertyKey[]): string {
  let text = "";
  for (const step of path)
    text += typeof step === "number" ? `[${step}]` : text ? `.${String(step)}` : String(step);
  return text || "plan";
}

/** Every issue that the schema found, one problem each. */
export function problemsOf(error: z.ZodError, value: unknown): Problem[] {
  const out: Problem[] = [];
  for (const issue of error.issues) addIssue(out, issue, value, []);
  return out;
}

function addIssue(out: Problem[], issue: z.core.$ZodIssue, value: unknown, base: readonly PropertyKey[]) {
  const path = [...base, ...issue.path];
  if (issue.code === "unrecognized_keys") {
    for (const key of issue.keys)
      out.push({ path: pathText([...path, key]), what: "unknown field; take it out or correct its name" });
    return;
  }
  if (issue.code === "invalid_union" && issue.errors.length > 0) {
    // the branch that comes nearest says more than "none fits"
    const nearest = nearestBranch(issue.errors, at(value, path));
    if (nearest) {
      for (const inner of nearest) addIssue(out, inner, value, path);
      return;
    }
  }
  out.push({ path: pathText(path), what: `${issue.message}${shown(at(value, path))}` });
}

/** A branch of a union in which at least one field was recognised: the one with the fewest issues. */
function nearestBranch(
  branches: readonly (readonly z.core.$ZodIssue[])[],
  value: unknown,
): readonly z.core.$ZodIssue[] | null {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return null;
  const keys = Object.keys(value);
  let best: readonly z.core.$ZodIssue[] | null = null;
  for (const issues of branches) {
    const unknown = new Set(issues.flatMap((i) => (i.code === "unrecognized_keys" ? i.keys : [])));
    const missing = issues.some(
      (i) => i.code === "invalid_type" && at(value, i.path) === undefined && i.path.length === 1,
    );
    if (missing || !keys.some((k) => !unknown.has(k))) continue;
    if (!best || issues.length < best.length) best = issues;
  }
  return best;
}

function at(value: unknown, path: readonly PropertyKey[]): unknown {
  let here: unknown = value;
  for (const step of path) {
    if (typeof here !== "object" || here === null || !Object.hasOwn(here, step)) return undefined;
    here = (here as Record<PropertyKey, unknown>)[step];
  }
  return here;
}

function shown(value: unknown): string {
  if (value === undefined) return "; it is missing";
  const text = typeof value === "number" ? String(value) : JSON.stringify(value);
  return `; it is ${text.length > 60 ? `${text.slice(0, 57)}…` : text}`;
}

export function limited(problems: Problem[]): Problem[] {
  if (problems.length <= MOST_PROBLEMS) return problems;
  const more = problems.length - MOST_PROBLEMS;
  return [...problems.slice(0, MOST_PROBLEMS), { path: "plan", what: `and ${more} more problems` }];
}
