import { useState } from "preact/hooks";
import type { LivePlan } from "../workbench/index.ts";
import { OneStep } from "./one-step.tsx";
import { ThingStep } from "./thing-step.tsx";
import { isStanding } from "./thing-tick.tsx";

/** What is looked at: a thing by its name, the last step, or all of them. */
export type Shown = { readonly thing: string } | "all on" | "all steps";

interface PlaceViewProps {
  readonly plan: LivePlan;
  /** null: nothing was chosen yet, and it begins with the first that does not stand */
  readonly chosen: Shown | null;
  readonly show: (shown: Shown) => void;
}

/** What has to stand where, one step a screen or all of them, with what hangs over people on top. */
export function PlaceView({ plan, chosen, show }: PlaceViewProps) {
  const { things, overhead, cautions } = plan;
  // a tick does not turn the page by itself: what it was is read back first
  const [begun] = useState(() => shownAt(plan, firstOpen(plan)));
  const at = placeOf(plan, chosen ?? begun);
  // what the one step in sight says itself is not said twice
  const own = (at === null ? null : things[at]?.caution) ?? "";
  const onTop = overhead.filter((caution) => !own.includes(caution));
  return (
    <>
      <h2 class="visually-hidden">Place</h2>
      {onTop.length > 0 && (
        <section class="overhead" aria-label="Over people">
          <ul>
            {onTop.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      )}
      {at === null ? (
        <>
          <p class="count">
            <span>all steps</span>
            <button type="button" onClick={() => show(shownAt(plan, firstOpen(plan)))}>
              one step at a time
            </button>
          </p>
          <ol class="steps">
            {things.map((thing, i) => (
              <ThingStep key={thing.thing} number={i + 1} thing={thing} />
            ))}
          </ol>
        </>
      ) : (
        <OneStep plan={plan} at={at} go={(to) => show(shownAt(plan, to))} showAll={() => show("all steps")} />
      )}
      <details class="every-time">
        <summary>cautions: bags, arms, cables, mains, heat, flash</summary>
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

/** The first that does not stand; the last step where all do. */
function firstOpen({ things }: LivePlan): number {
  const open = things.findIndex((thing) => !isStanding(thing));
  return open < 0 ? things.length : open;
}

function shownAt({ things }: LivePlan, at: number): Shown {
  const thing = things[at];
  return thing === undefined ? "all on" : { thing: thing.thing };
}

/** Null for all of them. A thing that the plan has no more gives way to the first that does not stand. */
function placeOf(plan: LivePlan, shown: Shown): number | null {
  if (shown === "all steps") return null;
  if (shown === "all on") return plan.things.length;
  const at = plan.things.findIndex(({ thing }) => thing === shown.thing);
  return at < 0 ? firstOpen(plan) : at;
}
