/** The states of a shoot's plans that can be put side by side or opened: every version, and each plan as it is now. */
import { checkPlan, type Plan } from "../plan/index.ts";
import type { FrameRow, PlanInShoot, PlanVersion } from "../shoots/index.ts";
import { type ShootLibrary, WorkError, type WorkGlance } from "../workbench/index.ts";

export interface PlanState {
  readonly id: string;
  readonly key: string;
  /** null: as the plan is now */
  readonly version: PlanVersion | null;
  /** "Quartet, 2 before lunch" */
  readonly name: string;
  readonly at: string;
}

export function nowOf({ key, savedAt, title }: PlanInShoot): PlanState {
  return { id: `now ${key}`, key, version: null, name: `${title}, as it is now`, at: savedAt };
}

export function stateOf({ title }: PlanInShoot, version: PlanVersion): PlanState {
  const { id, key, madeAt } = version;
  return { id, key, version, name: `${title}, ${versionWords(version)}`, at: madeAt };
}

/** "2 before lunch", "3 kept by itself"; "version 4" where nobody called it otherwise */
export function versionWords({ isAutomatic, name, number }: PlanVersion): string {
  const own = name.trim();
  if (own === `version ${number}`) return own;
  return own === "" ? `${number}${isAutomatic ? " kept by itself" : ""}` : `${number} ${own}`;
}

/** Under which plan a frame came in, and as which version of it that is kept: "Quartet, 2 before lunch". */
export function stateOfFrame(
  plans: readonly PlanInShoot[],
  { key, version }: Pick<FrameRow, "key" | "version">,
): string | null {
  const plan = plans.find((each) => each.key === key);
  if (plan === undefined) return null;
  const kept = plan.versions.find(({ id }) => id === version);
  return kept === undefined ? plan.title : stateOf(plan, kept).name;
}

/** At most two are held up beside each other: one more takes the place of the one that was taken first. */
export function pickTwo(picked: readonly string[], id: string): readonly string[] {
  return picked.includes(id) ? picked.filter((each) => each !== id) : [...picked.slice(-1), id];
}

/** The older one first; null until there are two that still exist. */
export function pairOf(
  plans: readonly PlanInShoot[],
  picked: readonly string[],
): readonly [PlanState, PlanState] | null {
  const [one, other] = plans
    .flatMap((plan) => [nowOf(plan), ...plan.versions.map((version) => stateOf(plan, version))])
    .filter(({ id }) => picked.includes(id))
    .sort((a, b) => a.at.localeCompare(b.at));
  return one === undefined || other === undefined ? null : [one, other];
}

export interface MadeReading {
  readonly key: string;
  /** of the plan that it was made under */
  readonly title: string;
  readonly plan: Plan;
  readonly reading: Plan["readings"][number];
}

/** Every meter reading of a shoot, plan by plan in the order in which they were made. */
export function readingsOf(
  inShoot: readonly PlanInShoot[],
  plans: ReadonlyMap<string, Plan | null>,
): MadeReading[] {
  return inShoot.flatMap(({ key, title }) => {
    const plan = plans.get(key) ?? null;
    return plan === null ? [] : plan.readings.map((reading) => ({ key, title, plan, reading }));
  });
}

/** The plan of a state. Errors: WorkError where it cannot be read, or not any more. */
export async function planOf(
  state: PlanState,
  library: Pick<ShootLibrary, "versionPlan">,
  glance: (key: string) => Promise<WorkGlance | null>,
): Promise<Plan> {
  const kept =
    state.version === null ? (await glance(state.key))?.plan : await library.versionPlan(state.version.id);
  const checked = checkPlan(kept);
  if (checked.ok) return checked.plan;
  const [first] = checked.problems;
  const why = first === undefined ? "" : `: ${first.path} ${first.what}`;
  throw new WorkError(`${state.name} cannot be read${why}`, "choose another version");
}
