import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { applyEdit, type Known, type Plan, uncertaintyOf } from "../plan/index.ts";
import { goodToWords } from "../reading/index.ts";
import {
  type Calibration,
  calibrationEdit,
  leftOutLines,
  lightLine,
  nextLine,
  restLine,
  roomLine,
} from "../testframe/index.ts";
import { lengthsIn } from "../units/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { dayOf } from "./format-clock.ts";
import { useStore } from "./hooks.ts";
import { GearLine } from "./readings-gear.tsx";
import { ScaleKey, StopsScale } from "./readings-scale.tsx";
import type { Calibrating } from "./use-calibration.ts";
import { signedStops } from "./wording.ts";

interface PanelProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly calibrating: Calibrating;
  /** what else is taken into account */
  readonly children?: ComponentChildren;
}

/** What each light was taken for, what the readings make it, and how sure either is. */
export function CalibrationPanel({ bench, plan, calibrating, children }: PanelProps) {
  const { calibration, done, failure } = calibrating;
  return (
    <section class="calibration" aria-labelledby="calibration-title" aria-busy={done !== null}>
      <h2 id="calibration-title">What the lights really give</h2>
      {children}
      {failure !== null && (
        <p class="alert" role="alert">
          It could not be worked out: {failure}
        </p>
      )}
      {done !== null && <p class="quiet">tracing the readings: {Math.round(done * 100)} %</p>}
      {plan.lights.length > 0 && <ScaleKey hasAfter={calibration !== null} />}
      {calibration === null ? (
        <Standing plan={plan} />
      ) : (
        <Outcome bench={bench} plan={plan} calibration={calibration} />
      )}
      <GearLine bench={bench} plan={plan} />
    </section>
  );
}

const sure = ({ stops, uncertaintyStops }: Known) => `${signedStops(stops)} ± ${uncertaintyStops.toFixed(1)}`;

function Head({ name, known }: { name: string; known: Known }) {
  return (
    <div class="section-head">
      <h3>{name}</h3>
      <strong>{sure(known)} stops</strong>
    </div>
  );
}

/** What the plan has now. */
function Standing({ plan }: { plan: Plan }) {
  return (
    <ul class="calibrated">
      {plan.lights.map((light) => {
        const { calibration, name } = light;
        const known = { stops: calibration?.stops ?? 0, uncertaintyStops: uncertaintyOf(light) };
        const from = calibration?.from === "gear book" ? "from the gear book" : "from readings";
        const on = calibration === null || calibration.measuredOn === "" ? "" : `, ${calibration.measuredOn}`;
        return (
          <li key={name}>
            <Head name={name} known={known} />
            <StopsScale name={name} before={known} after={null} />
            <p class="quiet">
              {calibration === null ? `not measured, ${goodToWords(known.uncertaintyStops)}` : `${from}${on}`}
            </p>
          </li>
        );
      })}
    </ul>
  );
}

function Outcome({ bench, plan, calibration }: { bench: Bench; plan: Plan; calibration: Calibration }) {
  const { units } = useStore(bench.view);
  const { lights, room } = calibration;
  const [next, rest] = [nextLine(calibration), restLine(calibration)];
  return (
    <>
      <ul class="calibrated">
        {lights.map((light) => (
          <li key={light.name}>
            <Head name={light.name} known={light.after} />
            <StopsScale
              name={light.name}
              before={light.before}
              after={light.readings === 0 ? null : light.after}
            />
            <p class={light.isContradicted ? "stands-out" : "quiet"}>{lightLine(light)}</p>
          </li>
        ))}
        {room !== null && (
          <li>
            <Head name="bounce of the room" known={room.after} />
            <StopsScale name="bounce" before={room.before} after={room.after} />
            <p class="quiet">{roomLine(calibration)}</p>
          </li>
        )}
      </ul>
      {leftOutLines(plan, calibration).map((line) => (
        <p key={line} class="stands-out">
          {line}
        </p>
      ))}
      {rest !== null && <p class="quiet">{rest}</p>}
      {next !== null && <p class="quiet">{lengthsIn(next, units)}</p>}
      <Take bench={bench} plan={plan} calibration={calibration} />
    </>
  );
}

function Take({ bench, plan, calibration }: { bench: Bench; plan: Plan; calibration: Calibration }) {
  const [why, setWhy] = useState<string | null>(null);
  const edit = calibrationEdit(plan, calibration, dayOf(new Date()));
  if (edit === null) return <p class="quiet">These readings teach nothing that was not known.</p>;
  const taken = applyEdit(plan, edit);
  if (taken.ok && taken.plan === plan) return <p>The plan has what these readings teach.</p>;
  const take = () => {
    const refused = makeEdit(bench, edit);
    setWhy(refused);
    if (refused === null) bench.say.set(edit.label);
  };
  return (
    <>
      <p class="row large-row">
        <button type="button" class="begin" onClick={take}>
          take it into the plan
        </button>
      </p>
      {why !== null && (
        <p class="alert" role="alert">
          {why}
        </p>
      )}
    </>
  );
}
