/** Small named changes to a plan. Each is plain data: it can be stored, undone and said in a line. */
import { checkPlan } from "./parse.ts";
import type { Problem } from "./problems.ts";
import type { Plan } from "./schema.ts";

export type ListName = "lights" | "panels" | "people" | "meters";

/** Where a field stands: ["lights", 0, "position"]. */
export type FieldPath = readonly (string | number)[];

export type Edit =
  /** put values into fields; `label` says it in the trade's words */
  | {
      readonly kind: "set";
      readonly label: string;
      readonly fields: readonly { path: FieldPath; value: unknown }[];
    }
  | { readonly kind: "add"; readonly label: string; readonly list: ListName; readonly item: unknown }
  | { readonly kind: "remove"; readonly label: string; readonly list: ListName; readonly index: number };

export type Edited =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly problems: Problem[] };

/** The plan after an edit; a plan that would be wrong is not made, and its problems come back instead. */
export function applyEdit(plan: Plan, edit: Edit): Edited {
  if (edit.kind === "add") return checkPlan({ ...plan, [edit.list]: [...plan[edit.list], edit.item] });
  if (edit.kind === "remove")
    return checkPlan({ ...plan, [edit.list]: plan[edit.list].filter((_, i) => i !== edit.index) });
  let next: unknown = plan;
  for (const { path, value } of edit.fields) next = withField(next, path, value);
  return checkPlan(next);
}

function withField(value: unknown, path: FieldPath, put: unknown): unknown {
  if (path.length === 0) return put;
  const [step, ...rest] = path;
  if (Array.isArray(value)) return value.map((v, i) => (i === step ? withField(v, rest, put) : v));
  const record = (value ?? {}) as Record<string, unknown>;
  return { ...record, [step]: withField(record[step as string], rest, put) };
}

export function setField(label: string, path: FieldPath, value: unknown): Edit {
  return { kind: "set", label, fields: [{ path, value }] };
}
