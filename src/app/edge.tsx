import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
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
  return (
    <header class="edge">
      <Title bench={bench} title={state.plan.title} />
      <Job
        bench={bench}
        plan={state.plan}
        files={files}
        units={units}
        changes={state.at}
        find={() => bench.view.update({ screen: "find" })}
      />
      <div class="edge-foot">
        <Kept bench={bench} saving={state.saving} keeping={keeping} keptAt={keptAt} />
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
  if (!useMedia(NARROW)) return <>{children}</>;
  return (
    <details class="more">
      <summary>more</summary>
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
