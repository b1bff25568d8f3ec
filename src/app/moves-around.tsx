import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";
import { type Effect, effectOf, listMoves, type Move, regionRoundHead } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { isFinal, MovesFollower, type Round } from "./moves-follower.ts";
import { MovesRing } from "./moves-ring.tsx";
import { moveSentence } from "./moves-words.ts";
import type { Results } from "./results.ts";
import { shownPlan } from "./shown-plan.ts";

interface MovesAroundProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly results: Results;
  /** the large print */
  readonly children: ComponentChildren;
}

/** Width over height of the small frames: four of them stand beside an upright print. */
const SHAPES = { portrait: 1.2, landscape: 1.5 } as const;

/** Small true frames round the print, each one step away, on the side they move to. */
export function MovesAround({ bench, plan, results, children }: MovesAroundProps) {
  const view = useStore(bench.view);
  const follower = useMemo(() => new MovesFollower(bench.trials), [bench]);
  const state = useStore(follower.store);
  const [pointed, setPointed] = useState<string | null>(null);
  const person = chosenPerson(plan, view);
  const shape = SHAPES[plan.camera.orientation];
  const moves = useMemo(() => listMoves(plan, person, view.units), [plan, person, view.units]);
  const base = useMemo(() => shownPlan(plan, view.alone), [plan, view.alone]);
  const round = useMemo(
    () => roundOf(moves, base, view.alone, regionRoundHead(plan, person, shape)),
    [moves, base, view.alone, plan, person, shape],
  );

  const settled = isSettled(results, base);
  useEffect(() => follower.follow(settled ? round : null), [follower, settled, round]);
  useEffect(() => () => follower.follow(null), [follower]);

  const shown = moves.map((move) => {
    const tried = state.tried[move.key];
    const effect = tried === undefined ? null : effectOf(tried.before, tried.after, person);
    const isStale = move.edit !== null && tried?.base !== base;
    return { move, effect, picture: move.edit === null ? null : (tried?.picture ?? null), isStale };
  });
  const refining = round.trials.some(({ key }) => !isFinal(state.tried[key], base));
  const chosen = shown.find(({ move }) => move.key === pointed);
  const take = (move: Move, effect: Effect | null) => {
    if (move.edit === null) return;
    const refused = makeEdit(bench, move.edit);
    bench.say.set(refused ?? `Taken: ${moveSentence(move, effect)}. Undo takes it back.`);
  };
  return (
    <section class={`moves ${plan.camera.orientation}`} aria-labelledby="moves-title">
      <div class="moves-grid">
        <div class="moves-middle">{children}</div>
        <h2 id="moves-title" class="visually-hidden">
          Moves
        </h2>
        <MovesRing shown={shown} shape={shape} busy={refining} onPoint={setPointed} onTake={take} />
        <p class="moves-line quiet">
          <span aria-hidden="true">
            {chosen === undefined ? hint(plan, person) : moveSentence(chosen.move, chosen.effect)}
          </span>
          <span class="refining" data-on={refining && state.failure === null}>
            {" "}
            refining…
          </span>
          {state.failure !== null && (
            <span class="alert"> Moves could not be worked out: {state.failure}.</span>
          )}
        </p>
      </div>
    </section>
  );
}

function hint(plan: Plan, person: number): string {
  const who = plan.people[person];
  if (who === undefined) return "Moves are small steps round a face: put a person into the plan.";
  return "Moves, one step each, seen round the head: choose one to take it.";
}

/** Camera moves first, which leave the light as it is, then one light, then what moves a body. */
const COSTS: readonly Move["cost"][] = ["camera", "light", "panel", "person"];

function roundOf(moves: readonly Move[], base: Plan, alone: string | null, region: Round["region"]): Round {
  const trials = [...moves]
    .sort((a, b) => COSTS.indexOf(a.cost) - COSTS.indexOf(b.cost))
    .flatMap(({ key, after }) => (after === null ? [] : [{ key, plan: shownPlan(after, alone) }]));
  return { base, region, trials };
}

/** Whether reading and frame on screen are the best there is of this plan: only then is there time for moves. */
function isSettled({ readingOf, readingQuality, busy, failure }: Results, base: Plan): boolean {
  if (failure !== null || readingOf === null || readingQuality !== "fine") return false;
  return !busy.reading && !busy.frame && isSamePlan(readingOf, base);
}

/** One light's share is made anew for each view of it: the same parts are the same plan. */
function isSamePlan(a: Plan, b: Plan): boolean {
  if (a === b) return true;
  const parts = Object.keys(a) as (keyof Plan)[];
  return parts.every((part) => a[part] === b[part] || JSON.stringify(a[part]) === JSON.stringify(b[part]));
}
