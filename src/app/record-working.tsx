import { useEffect, useRef } from "preact/hooks";
import { useStore } from "./hooks.ts";
import type { SheetRun } from "./record-run.ts";

/** How far a sheet is, or how it ended. */
export function Working({ run }: { readonly run: SheetRun }) {
  const { ended, running, trouble } = useStore(run.store);
  const button = useRef<HTMLButtonElement>(null);
  const opener = useRef<Element | null>(null);
  const isRunning = running !== null;
  useEffect(() => {
    if (isRunning) {
      opener.current = document.activeElement;
      button.current?.focus();
    } else if (document.activeElement === document.body && opener.current instanceof HTMLElement) {
      // "stop" had the keys and is gone: whatever asked for the sheet has them again
      opener.current.focus();
    }
  }, [isRunning]);
  return (
    <div class="record-working">
      {running !== null && (
        <p class="find-progress">
          {running.done === null ? (
            <progress aria-label={running.what} />
          ) : (
            <progress value={running.done} max={1} aria-label={running.what} />
          )}
          <span class="quiet">{running.what}</span>
          <button ref={button} type="button" onClick={() => run.stop()}>
            stop
          </button>
        </p>
      )}
      <p role="status">{ended}</p>
      {trouble !== null && (
        <p class="alert" role="alert">
          {trouble}
        </p>
      )}
    </div>
  );
}
