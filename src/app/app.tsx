import { useEffect, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import { Edge } from "./edge.tsx";
import type { FileActions, FileNews } from "./file-actions.ts";
import { FloorView, SideView } from "./floor-view.tsx";
import { clockTime } from "./format-clock.ts";
import { FramePanel } from "./frame-panel.tsx";
import { useStore } from "./hooks.ts";
import { chosenPerson, layerHeight } from "./layer-height.ts";
import { NumbersPanel } from "./numbers-panel.tsx";
import { Problems } from "./problems.tsx";
import { ReadingPanel } from "./reading-panel.tsx";
import type { Results } from "./results.ts";
import type { Store } from "./store.ts";
import { announce } from "./wording.ts";

interface AppProps {
  readonly bench: Bench;
  readonly files: FileActions;
  readonly news: Store<FileNews | null>;
  readonly now: () => Date;
}

export function App({ bench, files, news, now }: AppProps) {
  const state = useStore(bench.session);
  const view = useStore(bench.view);
  const results = useStore(bench.results.store);
  const fileNews = useStore(news);
  const keptAt = useKeptAt(state.saving.state, now);
  const { plan } = state;
  const person = chosenPerson(plan, view);
  const height = layerHeight(plan, view);
  const layers = view.showPower || view.showDirection;

  useEffect(() => {
    document.title = `${plan.title} · Tapemark`;
  }, [plan.title]);
  useEffect(() => {
    bench.results.ask(plan, layers ? { height, person } : null);
  }, [bench, plan, layers, height, person]);
  useAnnouncements(bench);
  useUndoKeys(bench);
  useDroppedFiles(files);

  return (
    <>
      <div class="bench">
        <Edge bench={bench} state={state} files={files} keptAt={keptAt} />
        <main class="table" aria-label="Plan">
          <div class="drawings">
            <FloorView bench={bench} plan={plan} results={results} height={height} />
            <SideView bench={bench} plan={plan} height={layers ? height : null} />
          </div>
          <NumbersPanel bench={bench} files={files} plan={plan} reading={results.reading} />
        </main>
        <aside class="print" aria-label="Frame and reading">
          {fileNews !== null && <Problems news={fileNews} onClose={() => news.set(null)} />}
          {results.failure !== null && <Failure bench={bench} why={results.failure} />}
          <FramePanel bench={bench} plan={plan} results={results} />
          <ReadingPanel
            reading={results.reading}
            refining={!isSettled(results, plan)}
            person={person}
            receptors={plan.meters.map((meter) => meter.receptor)}
          />
        </aside>
      </div>
      <Live bench={bench} />
    </>
  );
}

/** Whether everything on screen is the best there is of this very plan. */
function isSettled({ readingOf, readingQuality, busy, failure }: Results, plan: Plan): boolean {
  if (failure !== null) return true;
  return readingOf === plan && readingQuality === "fine" && !busy.reading && !busy.frame && !busy.map;
}

/** The clock time of the moment when everything was last known to be kept. */
function useKeptAt(saving: string, now: () => Date): string | null {
  const [at, setAt] = useState<string | null>(null);
  useEffect(() => {
    if (saving === "saved") setAt(clockTime(now()));
  }, [saving, now]);
  return at;
}

/** After a change, once the fine reading of the new plan is there: one sentence for the ear. */
function useAnnouncements(bench: Bench): void {
  useEffect(() => {
    let said: unknown = null;
    return bench.results.store.subscribe(() => {
      const { reading, readingOf, readingQuality } = bench.results.store.get();
      if (reading === null || readingQuality !== "fine" || readingOf === said) return;
      said = readingOf;
      bench.say.set(announce(reading, chosenPerson(bench.session.get().plan, bench.view.get())));
    });
  }, [bench]);
}

function useUndoKeys(bench: Bench): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      if (event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement) return;
      const key = event.key.toLowerCase();
      if (key === "z" && !event.shiftKey) bench.session.undo();
      else if (key === "y" || (key === "z" && event.shiftKey)) bench.session.redo();
      else return;
      event.preventDefault();
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [bench]);
}

/** A plan file let go anywhere over the window is opened. */
function useDroppedFiles(files: FileActions): void {
  useEffect(() => {
    const onOver = (event: DragEvent) => event.preventDefault();
    const onDrop = (event: DragEvent) => {
      event.preventDefault();
      const [file] = event.dataTransfer?.files ?? [];
      if (file !== undefined) void files.openDropped(file);
    };
    addEventListener("dragover", onOver);
    addEventListener("drop", onDrop);
    return () => {
      removeEventListener("dragover", onOver);
      removeEventListener("drop", onDrop);
    };
  }, [files]);
}

function Live({ bench }: { bench: Bench }) {
  const text = useStore(bench.say);
  return (
    <p class="visually-hidden" role="status" aria-live="polite">
      {text}
    </p>
  );
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
