import { useEffect, useState } from "preact/hooks";
import type { LiveThing } from "../workbench/index.ts";
import { type Refusal, tick } from "./client.ts";
import { clockOf } from "./hooks.ts";
import { sentence } from "./pair-screen.tsx";

/** As many letters as half a phone is wide in figures that are read at arm's length. */
const SHORT = 11;

interface StepProps {
  readonly number: number;
  readonly thing: LiveThing;
}

/** One thing: where it stands, how high, how it is turned, and a tick once it does. What stands folds away. */
export function ThingStep({ number, thing }: StepProps) {
  const { placed } = thing;
  const [asked, setAsked] = useState<boolean | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const isDone = placed !== null && !placed.isOld;
  const [isUnfolded, setUnfolded] = useState(!isDone);
  const stands = asked ?? isDone;
  useEffect(() => {
    setUnfolded(!isDone);
    setAsked(null);
  }, [placed?.at, isDone]);

  async function put(isPlaced: boolean) {
    setAsked(isPlaced);
    setRefusal(null);
    const said = await tick(thing.thing, isPlaced);
    // where it was done, the plan that comes next says so
    if (said === null) return;
    setAsked(null);
    setRefusal(said);
  }

  const id = `step-${number}`;
  return (
    <li class="step" data-stands={stands}>
      <h3>
        <button
          type="button"
          class="fold"
          aria-expanded={isUnfolded}
          aria-controls={id}
          onClick={() => setUnfolded(!isUnfolded)}
        >
          <span class="number">{number}</span>
          <span class="name">{thing.name}</span>
          <span class="what">{thing.what}</span>
        </button>
      </h3>
      <div id={id} hidden={!isUnfolded}>
        {placed?.isOld === true && (
          <p class="moved">
            The plan has changed it since {placed.by} ticked it at {clockOf(placed.at)}. Tick it again once it
            stands as below.
          </p>
        )}
        {thing.caution !== null && <p class="caution">{thing.caution}</p>}
        <dl class="lines">
          {thing.lines.map(({ label, text }) => (
            <div key={label} data-long={text.length > SHORT}>
              <dt>{label}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      </div>
      <label class="tick">
        <input
          type="checkbox"
          checked={stands}
          onChange={(event) => void put(event.currentTarget.checked)}
          aria-label={`${thing.name} stands`}
        />
        <span aria-hidden="true">
          stands
          {isDone && asked !== false && (
            <span class="quiet">
              {" "}
              {clockOf(placed.at)}, {placed.by}
            </span>
          )}
        </span>
      </label>
      {isDone && (
        <p class="visually-hidden">
          ticked {clockOf(placed.at)} by {placed.by}
        </p>
      )}
      {refusal !== null && (
        <p class="refused" role="alert">
          <strong>{sentence(refusal.problem)}</strong> {sentence(refusal.cure)}
        </p>
      )}
    </li>
  );
}
