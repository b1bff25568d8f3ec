import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import { lengthText, parseLengthText } from "./entries.ts";
import { rounded } from "./fields.tsx";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { NumberField } from "./number-field.tsx";

interface LayerBarProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly height: number;
  /** what 0 stops stands for */
  readonly reference: string | null;
  readonly probing: boolean;
  readonly onProbe: () => void;
}

/** The two layers, each on its own switch, the height at which they lie, and the probe. */
export function LayerBar({ bench, plan, height, reference, probing, onProbe }: LayerBarProps) {
  const view = useStore(bench.view);
  const who = plan.people[chosenPerson(plan, view)];
  const whose = who === undefined ? "the meter" : `the ${who.name}'s face`;
  const most = plan.room?.height ?? 20;
  const put = (to: number) => {
    if (to < 0 || to > most) return `The layers lie between the floor and ${lengthText(most, view.units)}.`;
    bench.view.update({ layerHeight_m: to });
    return null;
  };
  return (
    <div class="layer-bar">
      <button
        type="button"
        class="layer power"
        aria-pressed={view.showPower}
        onClick={() => bench.view.update({ showPower: !view.showPower })}
      >
        <i />
        power<span class="wide">, stops from {whose}</span>
        {reference !== null && view.showPower && <span class="quiet wide"> ({reference})</span>}
      </button>
      <button
        type="button"
        class="layer direction"
        aria-pressed={view.showDirection}
        onClick={() => bench.view.update({ showDirection: !view.showDirection })}
      >
        <i />
        direction<span class="wide"> it comes from</span>
      </button>
      <NumberField
        label="at height"
        of="layers"
        text={lengthText(height, view.units)}
        parse={(text) => parseLengthText(text, view.units)}
        commit={put}
        step={(way, large) => put(rounded(height + way * (large ? 0.1 : 0.01), 3))}
      />
      <button type="button" aria-pressed={probing} onClick={onProbe}>
        probe
      </button>
    </div>
  );
}
