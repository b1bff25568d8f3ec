import type { Plan } from "../plan/index.ts";
import { measurePlaces, meterWords } from "../sheet/index.ts";
import type { Placed } from "../shoots/index.ts";
import { formatFStops } from "../units/index.ts";
import type { ChecklistThing, KnownMeters } from "../workbench/index.ts";
import { clockTime } from "./format-clock.ts";

interface StepProps {
  readonly thing: ChecklistThing;
  readonly tick: Placed | null;
  /** the plan has changed it since */
  readonly isOld: boolean;
  readonly put: (isPlaced: boolean) => void;
}

/** One thing: where it stands, how that is found again without a tape, what is said of it, and a tick. */
export function ChecklistStep({ thing, tick, isOld, put }: StepProps) {
  const { name, what, lines, caution, reach, readBack, verb } = thing;
  const stands = tick !== null && !isOld;
  return (
    <>
      <h2>{name}</h2>
      <p class="quiet">{what}</p>
      {isOld && tick !== null && (
        <p class="check-moved">
          The plan has changed it since it was ticked at {clockTime(new Date(tick.at))}. Tick it again once{" "}
          {name} {verb} as below.
        </p>
      )}
      {caution !== null && <p class="check-caution">{caution}</p>}
      <dl class="check-lines">
        {lines.map(({ label, text }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{text}</dd>
          </div>
        ))}
        {reach !== null && (
          <div class="check-reach">
            <dt>without a tape</dt>
            <dd>{reach}</dd>
          </div>
        )}
      </dl>
      <ReadBack text={readBack} />
      <label class="check-tick">
        <input type="checkbox" checked={stands} onChange={(event) => put(event.currentTarget.checked)} />
        <span>
          {name} {verb}
          {stands && (
            <span class="quiet">
              {" "}
              {clockTime(new Date(tick.at))}, {tick.by}
            </span>
          )}
        </span>
      </label>
    </>
  );
}

/** The last step: what every meter reads with all of it on. */
export function ChecklistAllOn({ plan, reading }: { plan: Plan; reading: KnownMeters | null }) {
  const { noses } = measurePlaces(plan);
  const receptorOf = (name: string) =>
    meterWords(
      plan,
      plan.meters.findIndex((meter) => meter.name === name),
      noses,
    );
  return (
    <>
      <h2>all lights on</h2>
      <p class="quiet">meter at ISO {Math.round(plan.camera.iso)}</p>
      {plan.meters.length === 0 && (
        <p>The plan has no meter: one test frame with a grey card, one without.</p>
      )}
      {plan.meters.length > 0 && reading === null && <p>What they should read is being worked out.</p>}
      {reading?.meters.map(({ name, fNumber }) => (
        <ReadBack key={name} text={`all on, ${name}: ${formatFStops(fNumber)}, ${receptorOf(name)}`} />
      ))}
    </>
  );
}

function ReadBack({ text }: { text: string }) {
  return (
    <p class="read-back">
      <span class="quiet">say</span> {text}
    </p>
  );
}
