/** The schema's issues as findings in the trade's words. */
import type { z } from "zod";
import { isLoose } from "./fill-in.ts";
import { knownFields, nearestWord } from "./known.ts";
import { type Finding, MOST_PROBLEMS, pathText, shown, valueAt } from "./problems.ts";
import { plan as planSchema } from "./schema.ts";

export interface Findings {
  readonly findings: Finding[];
  /** found beyond those */
  readonly more: number;
}

export function findingsOf(error: z.ZodError, document: unknown): Findings {
  const findings: Finding[] = [];
  let more = 0;

  const add = (issue: z.core.$ZodIssue, base: readonly PropertyKey[]) => {
    const path = [...base, ...issue.path];
    if (issue.code === "unrecognized_keys") {
      // of one group at most a hundred can be shown, so the rest is only counted
      const keys = issue.keys.slice(0, MOST_PROBLEMS);
      more += issue.keys.length - keys.length;
      for (const key of keys)
        findings.push({ path: [...path, key], say: () => unknownField(path, key, issue.keys, document) });
      return;
    }
    if (issue.code === "invalid_union") {
      const value = valueAt(document, path);
      const nearest = nearestForm(issue.errors, value) ?? slips(path, value);
      if (nearest) {
        for (const inner of nearest) add(inner, path);
        return;
      }
    }
    findings.push({ path, say: () => wording(issue, valueAt(document, path)) });
  };

  for (const issue of error.issues) add(issue, []);
  return { findings, more };
}

function wording(issue: z.core.$ZodIssue, value: unknown): string {
  const must = mustBe(issue);
  if (typeof value !== "string" || !must.startsWith("must be a number")) return `${must}; ${shown(value)}`;
  const isNumeric = value.trim() !== "" && Number.isFinite(Number(value));
  const cure = isNumeric ? "; take the quotes off" : ", which is text: write a number without quotes";
  return `${must}; ${shown(value)}${cure}`;
}

function mustBe(issue: z.core.$ZodIssue): string {
  if (issue.code === "invalid_type" && issue.expected === "object")
    return "must be a group of fields in braces: { … }";
  return issue.message;
}

/** Where no form is recognised: a mistyped name says more than a list of all forms does. */
function slips(path: readonly PropertyKey[], value: unknown): z.core.$ZodIssue[] | null {
  if (!isLoose(value)) return null;
  const known = knownFields(planSchema, path);
  const keys = Object.keys(value).filter((key) => nearestWord(key, known) !== null && !known.includes(key));
  return keys.length > 0 ? [{ code: "unrecognized_keys", keys, path: [], message: "", input: value }] : null;
}

/** `refused` are all fields of the group that the form chosen does not know. */
function unknownField(
  path: readonly PropertyKey[],
  key: string,
  refused: readonly string[],
  document: unknown,
): string {
  const known = knownFields(planSchema, path);
  const holder = valueAt(document, path) as Record<string, unknown>;
  if (known.includes(key)) {
    const shape = holder.shape;
    if (typeof shape === "string") return `a ${shape} has no ${key}; take it out`;
    const others = Object.keys(holder).filter((other) => !refused.includes(other));
    return `does not go together with ${others.join(", ")}; take one or the other out`;
  }
  const meant = nearestWord(key, known);
  if (meant !== null) return `unknown field; did you mean "${meant}"?`;
  const place = path.length === 0 ? "a plan" : pathText(path);
  return `unknown field; take it out. ${place} may have: ${known.join(", ")}`;
}

/** Of several forms the one that the writer most likely meant: the fewest issues, and something of it recognised. */
function nearestForm(
  forms: readonly (readonly z.core.$ZodIssue[])[],
  value: unknown,
): readonly z.core.$ZodIssue[] | null {
  if (typeof value !== "object" || value === null) return null;
  let best: readonly z.core.$ZodIssue[] | null = null;
  for (const issues of forms) {
    const isOtherKind = issues.some((i) => i.path.length === 0 && i.code !== "unrecognized_keys");
    if (isOtherKind || (!Array.isArray(value) && !recognised(issues, value))) continue;
    if (!best || issues.length < best.length) best = issues;
  }
  return best;
}

function recognised(issues: readonly z.core.$ZodIssue[], value: object): boolean {
  const unknown = new Set(issues.flatMap((i) => (i.code === "unrecognized_keys" ? i.keys : [])));
  const isMissingOne = issues.some((i) => i.path.length === 1 && !Object.hasOwn(value, i.path[0]));
  return !isMissingOne && Object.keys(value).some((key) => !unknown.has(key));
}
