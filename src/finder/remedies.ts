/** The smallest changes that reach a wish, ranked by how easily a person does them on set. */
import type { Plan } from "../plan/index.ts";
import {
  type KeepGoing,
  type Memory,
  quickTrier,
  readPlan,
  type TryReading,
  tryReadingOf,
} from "../reading/index.ts";
import { step, within } from "../reading/progress.ts";
import type { LengthUnits } from "../units/index.ts";
import { mainLight } from "./main-light.ts";
import { costsOf, type Read } from "./remedy-costs.ts";
import { amountsFor, type Found } from "./remedy-search.ts";
import { triesFor } from "./remedy-tries.ts";
import { isAlready, isReached, lightsOnGlasses } from "./remedy-wish.ts";
import { newly, pictureFaults } from "./step-in-picture.ts";
import { sitterIn } from "./turning.ts";
import type { Ask, Ease, Remedy } from "./types.ts";

/** As many as are looked through with somebody waiting. */
const MOST = 8;
/** How much of the work the looking is; the rest is the reading of what was found. */
const LOOKING = 0.6;
/** A whole reading that says otherwise than the quick one is met by so many corrections, else the remedy is dropped. */
const CORRECTIONS = 3;

/** One remedy a kind of change, at most eight; none where the wish is so already, or nothing within reach reaches it.
 * Each is found by the quick reading and held to a whole coarse one after rounding.
 * Errors  Stopped where `keepGoing` returns false; RangeError where there is no such person */
export function findRemedies(
  plan: Plan,
  person: number,
  ask: Ask,
  units: LengthUnits,
  memory: Memory,
  keepGoing: KeepGoing,
): Remedy[] {
  const sitter = sitterIn(plan, person);
  if (sitter === null) throw new RangeError("nobody is there to be read");
  step(keepGoing, 0);
  const before: Read = { plan, reading: readPlan(plan, "coarse", memory) };
  if (isAlready(ask, before.reading, person)) return [];
  const trier = quickTrier(plan, person, memory);
  const read = remembered((tried) => trier.read(tried));
  const tries = triesFor(ask, { plan, sitter, units }, mainLight(plan, sitter), read);
  const lights = lightsOnGlasses(before.reading, person);
  const offending = plan.lights.flatMap(({ name }, i) => (lights.includes(name) ? [i] : []));
  const found = amountsFor(ask, tries, { plan, person, read, offending }, within(keepGoing, 0, LOOKING));
  const held: Held[] = [];
  const { pattern } = before.reading.people[person].face;
  for (const [i, each] of ranked(found, plan, person, pattern, ask).entries()) {
    if (held.length === MOST) break;
    step(keepGoing, LOOKING + ((1 - LOOKING) * i) / found.length);
    const one = heldTo(ask, person, before, each, memory);
    if (one !== null) held.push(one);
  }
  return ranked(held, plan, person, pattern, ask).map(({ remedy }) => remedy);
}

function remembered(read: (plan: Plan) => TryReading) {
  const known = new WeakMap<Plan, TryReading>();
  return (plan: Plan) => {
    const reading = known.get(plan) ?? read(plan);
    known.set(plan, reading);
    return reading;
  };
}

type Held = Ranked & { readonly remedy: Remedy };

/** Null where a whole reading does not bear it out. */
function heldTo(ask: Ask, person: number, before: Read, found: Found, memory: Memory): Held | null {
  const { tryable, corrected } = found;
  let parts: number | null = found.parts;
  for (let turn = 0; turn <= CORRECTIONS && parts !== null && parts !== 0; turn++) {
    const { made, does } = tryable.at(parts * tryable.finest);
    if (!made.ok) return null;
    const after = { plan: made.after, reading: readPlan(made.after, "coarse", memory) };
    if (isReached(ask, person, before, after)) {
      const reading = tryReadingOf(after.reading, person);
      const costs = costsOf(ask, person, before, after);
      const remedy = { ease: tryable.ease, does, edit: made.edit, costs, after: reading };
      return { tryable, parts, after: after.plan, reading, remedy };
    }
    parts = corrected(parts, before, after);
  }
  return null;
}

const EASES: readonly Ease[] = ["camera", "sitter", "stand", "power", "gear"];

type Ranked = Pick<Found, "tryable" | "parts" | "after" | "reading">;

/** By ease; of the same ease first what does not spoil the picture, then what leaves the pattern, then the fewest
 * small steps. */
function ranked<T extends Ranked>(
  list: readonly T[],
  before: Plan,
  person: number,
  pattern: TryReading["pattern"],
  ask: Ask,
): T[] {
  const faults = pictureFaults(before, person);
  const places = new Map(
    list.map((one) => {
      const { tryable, parts, after, reading } = one;
      const spoils = newly(faults, pictureFaults(after, person)).length > 0;
      const changes = ask.ask !== "pattern" && reading.pattern !== pattern;
      const steps = (Math.abs(parts) * tryable.finest) / tryable.step;
      return [one, [EASES.indexOf(tryable.ease), Number(spoils), Number(changes), steps]];
    }),
  );
  const placeOf = (one: T) => places.get(one) ?? [];
  return [...list].sort((a, b) => {
    const [p, q] = [placeOf(a), placeOf(b)];
    const k = p.findIndex((x, i) => x !== q[i]);
    return k < 0 ? 0 : p[k] - q[k];
  });
}
