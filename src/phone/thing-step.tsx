import { useEffect, useState } from "preact/hooks";
import type { LiveThing } from "../workbench/index.ts";
import { ThingBody } from "./thing-body.tsx";
import { isStanding, TickLine, useTick } from "./thing-tick.tsx";

interface StepProps {
  readonly number: number;
  readonly thing: LiveThing;
}

/** One thing among all: its numbers, and a tick once it stands. What stands folds away. */
export function ThingStep({ number, thing }: StepProps) {
  const tick = useTick(thing);
  const isDone = isStanding(thing);
  const [isUnfolded, setUnfolded] = useState(!isDone);
  useEffect(() => setUnfolded(!isDone), [thing.placed?.at, isDone]);
  const id = `step-${number}`;
  return (
    <li class="step" data-stands={tick.stands}>
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
        <ThingBody thing={thing} />
      </div>
      <TickLine thing={thing} tick={tick} />
    </li>
  );
}
