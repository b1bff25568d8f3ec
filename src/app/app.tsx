import { useEffect, useMemo, useState } from "preact/hooks";
import type { Bench } from "./bench.ts";
import { followClipboard } from "./clipboard-actions.ts";
import type { FileActions, FileNews } from "./file-actions.ts";
import { clockTime } from "./format-clock.ts";
import { isGuessing } from "./guess.ts";
import { useGuideKey } from "./guide-link.tsx";
import { useStore } from "./hooks.ts";
import { useKeysBackOnPlan } from "./keys-back.ts";
import { later } from "./later.tsx";
import { chosenPerson } from "./layer-height.ts";
import { PlanPage } from "./plan-page.tsx";
import { shownPlan } from "./shown-plan.ts";
import { StartPage } from "./start-page.tsx";
import type { Store } from "./store.ts";
import { announce } from "./wording.ts";

const GearPage = later(async () => (await import("./gear-page.tsx")).GearPage);
const FindPage = later(async () => (await import("./find-page.tsx")).FindPage);
const LessonPage = later(async () => (await import("./lesson-page.tsx")).LessonPage);
const ChecklistPage = later(async () => (await import("./checklist-page.tsx")).ChecklistPage);
const ShootPage = later(async () => (await import("./shoot-page.tsx")).ShootPage);
const GuidePage = later(async () => (await import("./guide-page.tsx")).GuidePage);
const UsePage = later(async () => (await import("./use-final-page.tsx")).UsePage);
const RecordPage = later(async () => (await import("./record-page.tsx")).RecordPage);
const ShootsPage = later(async () => (await import("./shoots-page.tsx")).ShootsPage);

interface AppProps {
  readonly bench: Bench;
  readonly files: FileActions;
  readonly news: Store<FileNews | null>;
  readonly now: () => Date;
}

/** One screen at a time; what is computed and what is said belong to all of them. */
export function App({ bench, files, news, now }: AppProps) {
  const state = useStore(bench.session);
  const view = useStore(bench.view);
  const keptAt = useKeptAt(state.saving.state, now);
  const shown = useMemo(() => shownPlan(state.plan, view.alone), [state.plan, view.alone]);

  useEffect(() => {
    document.title = `${state.plan.title} · Tapemark`;
  }, [state.plan.title]);
  useAnnouncements(bench);
  useUndoKeys(bench);
  useGuideKey(bench);
  useKeysBackOnPlan(bench);
  useDroppedFiles(files);
  useEffect(() => followClipboard(bench, news), [bench, news]);

  return (
    <>
      {view.screen === "start" && <StartPage bench={bench} files={files} news={news} now={now} />}
      {view.screen === "plan" && (
        <PlanPage bench={bench} files={files} news={news} state={state} shown={shown} keptAt={keptAt} />
      )}
      {view.screen === "checklist" && <ChecklistPage bench={bench} now={now} />}
      {view.screen === "find" && <FindPage bench={bench} />}
      {view.screen === "gear" && <GearPage bench={bench} state={state} />}
      {view.screen === "shoot" && <ShootPage bench={bench} news={news} state={state} shown={shown} />}
      {view.screen === "shoots" && <ShootsPage bench={bench} files={files} news={news} now={now} />}
      {view.screen === "use" && <UsePage bench={bench} />}
      {view.screen === "record" && <RecordPage bench={bench} />}
      {(view.screen === "direction" || view.screen === "power") && (
        <LessonPage bench={bench} topic={view.screen} />
      )}
      {view.screen === "guide" && <GuidePage bench={bench} />}
      <Live bench={bench} />
    </>
  );
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
      if (isGuessing(bench.view.get().guess)) return;
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

/** A plan file let go anywhere over the window is opened; photographs are laid on the desk. */
function useDroppedFiles(files: FileActions): void {
  useEffect(() => {
    const onOver = (event: DragEvent) => event.preventDefault();
    const onDrop = (event: DragEvent) => {
      event.preventDefault();
      void files.takeDropped([...(event.dataTransfer?.files ?? [])]);
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
