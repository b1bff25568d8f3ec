import { useState } from "preact/hooks";
import { type Bench, takeHold } from "./bench.ts";
import { FLOOR, nudge, type Sheet, SIDE } from "./handling.ts";
import { editHeld } from "./held.ts";
import { namesOf, type PlanObject } from "./objects.ts";

interface Way {
  readonly text: string;
  /** for the ear */
  readonly says: string;
  readonly sheet: Sheet;
  readonly across: number;
  readonly up: number;
}

const WAYS: readonly Way[] = [
  { text: "←", says: "to the left", sheet: FLOOR, across: -1, up: 0 },
  { text: "→", says: "to the right", sheet: FLOOR, across: 1, up: 0 },
  { text: "↑", says: "into the set", sheet: FLOOR, across: 0, up: 1 },
  { text: "↓", says: "toward the camera side", sheet: FLOOR, across: 0, up: -1 },
  { text: "higher", says: "", sheet: SIDE, across: 0, up: 1 },
  { text: "lower", says: "", sheet: SIDE, across: 0, up: -1 },
];

/** For one finger, where there are no arrow keys: what is held by a centimetre, or by ten. */
export function NudgePad({ bench, held }: { bench: Bench; held: readonly PlanObject[] }) {
  const [large, setLarge] = useState(false);
  if (held.length === 0) return null;
  const lifts = held.some((object) => object.lifts);
  const step = large ? "10 cm" : "1 cm";
  const owners = held.map((object) => object.owner).join();
  return (
    <section class="nudge" aria-label={`Nudge ${namesOf(held)}`}>
      <p class="nudge-name">{namesOf(held)}</p>
      <div class="nudge-steps">
        {[false, true].map((each) => (
          <button
            key={String(each)}
            type="button"
            aria-pressed={large === each}
            onClick={() => setLarge(each)}
          >
            {each ? "10 cm" : "1 cm"}
          </button>
        ))}
        <button type="button" onClick={() => takeHold(bench, null)}>
          let go
        </button>
      </div>
      <div class="nudge-ways">
        {WAYS.filter(({ sheet }) => sheet === FLOOR || lifts).map(({ text, says, sheet, across, up }) => (
          <button
            key={text}
            type="button"
            class={says === "" ? "word" : undefined}
            aria-label={says === "" ? `${text} by ${step}` : `${step} ${says}`}
            onClick={() => {
              const { plan } = bench.session.get();
              editHeld(bench, `nudge ${text} ${owners}`, (free) =>
                nudge(plan, free, sheet, across, up, large),
              );
            }}
          >
            {text}
          </button>
        ))}
      </div>
    </section>
  );
}
