/** Small named changes to a plan. Each is plain data: it can be stored, undone and said in a line. */
import { isLoose } from "./fill-in.ts";
import { checkPlan } from "./parse.ts";
import { type Problem, pathText, valueAt } from "./problems.ts";
import { type ListName, ONE_OF, type Plan } from "./schema.ts";

/** Where a field stands: ["lights", 0, "position"]. */
export type FieldPath = readonly (string | number)[];

/** `label` says it in the trade's words, as undo shows it: "key moved to 3.10, 3.45". */
export type Edit =
  /** put values into fields */
  | {
      readonly kind: "set";
      readonly label: string;
      readonly fields: readonly { path: FieldPath; value: unknown }[];
    }
  | { readonly kind: "add"; readonly label: string; readonly list: ListName; readonly item: unknown }
  | { readonly kind: "remove"; readonly label: string; readonly list: ListName; readonly index: number }
  /** one after the other, as one step */
  | { readonly kind: "several"; readonly label: string; readonly edits: readonly Edit[] };

export type Edited =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly problems: Problem[] };

/** The plan after an edit. What the edit does not touch is the same object as before; an edit that changes nothing
 * gives back the plan itself. A plan that would be wrong is not made: its problems come back instead. */
export function applyEdit(plan: Plan, edit: Edit): Edited {
  const changed = change(plan, edit);
  if (!changed.ok) return changed;
  const checked = checkPlan(changed.value);
  return checked.ok ? { ok: true, plan: shared(plan, checked.plan) as Plan } : checked;
}

type Changed =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly problems: Problem[] };

function change(plan: Plan, edit: Edit): Changed {
  if (edit.kind === "several") {
    // only what comes out at the end must be a plan: on the way two things may have one name
    let after: Changed = { ok: true, value: plan };
    for (const each of edit.edits) if (after.ok) after = change(after.value as Plan, each);
    return after;
  }
  if (edit.kind === "add")
    return { ok: true, value: { ...plan, [edit.list]: [...plan[edit.list], edit.item] } };
  if (edit.kind === "remove") {
    if (!(edit.index in plan[edit.list])) return nothingThere([edit.list, edit.index]);
    return { ok: true, value: { ...plan, [edit.list]: plan[edit.list].filter((_, i) => i !== edit.index) } };
  }
  let value: unknown = plan;
  for (const field of edit.fields) {
    const missing = missingEntry(value, field.path);
    if (missing) return nothingThere(missing);
    value = withField(value, field.path, field.value);
  }
  return { ok: true, value: withoutOldNames(plan, value, edit.fields) };
}

/** A front that is given another shape or size is not the modifier any more that it was named after. */
function withoutOldNames(
  before: Plan,
  after: unknown,
  fields: readonly { readonly path: FieldPath }[],
): unknown {
  const of = (index: unknown, field: string) =>
    fields.some(({ path }) => path[0] === "lights" && path[1] === index && path[2] === field);
  const faceIn = (plan: unknown, index: string | number) =>
    JSON.stringify(valueAt(plan, ["lights", index, "face"]));
  let value = after;
  for (const { path } of fields) {
    const [list, index, field] = path;
    if (list !== "lights" || index === undefined || field !== "face" || of(index, "head")) continue;
    if (faceIn(before, index) === faceIn(after, index)) continue;
    const head = valueAt(value, ["lights", index, "head"]);
    if (!isLoose(head) || head.modifier === undefined) continue;
    const { modifier: _, ...rest } = head;
    value = withField(value, ["lights", index, "head"], rest);
  }
  return value;
}

function nothingThere(path: FieldPath): Changed {
  const one = ONE_OF[path[0] as ListName] ?? "entry";
  return {
    ok: false,
    problems: [{ path: pathText(path), what: `must be a ${one} of the plan; there is none here` }],
  };
}

/** The path of the first list entry on the way that does not exist. */
function missingEntry(value: unknown, path: FieldPath): FieldPath | null {
  let here = value;
  for (let i = 0; i < path.length; i++) {
    if (Array.isArray(here) && !(path[i] in here)) return path.slice(0, i + 1);
    here =
      isLoose(here) || Array.isArray(here) ? (here as Record<string | number, unknown>)[path[i]] : undefined;
  }
  return null;
}

function withField(value: unknown, path: FieldPath, put: unknown): unknown {
  if (path.length === 0) return put;
  const [step, ...rest] = path;
  if (Array.isArray(value)) return value.map((v, i) => (i === step ? withField(v, rest, put) : v));
  const record = isLoose(value) ? value : {};
  return { ...record, [step]: withField(record[step], rest, put) };
}

/** `after`, with every part that equals its counterpart in `before` replaced by it, so that sameness can be told by
 * identity and a history of whole plans stays small. */
function shared(before: unknown, after: unknown): unknown {
  if (Array.isArray(before) && Array.isArray(after)) {
    const parts = after.map((part, i) => shared(before[i], part));
    return parts.length === before.length && parts.every((part, i) => part === before[i]) ? before : parts;
  }
  if (!isLoose(before) || !isLoose(after)) return after;
  const keys = Object.keys(after);
  const parts = Object.fromEntries(keys.map((key) => [key, shared(before[key], after[key])]));
  const isSame =
    keys.length === Object.keys(before).length && keys.every((key) => parts[key] === before[key]);
  return isSame ? before : parts;
}

export function setField(label: string, path: FieldPath, value: unknown): Edit {
  return { kind: "set", label, fields: [{ path, value }] };
}
