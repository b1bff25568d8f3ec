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
      <div class="find-progress">
        {running !== null && (
          // how far it is is said by the words beside it
          <progress
            {...(running.done === null ? {} : { value: running.done, max: 1 })}
            aria-label={running.what}
          />
        )}
        <span class={running === null ? "" : "quiet"} role="status">
          {running?.what ?? ended}
        </span>
        {running !== null && (
          <button ref={button} type="button" onClick={() => run.stop()}>
            stop
          </button>
        )}
      </div>
      {trouble !== null && (
        <p class="alert" role="alert">
          {trouble}
        </p>
      )}
    </div>
  );
}
