import { useEffect, useRef, useState } from "preact/hooks";
import type { SessionState } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";

interface StepsProps {
  readonly bench: Bench;
  readonly state: SessionState;
}

/** More are drawn when asked for: a long day has thousands. */
const SHOWN_AT_FIRST = 100;

/** Undo, redo, and every step by name. */
export function Steps({ bench, state }: StepsProps) {
  return (
    <div class="row">
      <Way text="undo" label={state.undoLabel} go={() => bench.session.undo()} />
      <Way text="redo" label={state.redoLabel} go={() => bench.session.redo()} />
      <StepsList bench={bench} state={state} />
    </div>
  );
}

function Way({ text, label, go }: { text: string; label: string | null; go: () => void }) {
  return (
    <button type="button" disabled={label === null} title={label ?? undefined} onClick={go}>
      {text}
      {label !== null && <span class="visually-hidden"> {label}</span>}
    </button>
  );
}

/** The newest first, as one looks for them; the one on screen is marked, and choosing another goes there. */
function StepsList({ bench, state }: StepsProps) {
  const panel = useRef<HTMLDivElement>(null);
  const [isOpen, setOpen] = useState(false);
  const [most, setMost] = useState(SHOWN_AT_FIRST);
  useEffect(() => {
    const follow = (event: Event) => setOpen((event as ToggleEvent).newState === "open");
    const element = panel.current;
    element?.addEventListener("toggle", follow);
    return () => element?.removeEventListener("toggle", follow);
  }, []);
  useEffect(() => {
    if (isOpen) panel.current?.querySelector<HTMLElement>("[aria-current]")?.focus();
  }, [isOpen]);
  const { steps, at } = state;
  // the step on screen is always among those that are drawn
  const first = Math.max(0, Math.min(steps.length - most, at));
  return (
    <>
      <button type="button" popovertarget="steps" aria-haspopup="dialog" aria-expanded={isOpen}>
        steps
      </button>
      <div ref={panel} id="steps" popover="auto" class="steps" role="dialog" aria-label="Steps">
        {isOpen && (
          <>
            <p class="section-head">
              <span class="quiet">newest first; choose one to go there</span>
              <button type="button" popovertarget="steps" popovertargetaction="hide">
                close
              </button>
            </p>
            <ol reversed start={steps.length - 1}>
              {steps
                .slice(first)
                .map((step, i) => ({ label: step.label, index: first + i }))
                .reverse()
                .map(({ label, index }) => (
                  <li key={index} class={index > at ? "undone" : undefined}>
                    <button
                      type="button"
                      aria-current={index === at ? "step" : undefined}
                      onClick={() => bench.session.goTo(index)}
                    >
                      {label}
                      {index > at && <span class="visually-hidden">, undone</span>}
                    </button>
                  </li>
                ))}
            </ol>
            {first > 0 && (
              <button type="button" onClick={() => setMost(most + 1000)}>
                {first} earlier steps
              </button>
            )}
          </>
        )}
      </div>
    </>
  );
}
