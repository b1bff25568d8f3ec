import { useMemo } from "preact/hooks";
import type { TriedStep, TriedSteps } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { patternName } from "../reading/index.ts";
import type { About, Question } from "./ask-follower.ts";
import { isStill, stepCells } from "./ask-words.ts";
import { useWorked, Working } from "./ask-working.tsx";
import { type Bench, makeEdit } from "./bench.ts";

interface AskStepsProps {
  readonly bench: Bench;
  readonly about: About;
}

/** Every small step from the plan as it stands, by the thing that moves. */
export function AskSteps({ bench, about }: AskStepsProps) {
  const question = useMemo<Question<TriedSteps>>(
    () => ({
      about,
      work: (options) =>
        bench.trials.steps(about.plan, { person: about.person, units: about.units }, options),
    }),
    [bench, about],
  );
  const { worked, follower } = useWorked(question);
  const { answer } = worked;
  const take = (step: TriedStep) => {
    if (step.edit === null) return;
    const refused = makeEdit(bench, step.edit);
    bench.say.set(refused ?? `Taken: ${step.edit.label}. Undo takes it back.`);
  };
  return (
    <>
      <Working what="trying every small step" worked={worked} follower={follower} />
      {answer !== null && (
        <StepsTable
          plan={answer.to.about.plan}
          tried={answer.is}
          isStale={answer.to !== question}
          onTake={take}
        />
      )}
    </>
  );
}

interface StepsTableProps {
  /** the plan that they are steps from */
  readonly plan: Plan;
  readonly tried: TriedSteps;
  readonly isStale: boolean;
  readonly onTake: (step: TriedStep) => void;
}

const COLUMNS = ["pattern", "exposure", "ratio", "back\u00adground", "head\u00adroom"] as const;

function StepsTable({ plan, tried, isStale, onTake }: StepsTableProps) {
  const things = [...new Set(tried.steps.map(({ of }) => of))];
  return (
    <table class={isStale ? "asks-table stale" : "asks-table"}>
      <caption class="quiet">
        {patternName(tried.before.pattern)} as it is. One step each: the pattern after it, and stops more or
        less.
      </caption>
      <thead>
        <tr>
          <th scope="col">step</th>
          {COLUMNS.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      {things.map((thing) => (
        <tbody key={thing}>
          <tr>
            <th scope="rowgroup" colSpan={COLUMNS.length + 1}>
              {thing}
            </th>
          </tr>
          {tried.steps
            .filter(({ of }) => of === thing)
            .map((step) => (
              <StepRows key={step.does} {...{ plan, tried, step, isStale, onTake }} />
            ))}
        </tbody>
      ))}
    </table>
  );
}

function StepRows({ plan, tried, step, isStale, onTake }: StepsTableProps & { readonly step: TriedStep }) {
  const cells = stepCells(plan, tried, step);
  if (cells === null)
    return (
      <tr>
        <th scope="row" class="quiet">
          {step.does}
        </th>
        <td colSpan={COLUMNS.length} class="quiet why">
          {step.why}
        </td>
      </tr>
    );
  const numbers = [cells.exposure, cells.ratio, cells.background, cells.headroom];
  const { others: more } = cells;
  return (
    <>
      <tr>
        <th scope="row">
          <button type="button" disabled={isStale} onClick={() => onTake(step)}>
            {step.does}
            <span class="visually-hidden">, {step.of}: take</span>
          </button>
        </th>
        <td class={cells.isOther ? "other" : "quiet"}>{cells.pattern}</td>
        {numbers.map((text, i) => (
          <td key={COLUMNS[i + 1]} class={isStill(text) ? "quiet" : undefined}>
            {text}
          </td>
        ))}
      </tr>
      {(more.length > 0 || step.warns.length > 0) && (
        <tr class="more">
          <td colSpan={COLUMNS.length + 1}>
            {step.warns.length > 0 && <span class="alert">warns: {step.warns.join("; ")}</span>}
            {step.warns.length > 0 && more.length > 0 && "; "}
            <span class="quiet">{more.join("; ")}</span>
          </td>
        </tr>
      )}
    </>
  );
}
