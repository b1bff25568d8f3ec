/** What it does to the light on the face that a distance found by the body is a little off. */
import type { Plan } from "../plan/index.ts";
import {
  type KeepGoing,
  type Memory,
  type Pattern,
  type Quality,
  quickTrier,
  Stopped,
  type Trier,
  type TryReading,
} from "../reading/index.ts";
import type { Costly } from "../reading/try-reading.ts";
import type { LengthUnits } from "../units/index.ts";
import { type BodyReach, bodyReaches } from "./by-body-reach.ts";
import { effectWords } from "./by-body-words.ts";

/** The sitter nearer and farther by the spread of one way of finding a distance. */
export interface ReachEffect {
  /** as of its `BodyReach` */
  readonly owner: string;
  /** the larger change of the lit cheek, stops; null where nothing lights it */
  readonly stops: number | null;
  /** on the mark, nearer and farther */
  readonly pattern: Pattern;
  readonly nearer: Pattern;
  readonly farther: Pattern;
}

export interface ReachEffectsOptions {
  /** of a whole reading of the plan that `memory` has already: nothing of it is read again */
  readonly quality?: Quality;
  readonly keepGoing?: KeepGoing;
}

const LEFT_OUT: readonly Costly[] = [
  "shadowEdgeMillimetres",
  "catchlights",
  "backgroundStops",
  "headroomStops",
  "litCheeks",
];

/** One for each thing that the body reaches, of the person who reaches it.
 * Shape    in the order of `bodyReaches`, without those out of reach
 * Units    stops at the lit cheek
 * Errors   Stopped where `keepGoing` returns false
 * Accuracy that of a trial reading: docs/spec/try.md [QF16] to [QF18]; [BY6] */
export function reachEffects(
  plan: Plan,
  memory: Memory,
  { quality = "coarse", keepGoing = () => true }: ReachEffectsOptions = {},
): ReachEffect[] {
  const reaches = bodyReaches(plan, "metric").filter(({ spread_m }) => spread_m > 0);
  const triers = new Map<number, { trier: Trier; before: TryReading }>();
  return reaches.map((reach, i) => {
    if (!keepGoing((i + 1) / (reaches.length + 1))) throw new Stopped();
    const { owner, person, spread_m } = reach;
    let tried = triers.get(person);
    if (tried === undefined) {
      const trier = quickTrier(plan, person, memory, { quality });
      tried = { trier, before: trier.read(plan, LEFT_OUT) };
      triers.set(person, tried);
    }
    const { trier, before } = tried;
    const [nearer, farther] = [spread_m, -spread_m].map((by) =>
      trier.read(stepped(plan, reach, by), LEFT_OUT),
    );
    const stops = [nearer, farther].map(({ litCheek }) => Math.abs(Math.log2(litCheek / before.litCheek)));
    return {
      owner,
      stops: before.litCheek > 0 ? Math.max(...stops) : null,
      pattern: before.pattern,
      nearer: nearer.pattern,
      farther: farther.pattern,
    };
  });
}

/** The person off the mark along the line that is measured. */
function stepped(plan: Plan, { person, toward }: BodyReach, by_m: number): Plan {
  const people = plan.people.map((each, i) => {
    if (i !== person) return each;
    const [x, y] = each.position;
    const position: [number, number] = [x + by_m * toward[0], y + by_m * toward[1]];
    return { ...each, position };
  });
  return { ...plan, people };
}

export interface BodyReachTold extends BodyReach {
  /** "power ±0.2 stop, pattern stays"; "" where there is no reach, or where it is not known */
  readonly effect: string;
}

/** Each way of finding a distance and what its spread does, in words: what a sheet prints.
 * Shape    as `bodyReaches`
 * Units    words in `units`
 * Errors   none for a plan that was checked, and effects of it */
export function reachesTold(
  plan: Plan,
  units: LengthUnits,
  effects: readonly ReachEffect[],
): BodyReachTold[] {
  return bodyReaches(plan, units).map((reach) => {
    const effect = effects.find(({ owner }) => owner === reach.owner);
    return { ...reach, effect: effect === undefined ? "" : effectWords(effect, reach.spread_m, units) };
  });
}
