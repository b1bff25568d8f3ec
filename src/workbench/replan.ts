/** The same look elsewhere, or with other gear: the set-up carried over if it holds there, else one that is searched for by
 * what was read of it. */
import type { Gear, Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/types.ts";
import { planChanges } from "../shoots/changes.ts";
import { isSame } from "../shoots/changes-words.ts";
import { foundPlan, searchFor } from "../shoots/replan-brief.ts";
import { type Drawn, fitInto } from "../shoots/replan-fit.ts";
import { faceOf, type Kept, keptNumbers, lostWords, type ReadPlan } from "../shoots/replan-kept.ts";
import { aloneWith, givesOf, type LightGives, powerFactors, withPowers } from "../shoots/replan-power.ts";
import { type ReplanAsk, ReplanError, type Replanned, type ReplanWay } from "../shoots/replan-types.ts";
import { nearerReasons, powerReasons, shiftReasons, titleAgain } from "../shoots/replan-words.ts";
import type { LengthUnits } from "../units/index.ts";
import { findSetUps, type SearchFinder } from "./find.ts";
import type { Computer, Quality, WorkOptions } from "./ports.ts";

export interface ReplanParts {
  readonly computer: Pick<Computer, "read">;
  /** asked only where the set-up as it is does not hold */
  readonly finders: () => readonly SearchFinder[];
  readonly units: LengthUnits;
  /** fine where it is left out: what is written down */
  readonly quality?: Exclude<Quality, "glance">;
}

interface Carried {
  readonly plan: Plan;
  readonly drawn: readonly Drawn[];
  readonly kept: Kept;
  readonly lost: readonly string[];
}

/** Where on the way from 0 to 1 the search begins. */
const CARRIED = 0.4;

/** A plan of its own for the same look, with what had to change for it and what is kept.
 * Shape   reading: of the plan as it is, in the same quality as what is read here
 * Errors  ReplanError where nobody is lit, or the room cannot hold the people; BriefError where there is nothing to light
 *         with; rejects as computer and finders do when `options.signal` is aborted */
export async function replan(
  plan: Plan,
  reading: PlanReading,
  ask: ReplanAsk,
  parts: ReplanParts,
  options: WorkOptions = {},
): Promise<Replanned> {
  const person = plan.brief?.person ?? 0;
  demandLook(plan, reading, person);
  const look: ReadPlan = { plan, reading };
  if (ask.gear === null && isSame(ask.room, plan.room)) return asItWas(look, person, parts);
  const carried = await carryOver(look, person, ask, parts, options);
  if (ask.gear === null && carried.kept.holds && carried.lost.length === 0)
    return finished("moved over", look, carried, carried.plan, [], parts);
  const found = await searchAgain(look, carried, person, ask.gear, parts, options);
  if (found === null && ask.gear !== null)
    throw new ReplanError(
      "no set-up for this look was found with that gear",
      "name more lights or other fronts, or give a larger room",
    );
  // where neither holds, what there is already is less work than what nobody has set up yet
  const isBetter = ask.gear !== null || (found !== null && missed(found) < missed(carried));
  if (found === null || !isBetter) return finished("moved over", look, carried, carried.plan, [], parts);
  const why =
    ask.gear === null
      ? `the set-up as it was does not hold there (${[...carried.lost, ...lostWords(carried.kept)].join("; ")})`
      : "other gear was named";
  return finished(
    "found",
    look,
    { ...found, drawn: carried.drawn.filter(({ name }) => FIXED.includes(name)) },
    found.plan,
    [`${why}: ${found.title}`],
    parts,
  );
}

/** What a search takes as it is: that these came nearer is so in what it finds. */
const FIXED = ["camera", "backdrop"];

function demandLook(plan: Plan, { people }: PlanReading, person: number): void {
  const face = people[person]?.face;
  if (face === undefined)
    throw new ReplanError(
      "nobody is on the mark, so that there is no look to plan again",
      "add a person to the plan first",
    );
  if (!(face.litCheek > 0) || !plan.lights.some(({ on }) => on))
    throw new ReplanError("no light of the plan reaches the face", "switch one on first");
}

function asItWas(look: ReadPlan, person: number, { units }: ReplanParts): Replanned {
  const plan = { ...look.plan, title: titleAgain(look.plan.title) };
  return {
    way: "as it was",
    plan,
    changes: planChanges(look.plan, plan, units),
    reasons: [],
    kept: keptNumbers(look, look, person).numbers,
    lost: [],
  };
}

/** Moved over, powers set anew, and read there. */
async function carryOver(
  look: ReadPlan,
  person: number,
  { room }: ReplanAsk,
  parts: ReplanParts,
  options: WorkOptions,
): Promise<Carried> {
  const { drawn, left, plan } = fitInto(look.plan, room, person);
  const on = plan.lights.filter((light) => light.on);
  const steps = 2 * on.length + 1;
  const read = (own: Plan, step: number) => {
    options.onProgress?.({ done: (CARRIED * step) / steps, what: "moving the set over" });
    return parts.computer.read(
      own,
      parts.quality ?? "fine",
      options.signal ? { signal: options.signal } : {},
    );
  };
  const gives: LightGives[] = [];
  for (const [step, { name }] of on.entries()) {
    const before = givesOf(await read(aloneWith(look.plan, indexOf(look.plan, name)), 2 * step), person);
    const after = givesOf(await read(aloneWith(plan, indexOf(plan, name)), 2 * step + 1), person);
    if (before !== null && after !== null) gives.push({ name, before, after });
  }
  const powered = withPowers(plan, powerFactors(gives, faceOf(look, person).litSide));
  const reading = await read(powered.plan, steps - 1);
  const lost = [...left.map((name) => `there is no place for ${name}`), ...powered.short];
  return {
    plan: powered.plan,
    drawn,
    kept: keptNumbers(look, { plan: powered.plan, reading }, person),
    lost,
  };
}

function indexOf({ lights }: Plan, name: string): number {
  return lights.findIndex((light) => light.name === name);
}

interface Found {
  readonly plan: Plan;
  readonly kept: Kept;
  readonly lost: readonly string[];
  readonly title: string;
}

/** Searched for with camera and sitter where the set was moved to. */
async function searchAgain(
  look: ReadPlan,
  carried: Carried,
  person: number,
  gear: Gear | null,
  parts: ReplanParts,
  { onProgress, signal }: WorkOptions,
): Promise<Found | null> {
  const asked = searchFor(withAllLights(carried.plan, look.plan), look, person, gear);
  const answer = await findSetUps(asked, parts.finders(), {
    holds: false,
    ...(signal ? { signal } : {}),
    onProgress: ({ done, what }) => onProgress?.({ done: CARRIED + (1 - CARRIED) * done, what }),
  });
  const [best] = answer.setUps;
  if (best === undefined) return null;
  const plan = foundPlan(best.plan, carried.plan, gear);
  const reading = await parts.computer.read(plan, parts.quality ?? "fine", signal ? { signal } : {});
  const unmet = best.wishes.filter(
    ({ isMet, wish }) => !isMet && (wish === "clearance" || wish === "frame" || wish === "power"),
  );
  return {
    plan,
    kept: keptNumbers(look, { plan, reading }, person),
    lost: unmet.map(({ got, why }) => (why === null ? got : `${got}: ${why}`)),
    title: best.title,
  };
}

/** Lights for which there was no place are on hand all the same; where they are now is nothing to the search. */
function withAllLights(carried: Plan, { lights }: Plan): Plan {
  const { position } = carried.camera;
  const missing = lights.filter(({ name }) => indexOf(carried, name) < 0);
  return { ...carried, lights: [...carried.lights, ...missing.map((light) => ({ ...light, position }))] };
}

function missed({ kept, lost }: Pick<Found, "kept" | "lost">): number {
  return lost.length + kept.numbers.filter(({ isKept }) => !isKept).length;
}

function finished(
  way: ReplanWay,
  look: ReadPlan,
  { drawn, kept, lost }: Pick<Carried, "drawn" | "kept" | "lost">,
  own: Plan,
  reasons: readonly string[],
  { units }: ReplanParts,
): Replanned {
  const plan = { ...own, title: titleAgain(look.plan.title) };
  const changes = planChanges(look.plan, plan, units);
  return {
    way,
    plan,
    changes,
    reasons: [
      ...reasons,
      ...shiftReasons(changes),
      ...nearerReasons(look.plan, plan, drawn, changes, units),
      ...(way === "moved over" ? powerReasons(plan, drawn, changes) : []),
    ],
    kept: kept.numbers,
    lost: [...lost, ...lostWords(kept)],
  };
}
