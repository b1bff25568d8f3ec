import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { SessionState } from "../workbench/index.ts";
import { type Bench, putField } from "./bench.ts";
import { PartsButtons } from "./clipboard-buttons.tsx";
import { Job } from "./edge-job.tsx";
import { LargeSwitch, Learn, UnitsAndTheme } from "./edge-settings.tsx";
import type { FileActions, FileNews } from "./file-actions.ts";
import { useMedia, useStore } from "./hooks.ts";
import { Kept } from "./keeping-line.tsx";
import { Steps } from "./steps-list.tsx";
import type { Store } from "./store.ts";

interface EdgeProps {
  readonly bench: Bench;
  readonly state: SessionState;
  readonly files: FileActions;
  readonly news: Store<FileNews | null>;
  /** when the newest change was last known to be safe, as a clock shows it */
  readonly keptAt: string | null;
}

/** The job in its six words, each with how far it is, and what belongs to the whole work beneath. */
export function Edge({ bench, state, files, news, keptAt }: EdgeProps) {
  const { units } = useStore(bench.view);
  const keeping = useStore(files.keeping);
  const { plan, saving } = state;
  const kept = <Kept {...{ bench, keeping, keptAt, plan, saving }} />;
  // what has to be decided is not left under the fold
  const isAsked = saving.state === "conflict";
  return (
    <header class="edge">
      <Title bench={bench} title={state.plan.title} />
      {isAsked && <div class="edge-ask">{kept}</div>}
      <Job
        bench={bench}
        plan={state.plan}
        files={files}
        units={units}
        changes={state.at}
        find={() => bench.view.update({ screen: "find" })}
      />
      <div class="edge-foot">
        {!isAsked && kept}
        <Steps bench={bench} state={state} />
        <PartsButtons bench={bench} plan={state.plan} news={news} />
        <div class="row">
          <button type="button" onClick={() => bench.view.update({ screen: "start" })}>
            all plans
          </button>
          <button type="button" onClick={() => bench.view.update({ screen: "shoots", openShoot: null })}>
            Shoots
          </button>
        </div>
        <div class="row">
          <button type="button" onClick={() => files.openFile()}>
            open
          </button>
          <button type="button" onClick={() => files.savePlan()}>
            save
          </button>
          <button type="button" onClick={() => bench.view.update({ screen: "gear" })}>
            gear
          </button>
        </div>
        <FoldedWhereNarrow>
          <Learn bench={bench} />
          <LargeSwitch bench={bench} />
          <UnitsAndTheme bench={bench} />
        </FoldedWhereNarrow>
      </div>
    </header>
  );
}

const NARROW = "(max-width: 1199px)";

/** Down the edge there is room for everything; across a narrow screen what is seldom used is folded away. */
function FoldedWhereNarrow({ children }: { children: ComponentChildren }) {
  const isNarrow = useMedia(NARROW);
  const fold = useRef<HTMLDetailsElement>(null);
  const summary = useRef<HTMLElement>(null);
  const close = () => {
    if (fold.current !== null) fold.current.open = false;
  };
  useEffect(() => {
    // it lies over what it changes: what was chosen, or a press anywhere else, puts it away
    const onClick = ({ target }: Event) => {
      const isInside = fold.current?.contains(target as Node) ?? false;
      if (isInside && (target as Element).closest("button") === null) return;
      if (isInside) summary.current?.focus();
      close();
    };
    addEventListener("click", onClick);
    return () => removeEventListener("click", onClick);
  }, []);
  if (!isNarrow) return <>{children}</>;
  return (
    <details
      ref={fold}
      class="more"
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        close();
        summary.current?.focus();
      }}
    >
      <summary ref={summary}>more</summary>
      <div>{children}</div>
    </details>
  );
}

/** What is being typed stays as it is typed, whatever else comes on screen meanwhile. */
function Title({ bench, title }: { bench: Bench; title: string }) {
  const [draft, setDraft] = useState<string | null>(null);
  function take(typed: string) {
    const text = typed.replace(/\s+/g, " ").trim();
    if (draft !== null && text !== title)
      putField(bench, "title", ["title"], text === "" ? "Untitled" : text);
    setDraft(null);
  }
  return (
    <h1>
      <textarea
        class="title-field"
        aria-label="title of the job"
        rows={1}
        maxLength={200}
        value={draft ?? title}
        onInput={(event) => setDraft(event.currentTarget.value)}
        onBlur={(event) => take(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === "Escape") setDraft(null);
          if (event.key !== "Enter") return;
          event.preventDefault();
          event.currentTarget.blur();
        }}
      />
    </h1>
  );
}
