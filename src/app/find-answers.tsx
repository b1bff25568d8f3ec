import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { SetUp } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import type { Extent } from "../sheet/index.ts";
import { lengthsIn } from "../units/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { SetUpCard } from "./find-card.tsx";
import type { Found } from "./find-run.ts";
import { isSameQuestion, isTaken, takeEdit } from "./find-take.ts";
import { answerWords, triedWords } from "./find-words.ts";
import { useStore } from "./hooks.ts";
import { useFloors } from "./start-drawing.tsx";

interface AnswersProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly found: Found;
  /** the question as it stands now */
  readonly question: Plan;
}

/** Up to five set-ups side by side, or the nearest misses and what would help most. */
export function Answers({ bench, plan, found, question }: AnswersProps) {
  const { units } = useStore(bench.view);
  const [why, setWhy] = useState<string | null>(null);
  const list = useRef<HTMLUListElement>(null);
  const { answer, asked } = found;
  const floors = useFloors(answer.setUps.map((setUp) => setUp.plan));
  const extent = floors && union(floors.map((floor) => floor.extent));
  const taken = useMemo(() => answer.setUps.map((setUp) => isTaken(plan, setUp)), [answer, plan]);
  const words = answerWords(answer);
  useEffect(() => {
    bench.say.set(`${words}.`);
    focusFirst(list.current);
  }, [bench, answer, words]);

  /** As one step, and on to the drawing table. */
  function take(setUp: SetUp) {
    const refused = makeEdit(bench, takeEdit(asked, setUp));
    setWhy(refused);
    if (refused === null)
      bench.view.update({
        screen: "plan",
        selected: null,
        also: [],
        stays: null,
        alone: null,
        person: asked.brief?.person ?? 0,
      });
  }

  return (
    <section class="answers" aria-labelledby="answers-title">
      <h2 id="answers-title">{words}</h2>
      <p class="quiet">
        {triedWords(answer.tried)}
        {answer.setUps.length > 0 && "; these are traced in full, and their floors have one scale"}
      </p>
      {!isSameQuestion(asked, question) && (
        <p class="alert">What is asked has changed since: these answer what was asked before.</p>
      )}
      {answer.relax !== null && (
        <p>
          What would help most: <strong>{lengthsIn(answer.relax.words, units)}</strong>.
        </p>
      )}
      {why !== null && (
        <p class="alert" role="alert">
          The set-up is not taken: {why}
        </p>
      )}
      <ul ref={list} class="cards">
        {answer.setUps.map((setUp, index) => (
          <SetUpCard
            key={`${index} ${setUp.title}`}
            {...{ bench, setUp, index, units, extent }}
            floor={floors?.[index] ?? null}
            isTaken={taken[index] ?? false}
            take={() => take(setUp)}
          />
        ))}
      </ul>
    </section>
  );
}

/** Whoever waits for the answer is led to it; whoever types meanwhile is left alone. */
function focusFirst(list: HTMLElement | null): void {
  const at = document.activeElement;
  if (at instanceof HTMLInputElement || at instanceof HTMLSelectElement) return;
  list?.querySelector<HTMLElement>("h3")?.focus();
}

function union(extents: readonly Extent[]): Extent | null {
  if (extents.length === 0) return null;
  return {
    across0: Math.min(...extents.map((e) => e.across0)),
    across1: Math.max(...extents.map((e) => e.across1)),
    up0: Math.min(...extents.map((e) => e.up0)),
    up1: Math.max(...extents.map((e) => e.up1)),
  };
}
