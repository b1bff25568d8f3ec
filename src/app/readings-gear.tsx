import type { Plan } from "../plan/index.ts";
import { gearEdit, gearFor, learn } from "../workbench/index.ts";
import { type Bench, makeEdit } from "./bench.ts";
import { BookApart } from "./gear-apart.tsx";
import { useGear } from "./use-gear.ts";
import { capital, signedStops } from "./wording.ts";

/** What the gear book knows of this plan's lights, and what it can learn of them. */
export function GearLine({ bench, plan }: { readonly bench: Bench; readonly plan: Plan }) {
  const gear = useGear(bench);
  const { book, failure, save } = gear;
  if (failure !== null) return <p class="alert">{failure}</p>;
  if (book === null) return null;
  const known = gearFor(plan, book);
  const edit = gearEdit(plan, book);
  const learnt = learn(book, plan);
  const measured = plan.lights.some(({ calibration }) => calibration?.from === "readings");
  return (
    <div class="gear-line">
      {book.notice !== undefined && <p class="alert">{capital(book.notice)}.</p>}
      <BookApart gear={gear} />
      {edit !== null && (
        <p>
          The gear book knows{" "}
          {known
            .map(({ known: { measuredOn, stops, uncertaintyStops }, name }) => {
              const on = measuredOn === "" ? "" : `, ${measuredOn}`;
              return `${name} (${signedStops(stops)} ± ${uncertaintyStops.toFixed(1)} stops${on})`;
            })
            .join("; ")}
          .{" "}
          <button type="button" onClick={() => makeEdit(bench, edit)}>
            use it in this plan
          </button>
        </p>
      )}
      {learnt !== book && (
        <p>
          <button type="button" onClick={() => void save(learnt)}>
            keep it with the gear
          </button>{" "}
          <span class="quiet">for the next plan with the same head and front</span>
        </p>
      )}
      {learnt === book && measured && <p class="quiet">The gear book has it for the next plan.</p>}
    </div>
  );
}
