import { useEffect, useRef } from "preact/hooks";
import type { Bench } from "./bench.ts";
import type { Ended, Running } from "./find-run.ts";
import { triedWords } from "./find-words.ts";

interface ProgressProps {
  readonly bench: Bench;
  readonly running: Running;
  readonly stop: () => void;
}

/** A thin line and words; for the ear in quarters. */
export function Progress({ bench, running, stop }: ProgressProps) {
  const words = running.tried === 0 ? running.what : `${running.what}: ${triedWords(running.tried)}`;
  const quarter = Math.floor(running.done * 4);
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => button.current?.focus(), []);
  useEffect(() => bench.say.set(`Searching: ${quarter * 25} %, ${words}.`), [bench, quarter]);
  return (
    <div class="find-progress">
      <progress value={running.done} max={1} aria-label="the search" />
      <span>{words}</span>
      <button ref={button} type="button" onClick={stop}>
        stop
      </button>
    </div>
  );
}

/** How a search ended that found nothing out. */
export function Ending({ bench, ended }: { bench: Bench; ended: Ended }) {
  const after = ended.how === "stopped" && ended.tried > 0 ? ` after ${triedWords(ended.tried)}` : "";
  const stopped = ended.how === "stopped" ? `Stopped${after}. Nothing has changed.` : "";
  useEffect(() => {
    if (stopped !== "") bench.say.set(stopped);
  }, [bench, stopped]);
  if (ended.how === "stopped") return <p>{stopped}</p>;
  return (
    <section class="news" role="alert">
      <h2 class="alert">The search failed</h2>
      <p>{sentence(ended.why)} Nothing has changed; it can be tried again.</p>
    </section>
  );
}

function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1).replace(/\.$/, "")}.`;
}
