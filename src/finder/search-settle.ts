/** A candidate traced with everything in it, set right where the fast look was off, and told wish by wish. */
import type { Light, Plan, Want } from "../plan/index.ts";
import type { KeepGoing, Memory } from "../reading/index.ts";
import { step, within } from "../reading/progress.ts";
import { backgroundOf } from "./search-background.ts";
import { type Search, searchOf } from "./search-brief.ts";
import type { Second } from "./search-join.ts";
import { marginOf, missOf, type Seen } from "./search-judge.ts";
import { FaceModel } from "./search-model.ts";
import { spotOf } from "./search-place.ts";
import { refine } from "./search-scan.ts";
import { fullOf, headOf, isPinnedHere, type Traced, Tracing } from "./search-trace.ts";
import { SetUpTrier } from "./search-try.ts";
import { titleOf, wishesMet } from "./search-words.ts";
import type { Candidate, SetUp, SetUpKind } from "./types.ts";

/** Times that a set-up is moved and traced again. */
const ROUNDS = 2;
const TRIES = 60;

export function settleCandidate(
  plan: Plan,
  candidate: Candidate,
  memory: Memory,
  keepGoing: KeepGoing,
): SetUp {
  const search = searchOf(plan);
  const stays = new Set(search.plan.lights.map((light) => light.name));
  const bare = {
    ...candidate.plan,
    lights: candidate.plan.lights.filter((light) => stays.has(light.name)),
    panels: search.plan.panels,
  };
  const own = { ...search, plan: bare };
  const model = new FaceModel(bare, search.person);
  const coarse = new Tracing(own, model, "coarse", memory);
  let best = improved(candidate.kind, coarse, candidate.plan, within(keepGoing, 0, 0.5));
  if (best.cost === 0 && isDoubtful(own, best.seen)) {
    const fine = new Tracing(own, model, "fine", memory);
    best = improved(candidate.kind, fine, best.plan, within(keepGoing, 0.5, 0.9));
  }
  step(keepGoing, 0.9);
  const wishes = wishesMet(own, model, best.plan, best.seen);
  const isMet = wishes.every((wish) => wish.isMet);
  return {
    kind: candidate.kind,
    title: titleOf(candidate.kind, model, plan, best.plan),
    plan: best.plan,
    isMet,
    wishes,
    reading: best.seen.reading,
    hold: null,
  };
}

/** Moved and traced again while that helps. */
function improved(kind: SetUpKind, tracing: Tracing, from: Plan, keepGoing: KeepGoing): Traced {
  let best = tracing.of(from);
  for (let round = 0; round < ROUNDS && best.cost > 0; round++) {
    step(keepGoing, round / ROUNDS);
    const next = moved(tracing.search, tracing.model, best, kind === "a light for the background");
    if (next === null) break;
    const again = tracing.of(next);
    if (again.cost >= best.cost) break;
    best = again;
  }
  return best;
}

/** Where a coarse reading may say otherwise than a fine one: a name that lies between two, a shadow so deep that its light
 * is a few rays' worth, a ratio or clock at the end of its range. */
function isDoubtful({ want }: Search, seen: Seen): boolean {
  if (want.pattern !== null && seen.reading.between !== null) return true;
  if (want.ratioStops !== null && (seen.reading.ratioStops ?? DEEP_STOPS) >= DEEP_STOPS) return true;
  const ratio = marginOf("ratioStops", want, seen);
  const clock = marginOf("catchlight", want, seen);
  return (ratio !== null && ratio < NARROW_STOPS) || (clock !== null && clock < NARROW_HOURS);
}

const DEEP_STOPS = 4;
const NARROW_STOPS = 0.08;
const NARROW_HOURS = 0.1;

/** Another look from there with what the tracing taught; null where nothing can be moved. */
function moved(search: Search, model: FaceModel, now: Traced, isForBackground: boolean): Plan | null {
  const placed = now.plan.lights.filter((light) => !isPinnedHere(model, light));
  const [main, fill] = placed;
  const head = main === undefined ? null : headOf(search, main);
  if (head === null) return null;
  const seconds: Second[] = [];
  const fillHead = fill === undefined ? null : headOf(search, fill);
  if (fillHead !== null) {
    const light = fullOf(fillHead, fill);
    const row = model.newRow();
    model.writeLight(light, row);
    const shine =
      search.want.backgroundStops === null ? 0 : backgroundOf(model.plan, search.person).shine(light);
    seconds.push({ kind: isForBackground ? "background" : "light", head: fillHead, light, row, shine });
  }
  const lesson = learnt(model, search.want, now, placed);
  const before = new SetUpTrier(search, model, head, fullOf(head, main), seconds, lesson);
  const start = before.at(spotOf(model.staged, main));
  if (start === null) return null;
  const better = refine(before, start, TRIES, false);
  return { ...better.plan, panels: now.plan.panels, camera: now.plan.camera };
}

/** Once a name has turned out another, as bad as several misses. */
const UNFIRM_AGAIN = 2;

/** What the room gave back on the shadow side, for each lm.s sent out. */
function learnt(model: FaceModel, want: Want, { plan, seen }: Traced, placed: readonly Light[]) {
  const sum = model.newRow();
  const row = model.newRow();
  let lumens = 0;
  for (const light of placed) {
    model.writeLight(light, row);
    lumens += model.lumensOf(light);
    sum.left += row.left;
    sum.right += row.right;
  }
  const direct = Math.min(sum.left + model.base.left, sum.right + model.base.right);
  const evenPerLumen = lumens > 0 ? (seen.reading.shadowCheek - direct) / lumens : 0;
  const firmness = (missOf("pattern", want, seen) ?? 0) > 0 ? UNFIRM_AGAIN : 0;
  const backgroundOff = backgroundLearnt(model, want, plan, seen);
  const strongest = plan.lights.find((light) => light.name === seen.strongest);
  const edge = seen.reading.shadowEdgeMillimetres;
  if (edge === null || strongest === undefined)
    return { evenPerLumen, edgeFactor: 1, backgroundOff, firmness };
  const guess = model.edgeOf(strongest, seen.reading.litSide);
  const edgeFactor = guess !== null && guess > 0 ? edge / guess : 1;
  return { evenPerLumen, edgeFactor, backgroundOff, firmness };
}

/** Stops that the background as traced lies over what comes to it straight. */
function backgroundLearnt(model: FaceModel, want: Want, plan: Plan, { reading }: Seen): number {
  if (want.backgroundStops === null || reading.backgroundStops === null) return 0;
  const background = backgroundOf(model.plan, model.person);
  const shines = plan.lights.reduce((sum, light) => sum + (light.on ? background.shine(light) : 0), 0);
  const straight = background.stops(shines, reading.litCheek);
  return straight === null ? 0 : reading.backgroundStops - straight;
}
