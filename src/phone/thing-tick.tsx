import { useEffect, useState } from "preact/hooks";
import type { LiveThing } from "../workbench/index.ts";
import { type Refusal, tick } from "./client.ts";
import { clockOf } from "./hooks.ts";
import { sentence } from "./pair-screen.tsx";

export interface Tick {
  /** said so here, and not taken back; what the workbench knows comes a moment later */
  readonly stands: boolean;
  readonly refusal: Refusal | null;
  readonly put: (isPlaced: boolean) => Promise<void>;
}

export function isStanding({ placed }: LiveThing): boolean {
  return placed !== null && !placed.isOld;
}

export function useTick(thing: LiveThing): Tick {
  const { placed } = thing;
  const [asked, setAsked] = useState<boolean | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const isDone = isStanding(thing);
  useEffect(() => setAsked(null), [placed?.at, isDone]);

  async function put(isPlaced: boolean) {
    setAsked(isPlaced);
    setRefusal(null);
    const said = await tick(thing.thing, isPlaced);
    // where it was done, the plan that comes next says so
    if (said === null) return;
    setAsked(null);
    setRefusal(said);
  }
  return { stands: asked ?? isDone, refusal, put };
}

/** The tick, who made it, and why it was not taken. */
export function TickLine({ thing, tick: { stands, refusal, put } }: { thing: LiveThing; tick: Tick }) {
  const { name, placed, verb } = thing;
  const done = placed !== null && !placed.isOld ? placed : null;
  return (
    <>
      <label class="tick">
        <input
          type="checkbox"
          checked={stands}
          onChange={(event) => void put(event.currentTarget.checked)}
          aria-label={`${name} ${verb}`}
        />
        <span aria-hidden="true">
          {verb}
          {done !== null && stands && (
            <span class="quiet">
              {" "}
              {clockOf(done.at)}, {done.by}
            </span>
          )}
        </span>
      </label>
      {done !== null && (
        <p class="visually-hidden">
          ticked {clockOf(done.at)} by {done.by}
        </p>
      )}
      {refusal !== null && (
        <p class="refused" role="alert">
          <strong>{sentence(refusal.problem)}</strong> {sentence(refusal.cure)}
        </p>
      )}
    </>
  );
}
