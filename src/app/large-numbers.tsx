import type { Plan } from "../plan/index.ts";
import { litSideWords, marginWords, type PlanReading, patternName } from "../reading/index.ts";
import { type LengthUnits, lengthsIn } from "../units/index.ts";
import { aloneLight } from "./alone.ts";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import type { Results } from "./results.ts";
import { headroomWords, ratioWords } from "./wording.ts";

interface LargeNumbersProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly results: Results;
}

interface LargeLine {
  readonly term: string;
  readonly strong: string;
  readonly rest: string;
  readonly over: boolean;
}

/** A few readings, as large as the screen allows: read from across the studio. */
export function LargeNumbers({ bench, plan, results }: LargeNumbersProps) {
  const view = useStore(bench.view);
  const { reading } = results;
  const alone = aloneLight(plan, view.alone);
  const lines = reading === null ? [] : largeLines(reading, chosenPerson(plan, view), view.units);
  return (
    <section class="large-numbers" aria-labelledby="large-title">
      <h2 id="large-title" class="visually-hidden">
        Large numbers
      </h2>
      {reading === null ? (
        <p class="quiet">The first reading is being worked out.</p>
      ) : (
        <dl style={{ "--heights": heights(lines) + (alone === null ? 0 : 0.4) }}>
          {lines.map(({ term, strong, rest, over }) => (
            <div key={term} class={over ? "alert" : undefined}>
              <dt>{term === "" ? <span class="visually-hidden">pattern</span> : term}</dt>
              <dd>
                <strong>{strong}</strong> {rest !== "" && <span>{rest}</span>}
              </dd>
            </div>
          ))}
        </dl>
      )}
    </section>
  );
}

/** How high the lines are together, in sizes of the numbers: a number with its gap, and the words under some. */
function heights(lines: readonly LargeLine[]): number {
  return lines.reduce((sum, { rest }) => sum + 1.16 + (rest === "" ? 0 : rest.length > 40 ? 0.62 : 0.31), 0);
}

/** What is looked up at from the camera: pattern, meters, contrast, headroom. */
export function largeLines(reading: PlanReading, person: number, units: LengthUnits): LargeLine[] {
  const who = reading.people[person];
  const lines: LargeLine[] = [];
  const add = (term: string, strong: string, rest: string, over = false) =>
    lines.push({ term, strong, rest, over });
  if (who !== undefined) {
    const { face } = who;
    const margin = marginWords(face);
    add(
      reading.people.length > 1 ? who.name : "",
      patternName(face.pattern),
      margin === null ? litSideWords(face) : `${litSideWords(face)}; ${lengthsIn(margin, units)}`,
    );
  }
  for (const { name, fStops } of reading.meters) add(name, fStops, "");
  if (who !== undefined) {
    const { strong, detail } = ratioWords(who.face);
    add("cheek to cheek", strong, detail);
  }
  const room = headroomWords(reading.camera);
  add(room.rest, room.strong, "", room.over);
  return lines;
}
