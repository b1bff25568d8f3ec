import type { Plan } from "../plan/index.ts";
import type { FieldMap } from "../reading/index.ts";
import type { Bench } from "./bench.ts";
import { lengthText, parseLengthText } from "./entries.ts";
import { rounded } from "./fields.tsx";
import type { Sheet } from "./handling.ts";
import { useStore } from "./hooks.ts";
import { chosenPerson, layerAcross, layerHeight, references } from "./layer-height.ts";
import { NumberField } from "./number-field.tsx";
import { theOne } from "./wording.ts";

interface LayerBarProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly map: FieldMap | null;
}

/** The layers, each on its own switch, and what the stops are counted from. */
export function LayerSwitches({ bench, plan, map }: LayerBarProps) {
  const view = useStore(bench.view);
  const choices = references(plan, view);
  const chosen = choices.find(({ owner }) => owner === view.reference) ?? choices[0];
  return (
    <>
      <span class="layer-group">
        <button
          type="button"
          class="layer power"
          aria-pressed={view.showPower}
          onClick={() => bench.view.update({ showPower: !view.showPower })}
        >
          <i />
          power
        </button>
        {view.showPower && (
          <label class="reference">
            in stops from{" "}
            <select
              value={chosen?.owner ?? ""}
              onChange={(event) => bench.view.update({ reference: event.currentTarget.value || null })}
            >
              {choices.map(({ owner, name }) => (
                <option key={owner} value={owner ?? ""}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        )}
        {view.showPower && map !== null && <span class="quiet">{map.referenceFStops}</span>}
      </span>
      <button
        type="button"
        class="layer direction"
        aria-pressed={view.showDirection}
        onClick={() => bench.view.update({ showDirection: !view.showDirection })}
      >
        <i />
        direction it comes from
      </button>
      <button
        type="button"
        class="layer hold"
        aria-pressed={view.showHold}
        onClick={() => bench.view.update({ showHold: !view.showHold })}
      >
        <i />
        hold zone
      </button>
    </>
  );
}

interface PlaneFieldProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly sheet: Sheet;
}

/** Where a sheet's layers lie, and the way back to the person. */
export function PlaneField({ bench, plan, sheet }: PlaneFieldProps) {
  const view = useStore(bench.view);
  const level = sheet.name === "Floor";
  const who = plan.people[chosenPerson(plan, view)];
  const at = level ? layerHeight(plan, view) : layerAcross(plan, view);
  const chosen = level ? view.layerHeight_m : view.layerAcross_m;
  const move = (to: number | null) =>
    bench.view.update(level ? { layerHeight_m: to } : { layerAcross_m: to });
  const [least, most] = limits(plan, level);
  const put = (to: number) => {
    if (to >= least && to <= most) {
      move(to);
      return null;
    }
    const [from, up] = [lengthText(least, view.units), lengthText(most, view.units)];
    return `The layers lie between ${from} and ${up}.`;
  };
  return (
    <>
      <NumberField
        label={level ? "at height" : plan.room === null ? "at across" : "from left wall"}
        of={`layers of ${sheet.name}`}
        text={lengthText(at, view.units)}
        parse={(text) => parseLengthText(text, view.units)}
        commit={put}
        step={(way, large) => put(rounded(at + way * (large ? 0.1 : 0.01), 3))}
      />
      {chosen !== null && who !== undefined && (
        <button type="button" onClick={() => move(null)}>
          {level ? "at the face" : `through ${theOne(who.name)}`}
        </button>
      )}
    </>
  );
}

/** Anywhere in the room; in open space as far as a plan may reach round its origin. */
function limits(plan: Plan, level: boolean): [least: number, most: number] {
  if (plan.room === null) return level ? [0, 20] : [-50, 50];
  return [0, level ? plan.room.height : plan.room.width];
}
