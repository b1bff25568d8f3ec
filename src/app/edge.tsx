import type { ComponentChildren } from "preact";
import type { Plan } from "../plan/index.ts";
import type { Saving, SessionState } from "../workbench/index.ts";
import { type Bench, putField } from "./bench.ts";
import type { FileActions } from "./file-actions.ts";
import { NO_GUESS_YET } from "./guess.ts";
import { useStore } from "./hooks.ts";
import { themeInForce } from "./preferences.ts";

interface EdgeProps {
  readonly bench: Bench;
  readonly state: SessionState;
  readonly files: FileActions;
  /** when the newest change was last known to be safe, as a clock shows it */
  readonly keptAt: string | null;
}

/** The job in its six words, each with how far it is, and what belongs to the whole work beneath. */
export function Edge({ bench, state, files, keptAt }: EdgeProps) {
  const view = useStore(bench.view);
  const theme = themeInForce(view);
  return (
    <header class="edge">
      <Title bench={bench} title={state.plan.title} />
      <Job plan={state.plan} files={files} changes={state.undoLabel} />
      <div class="edge-foot">
        <Kept bench={bench} saving={state.saving} keptAt={keptAt} />
        <div class="row">
          <button
            type="button"
            disabled={state.undoLabel === null}
            title={state.undoLabel ?? undefined}
            onClick={() => bench.session.undo()}
          >
            undo
            {state.undoLabel !== null && <span class="visually-hidden"> {state.undoLabel}</span>}
          </button>
          <button
            type="button"
            disabled={state.redoLabel === null}
            title={state.redoLabel ?? undefined}
            onClick={() => bench.session.redo()}
          >
            redo
            {state.redoLabel !== null && <span class="visually-hidden"> {state.redoLabel}</span>}
          </button>
        </div>
        <div class="row">
          <button type="button" onClick={() => bench.view.update({ screen: "start" })}>
            all plans
          </button>
          <button type="button" onClick={() => files.openFile()}>
            open
          </button>
          <button type="button" onClick={() => files.savePlan()}>
            save
          </button>
        </div>
        <fieldset class="row">
          <legend class="visually-hidden">learn</legend>
          <Either
            text="guess"
            on={view.guess !== null}
            choose={() => bench.view.update({ guess: view.guess === null ? NO_GUESS_YET : null })}
          />
          <button type="button" onClick={() => bench.view.update({ screen: "direction" })}>
            direction
          </button>
          <button type="button" onClick={() => bench.view.update({ screen: "power" })}>
            power<span class="visually-hidden">, explained</span>
          </button>
        </fieldset>
        <div class="row">
          <Either
            text="large numbers"
            on={view.large}
            choose={() => bench.view.update({ large: !view.large })}
          />
        </div>
        <fieldset class="row">
          <legend class="visually-hidden">units</legend>
          <Either
            text="metres"
            on={view.units === "metric"}
            choose={() => bench.view.update({ units: "metric" })}
          />
          <Either
            text="feet"
            on={view.units === "feet"}
            choose={() => bench.view.update({ units: "feet" })}
          />
        </fieldset>
        <fieldset class="row">
          <legend class="visually-hidden">theme</legend>
          <Either text="light" on={theme === "light"} choose={() => bench.view.update({ theme: "light" })} />
          <Either text="dim" on={theme === "dim"} choose={() => bench.view.update({ theme: "dim" })} />
        </fieldset>
      </div>
    </header>
  );
}

function Either({ text, on, choose }: { text: string; on: boolean; choose: () => void }) {
  return (
    <button type="button" aria-pressed={on} onClick={choose}>
      {text}
    </button>
  );
}

function Title({ bench, title }: { bench: Bench; title: string }) {
  return (
    <h1>
      <textarea
        class="title-field"
        aria-label="title of the job"
        rows={1}
        value={title}
        onChange={(event) => {
          const text = event.currentTarget.value.replace(/\s+/g, " ").trim();
          if (text !== title) putField(bench, "title", ["title"], text === "" ? "Untitled" : text);
        }}
        onKeyDown={(event) => {
          if (event.key !== "Enter") return;
          event.preventDefault();
          event.currentTarget.blur();
        }}
      />
    </h1>
  );
}

function Job({ plan, files, changes }: { plan: Plan; files: FileActions; changes: string | null }) {
  const lights = plan.lights.length;
  return (
    <nav aria-label="The job">
      <ol class="job">
        <Step number={1} word="brief">
          the title, so far
        </Step>
        <Step number={2} word="plan" current>
          {lights === 1 ? "1 light" : `${lights} lights`}
          {changes === null ? ", as opened" : `, last: ${changes}`}
        </Step>
        <Step number={3} word="place">
          <SheetActions files={files} />
        </Step>
        <Step number={4} word="shoot">
          test frames are not read yet
        </Step>
        <Step number={5} word="fix">
          by hand, on the plan
        </Step>
        <Step number={6} word="record">
          this plan is kept; save makes a file
        </Step>
      </ol>
    </nav>
  );
}

function SheetActions({ files }: { files: FileActions }) {
  return (
    <span class="sheet-actions">
      sheet:{" "}
      <button onClick={() => files.saveSheetPdf()} type="button">
        PDF
      </button>{" "}
      <button onClick={() => files.saveSheetSvg()} type="button">
        SVG
      </button>
    </span>
  );
}

function Step(props: { number: number; word: string; current?: boolean; children: ComponentChildren }) {
  return (
    <li aria-current={props.current ? "step" : undefined}>
      <span class="step">
        {props.number} {props.word}
      </span>
      <span class="quiet">{props.children}</span>
    </li>
  );
}

function Kept({ bench, saving, keptAt }: { bench: Bench; saving: Saving; keptAt: string | null }) {
  if (saving.state === "failed" || saving.state === "conflict") {
    return (
      <div class="alert" role="alert">
        <p>
          {saving.problem}; {saving.cure}
        </p>
        {saving.state === "conflict" && (
          <p class="row">
            <button type="button" onClick={() => void bench.session.keepMine()}>
              keep mine
            </button>
            <button type="button" onClick={() => void bench.session.takeTheirs()}>
              take theirs
            </button>
          </p>
        )}
      </div>
    );
  }
  return <p>{saving.state === "saved" ? `kept${keptAt === null ? "" : ` ${keptAt}`}` : "keeping…"}</p>;
}
