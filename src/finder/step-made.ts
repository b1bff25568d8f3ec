/** A change made ready: its edit and the plan after it, or why it cannot be made. */
import { applyEdit, type Edit, type FieldPath, type Plan } from "../plan/index.ts";

export type Made =
  | { readonly ok: true; readonly edit: Edit; readonly after: Plan }
  | { readonly ok: false; readonly why: string };

export function refused(why: string): Made {
  return { ok: false, why };
}

/** Refused where the plan would be wrong: the first problem is the reason. */
export function made(plan: Plan, edit: Edit): Made {
  const edited = applyEdit(plan, edit);
  if (!edited.ok) return refused(edited.problems[0]?.what ?? "cannot be made");
  return { ok: true, edit, after: edited.plan };
}

/** Two changes as one step: the second is made from the plan after the first. */
export function madeTogether(label: string, first: Made, then: (after: Plan) => Made): Made {
  if (!first.ok) return first;
  const second = then(first.after);
  if (!second.ok) return second;
  return { ...second, edit: { kind: "several", label, edits: [first.edit, second.edit] } };
}

export function put(label: string, path: FieldPath, patch: object): Edit {
  const fields = Object.entries(patch).map(([key, value]) => ({ path: [...path, key], value }));
  return { kind: "set", label, fields };
}
