import type { LivePlan } from "../workbench/index.ts";
import { ThingStep } from "./thing-step.tsx";

/** What has to stand where, one step after the other, with what hangs over people on top. */
export function PlaceView({ plan }: { plan: LivePlan }) {
  const { things, overhead, cautions } = plan;
  return (
    <>
      <h2 class="visually-hidden">Place</h2>
      {overhead.length > 0 && (
        <section class="overhead" aria-label="Over people">
          <ul>
            {overhead.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      )}
      <details class="every-time">
        <summary>every time: bags, arms, cables, mains, heat, flash</summary>
        <ul>
          {cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </details>
      <ol class="steps">
        {things.map((thing, i) => (
          <ThingStep key={thing.thing} number={i + 1} thing={thing} />
        ))}
      </ol>
    </>
  );
}
