import { useMemo } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { SessionState } from "../workbench/index.ts";
import { AloneNotice } from "./alone-notice.tsx";
import { AskPanel } from "./ask-panel.tsx";
import type { Bench } from "./bench.ts";
import { Edge } from "./edge.tsx";
import type { FileActions, FileNews } from "./file-actions.ts";
import { FramePanel } from "./frame-panel.tsx";
import { isGuessing } from "./guess.ts";
import { withoutAnswers } from "./guess-answers.ts";
import { GuessPanel } from "./guess-panel.tsx";
import { FLOOR, SIDE } from "./handling.ts";
import { HoldPanel } from "./hold-panel.tsx";
import { useStore } from "./hooks.ts";
import { LargeNumbers } from "./large-numbers.tsx";
import { chosenPerson } from "./layer-height.ts";
import { MovesAround } from "./moves-around.tsx";
import { NumbersPanel } from "./numbers-panel.tsx";
import { Problems } from "./problems.tsx";
import { ReadingPanel } from "./reading-panel.tsx";
import type { Results } from "./results.ts";
import { SheetView } from "./sheet-view.tsx";
import type { Store } from "./store.ts";

interface PlanPageProps {
  readonly bench: Bench;
  readonly files: FileActions;
  readonly news: Store<FileNews | null>;
  readonly state: SessionState;
  /** the plan whose light is shown: `state.plan`, or one light of it */
  readonly shown: Plan;
  readonly keptAt: string | null;
}

/** The drawing table: the job, the plan to scale, the numbers of what is held, the print and what is read off it. */
export function PlanPage({ bench, files, news, state, shown, keptAt }: PlanPageProps) {
  const view = useStore(bench.view);
  const computed = useStore(bench.results.store);
  const fileNews = useStore(news);
  const { plan } = state;
  const hidden = isGuessing(view.guess);
  const results = hidden ? withoutAnswers(computed) : computed;
  // A part that nothing new concerns is not drawn again: answers come one by one while the hand moves.
  const { floorMap, sideMap, reading } = results;
  const floor = useMemo(
    () => <SheetView {...{ bench, plan }} sheet={FLOOR} map={floorMap} />,
    [bench, plan, floorMap],
  );
  const side = useMemo(
    () => <SheetView {...{ bench, plan }} sheet={SIDE} map={sideMap} />,
    [bench, plan, sideMap],
  );
  const panel = useMemo(() => <NumbersPanel {...{ bench, plan, reading }} />, [bench, plan, reading]);
  return (
    <div class={view.large ? "bench large" : "bench"}>
      <Edge bench={bench} state={state} files={files} news={news} keptAt={keptAt} />
      <main class="table" aria-label="Plan">
        <div class="drawings">
          {floor}
          {side}
        </div>
        {panel}
      </main>
      <aside class="print" aria-label="Frame and reading">
        {fileNews !== null && <Problems news={fileNews} onClose={() => news.set(null)} />}
        {results.failure !== null && <Failure bench={bench} why={results.failure} />}
        {view.guess !== null && <GuessPanel bench={bench} plan={shown} results={results} />}
        <AloneNotice bench={bench} plan={plan} />
        {view.large && !hidden && <LargeNumbers bench={bench} plan={shown} results={results} />}
        {!hidden && (
          <>
            <MovesAround bench={bench} plan={plan} shown={shown} results={results}>
              <FramePanel bench={bench} plan={shown} results={results} />
            </MovesAround>
            <ReadingPanel
              reading={results.reading}
              refining={!isSettled(results, shown)}
              person={chosenPerson(shown, view)}
              plan={shown}
              units={view.units}
            />
            <AskPanel bench={bench} plan={shown} />
            <HoldPanel bench={bench} plan={shown} />
          </>
        )}
      </aside>
    </div>
  );
}

/** Whether everything on screen is the best there is of this very plan. */
function isSettled({ readingOf, readingQuality, busy, failure }: Results, plan: Plan): boolean {
  if (failure !== null) return true;
  return readingOf === plan && readingQuality === "fine" && !Object.values(busy).includes(true);
}

function Failure({ bench, why }: { bench: Bench; why: string }) {
  return (
    <section class="news" role="alert">
      <h2 class="alert">The light could not be worked out</h2>
      <p>{why}. The plan itself is safe; what is shown belongs to the plan as it was before.</p>
      <button type="button" onClick={() => bench.results.again()}>
        try again
      </button>
    </section>
  );
}
