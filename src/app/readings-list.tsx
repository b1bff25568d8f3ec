import type { Plan } from "../plan/index.ts";
import type { CheckedReading } from "../testframe/index.ts";
import { formatFStops } from "../units/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { rounded } from "./fields.tsx";
import { useStore } from "./hooks.ts";
import { removeReading } from "./readings-draft.ts";
import { lightWords, whereWords } from "./readings-places.ts";
import { signedStops } from "./wording.ts";

interface ListProps {
  readonly bench: Bench;
  readonly plan: Plan;
  /** how each stands to the plan, by name; none where it has not been worked out */
  readonly checked: readonly CheckedReading[];
  readonly changed: number | null;
  readonly change: (index: number) => void;
}

/** Every reading made, the newest last, with what the plan says of it; one that cannot be right stands out. */
export function ReadingsList({ bench, plan, checked, changed, change }: ListProps) {
  const { units } = useStore(bench.view);
  if (plan.readings.length === 0)
    return (
      <p class="quiet">
        No readings yet. Four of a light, at different places, tell what it really gives to a tenth of a stop;
        until then each light is a guess within about one stop.
      </p>
    );
  return (
    <ol class="readings" aria-label="Readings">
      {plan.readings.map((reading, index) => {
        const check = checked.find(({ kind, name }) => kind === "reading" && name === reading.name);
        const iso = reading.iso === plan.camera.iso ? "" : `, ISO ${rounded(reading.iso, 1)}`;
        return (
          <li key={reading.name} aria-current={changed === index ? "true" : undefined}>
            <p class="reading-what">
              <strong class="middle">{formatFStops(reading.fNumber)}</strong> {lightWords(reading.light)}
              <span class="quiet line">
                {reading.name}, {whereWords(plan, reading, units)}
                {iso}
                {reading.note !== "" && `; ${reading.note}`}
              </span>
            </p>
            {check !== undefined && <Check check={check} />}
            <p class="row reading-acts">
              <button type="button" onClick={() => change(index)}>
                change<span class="visually-hidden"> {reading.name}</span>
              </button>
              <button type="button" onClick={() => makeEdit(bench, removeReading(plan, index))}>
                take away<span class="visually-hidden"> {reading.name}</span>
              </button>
            </p>
          </li>
        );
      })}
    </ol>
  );
}

function Check({ check: { offAfter, offBefore, state, why } }: { check: CheckedReading }) {
  const after = state === "used" && offAfter !== null ? ` before, ${signedStops(offAfter)} after` : "";
  return (
    <p class={state === "used" ? "reading-check" : "reading-check stands-out"}>
      {offBefore !== null && `stops from the plan: ${signedStops(offBefore)}${after}`}
      {state !== "used" && (
        <span class="line">
          {state}
          {why !== "" && `. ${why}`}
        </span>
      )}
    </p>
  );
}
