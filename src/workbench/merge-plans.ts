/** Two plans that began as one and went on apart, made one again field by field. */
import { checkPlan, isSameData, type Plan } from "../plan/index.ts";

const CLASH = Symbol("both changed the same");
type Named = Readonly<Record<string, unknown>> & { readonly name: string };

/** What either changed since `base`, in one plan. Entries of a list are told apart by their names; a position or a
 * colour is one value. Null where both changed the same field, or where the two together are no plan. */
export function mergePlans(base: Plan, mine: Plan, theirs: Plan): Plan | null {
  const merged = merge(base, mine, theirs);
  if (merged === CLASH) return null;
  const checked = checkPlan(merged);
  return checked.ok ? checked.plan : null;
}

function merge(base: unknown, mine: unknown, theirs: unknown): unknown {
  if (isSameData(base, mine)) return theirs;
  if (isSameData(base, theirs) || isSameData(mine, theirs)) return mine;
  if (isNamedList(base) && isNamedList(mine) && isNamedList(theirs)) return mergeLists(base, mine, theirs);
  if (isGroup(base) && isGroup(mine) && isGroup(theirs)) return mergeGroups(base, mine, theirs);
  return CLASH;
}

function mergeGroups(
  base: Record<string, unknown>,
  mine: Record<string, unknown>,
  theirs: Record<string, unknown>,
): unknown {
  const out: Record<string, unknown> = {};
  for (const key of new Set([...Object.keys(theirs), ...Object.keys(mine)])) {
    const value = merge(base[key], mine[key], theirs[key]);
    if (value === CLASH) return CLASH;
    if (value !== undefined) out[key] = value;
  }
  return out;
}

/** In their order; what only mine has comes after. An entry that one took away and the other changed is a clash. */
function mergeLists(base: readonly Named[], mine: readonly Named[], theirs: readonly Named[]): unknown {
  const byName = (list: readonly Named[]) => new Map(list.map((entry) => [entry.name, entry]));
  const [b, m, t] = [byName(base), byName(mine), byName(theirs)];
  const out: unknown[] = [];
  for (const name of new Set([...t.keys(), ...m.keys()])) {
    const entry = merge(b.get(name), m.get(name), t.get(name));
    if (entry === CLASH) return CLASH;
    if (entry !== undefined) out.push(entry);
  }
  return out;
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isNamedList(value: unknown): value is Named[] {
  return Array.isArray(value) && value.every((entry) => isGroup(entry) && typeof entry.name === "string");
}
