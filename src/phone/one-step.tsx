import { useEffect, useRef } from "preact/hooks";
import type { LivePlan, LiveThing } from "../workbench/index.ts";
import { ThingBody } from "./thing-body.tsx";
import { TickLine, useTick } from "./thing-tick.tsx";

interface OneStepProps {
  readonly plan: LivePlan;
  /** which of them; as many as there are is the last step, all lights on */
  readonly at: number;
  readonly go: (at: number) => void;
  readonly showAll: () => void;
}

/** One thing at a time, as large as the screen allows; the next and the one before under the thumb. */
export function OneStep({ plan, at, go, showAll }: OneStepProps) {
  const { things } = plan;
  const thing = things[at];
  const heading = useRef<HTMLHeadingElement>(null);
  const first = useRef(true);
  useEffect(() => {
    // who has just come in reads from the top; who goes on hears where they are
    if (!first.current) heading.current?.focus();
    first.current = false;
    scrollTo(0, 0);
  }, [at]);
  return (
    <section class="one" aria-label="one step at a time">
      <p class="count">
        <span>
          step {at + 1} of {things.length + 1}
        </span>
        <button type="button" onClick={showAll}>
          all steps
        </button>
      </p>
      <h3 tabIndex={-1} ref={heading}>
        {thing?.name ?? "all lights on"}
      </h3>
      {thing === undefined ? <AllOn plan={plan} /> : <OneThing key={thing.thing} thing={thing} />}
      <p class="turn">
        <button type="button" class="go" disabled={at === 0} onClick={() => go(at - 1)}>
          back
        </button>
        <button type="button" class="go" disabled={at === things.length} onClick={() => go(at + 1)}>
          next
        </button>
      </p>
    </section>
  );
}

function OneThing({ thing }: { thing: LiveThing }) {
  const tick = useTick(thing);
  return (
    <div data-stands={tick.stands}>
      <p class="what">{thing.what}</p>
      <ThingBody thing={thing} />
      <TickLine thing={thing} tick={tick} />
    </div>
  );
}

/** What every meter reads once all of it stands. */
function AllOn({ plan: { readings, iso } }: { plan: LivePlan }) {
  const all = readings.filter(({ light }) => light === "all");
  if (all.length === 0) return <p>One test frame with a grey card, one without.</p>;
  return (
    <>
      <p class="what">meter at ISO {Math.round(iso)}</p>
      <dl class="lines">
        {all.map(({ meter, should, held }) => (
          <div key={meter} data-long>
            <dt>
              {meter}: {held}
            </dt>
            <dd>{should ?? "not known yet"}</dd>
          </div>
        ))}
      </dl>
      {all.map(({ meter, receptor, should }) =>
        should === null ? null : (
          <p key={meter} class="read-back">
            <span class="quiet">say</span> all on, {meter}: {should}, {receptor}
          </p>
        ),
      )}
    </>
  );
}
