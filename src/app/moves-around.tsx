import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { effectOf, listMoves, type Move, type MoveKey, regionRoundHead } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { type Bench, makeEdit, type View } from "./bench.ts";
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
  /** the plan whose light is shown */
  readonly shown: Plan;
  readonly results: Results;
  /** the large print */
  readonly children: ComponentChildren;
}

/** Width over height of the small frames: four of them stand beside an upright print. */
const SHAPES = { portrait: 1.7, landscape: 1.5 } as const;

/** Small true frames round the print, each one step away, on the side they move to. */
export function MovesAround({ bench, plan, shown: base, results, children }: MovesAroundProps) {
  const view = useStore(bench.view);
  const follower = useMemo(() => new MovesFollower(bench.trials), [bench]);
  const state = useStore(follower.store);
  const [pointed, setPointed] = useState<MoveKey | null>(null);
  const settled = isSettled(results, base);
  const { moves, round, shape, person } = useListed({ plan, base, view, settled });
  useEffect(() => follower.follow(settled ? round : null), [follower, settled, round]);
  useEffect(() => () => follower.follow(null), [follower]);

  // while something is dragged only `isBehind` turns, once: the ring is not drawn again at every move
  const isBehind = round.base !== base;
  const shown = useMemo(
    () =>
      moves.map((move) => {
        const tried = move.edit === null ? undefined : state.tried[move.key];
        // numbers of another step are not shown under this one, not even for a moment
        const effect =
          tried === undefined || tried.does !== move.does
            ? null
            : effectOf(tried.before, tried.after, tried.round.person);
        const isStale = isBehind || tried?.round !== round;
        return { move, effect, picture: tried?.picture ?? null, isStale };
      }),
    [moves, state, round, isBehind],
  );
  const refining =
    state.failure === null && (isBehind || round.trials.some(({ key }) => !isFinal(state.tried[key], round)));
  const chosen = shown.find(({ move }) => move.key === pointed);
  const take = (key: MoveKey) => {
    // made from the plan of this moment: what is on screen may be a step behind
    const move = listMoves(bench.session.get().plan, person, view.units).find((one) => one.key === key);
    if (move === undefined || move.edit === null) return;
    const was = shown.find((one) => one.move.key === key);
    const refused = makeEdit(bench, move.edit);
    const effect = was === undefined || was.isStale ? null : was.effect;
    bench.say.set(refused ?? `Taken: ${moveSentence(move, effect)}. Undo takes it back.`);
  };
  const ring = useMemo(
    () => <MovesRing {...{ shown, shape }} busy={refining} onPoint={setPointed} onTake={take} />,
    [shown, shape, refining, person, view.units],
  );
  return (
    <section class={`moves ${plan.camera.orientation}`} aria-labelledby="moves-title">
      <div class="moves-grid">
        <div class="moves-middle">{children}</div>
        <h2 id="moves-title" class="visually-hidden">
          Moves
        </h2>
        {ring}
        <p class="moves-line quiet">
          <span aria-hidden="true">
            {chosen === undefined ? hint(plan, person) : moveSentence(chosen.move, chosen.effect)}
          </span>
          <span class="refining" data-on={refining}>
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

interface Listed {
  readonly plan: Plan;
  readonly base: Plan;
  readonly person: number;
  readonly units: View["units"];
  readonly moves: readonly Move[];
  readonly round: Round;
  readonly shape: number;
}

interface Listing {
  readonly plan: Plan;
  readonly base: Plan;
  readonly view: View;
  readonly settled: boolean;
}

/** The moves of the plan, listed anew only once it is settled: while something is dragged there is no time for it. */
function useListed({ plan, base, view, settled }: Listing): Listed {
  const kept = useRef<Listed | null>(null);
  const person = chosenPerson(plan, view);
  const { units, alone } = view;
  const old = kept.current;
  const isKnown = old?.plan === plan && old.base === base && old.person === person && old.units === units;
  if (old !== null && (isKnown || !settled)) return old;
  const shape = SHAPES[plan.camera.orientation];
  const moves = listMoves(plan, person, units);
  const region = regionRoundHead(plan, person, shape);
  const round = { base, person, region, trials: trialsOf(moves, alone) };
  kept.current = { plan, base, person, units, moves, round, shape };
  return kept.current;
}

function hint(plan: Plan, person: number): string {
  const who = plan.people[person];
  if (who === undefined) return "Moves are small steps round a face: put a person into the plan.";
  return "Moves, one step each, seen round the head: choose one to take it.";
}

/** Camera moves first, which leave the light as it is, then one light, then what moves a body. */
const COSTS: readonly Move["cost"][] = ["camera", "light", "panel", "person"];

function trialsOf(moves: readonly Move[], alone: string | null): Round["trials"] {
  return [...moves]
    .sort((a, b) => COSTS.indexOf(a.cost) - COSTS.indexOf(b.cost))
    .flatMap(({ key, does, after }) =>
      after === null ? [] : [{ key, does, plan: shownPlan(after, alone) }],
    );
}

/** Whether reading and frame on screen are the best there is of this plan: only then is there time for moves. */
function isSettled({ readingOf, readingQuality, busy, failure }: Results, base: Plan): boolean {
  if (failure !== null || readingOf === null || readingQuality !== "fine") return false;
  return !busy.reading && !busy.frame && readingOf === base;
}
