import { useMemo, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { type CalibrationFrame, calibrationFrame } from "../testframe/index.ts";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { CalibrationPanel } from "./readings-calibration.tsx";
import { ReadingForm } from "./readings-form.tsx";
import { ReadingsList } from "./readings-list.tsx";
import type { Compared } from "./shoot-compare.ts";
import { comparedOf, shootDeskOf } from "./shoot-desk.ts";
import { useCalibration } from "./use-calibration.ts";

/** What the meter said on set, how it stands to the plan, and what that says of lights and room. */
export function Readings({ bench, plan }: { readonly bench: Bench; readonly plan: Plan }) {
  const [asked, setChanged] = useState<number | null>(null);
  // undo may have taken it away
  const changed = asked !== null && asked < plan.readings.length ? asked : null;
  const view = useStore(bench.view);
  const shoot = useStore(shootDeskOf(bench).store);
  const compared = comparedOf(plan, chosenPerson(plan, view), shoot);
  const inSight = useMemo(
    () => (compared === null ? null : frameOf(compared)),
    [compared?.plan, compared?.frame, compared?.face, compared?.person],
  );
  const [isWithFrame, setWithFrame] = useState(false);
  const frame = isWithFrame ? inSight : null;
  const calibrating = useCalibration(bench, plan, frame);
  return (
    <div class="readings-part">
      <ReadingForm bench={bench} plan={plan} changed={changed} leave={() => setChanged(null)} />
      <section class="readings-made" aria-labelledby="readings-title">
        <h2 id="readings-title">Readings</h2>
        <ReadingsList
          {...{ bench, plan, changed }}
          checked={calibrating.calibration?.readings ?? []}
          change={setChanged}
        />
      </section>
      <CalibrationPanel bench={bench} plan={plan} calibrating={calibrating}>
        {inSight !== null && (
          <label class="bracket-row">
            <input
              type="checkbox"
              checked={isWithFrame}
              onChange={(event) => setWithFrame(event.currentTarget.checked)}
            />
            <span>
              with the frame <span class="file-name">{inSight.name}</span>{" "}
              <span class="quiet">
                if it was taken by this plan as it stands, with every light that is on
              </span>
            </span>
          </label>
        )}
      </CalibrationPanel>
    </div>
  );
}

function frameOf({ face, frame, person, plan }: Compared): CalibrationFrame | null {
  const seen = frame.reading.faces[face];
  return seen === undefined ? null : calibrationFrame(plan, person, frame.reading, seen);
}
