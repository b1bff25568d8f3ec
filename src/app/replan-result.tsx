import { useEffect, useRef } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { KeptNumber, PlanChange, Replanned, ReplanWay } from "../shoots/index.ts";
import { lengthsIn } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { TwoFloors } from "./compare-floors.tsx";
import { ChangeList } from "./compare-plans.tsx";
import { useStore } from "./hooks.ts";

interface ResultProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly title: string;
  readonly done: Replanned;
  readonly onTake: (plan: Plan, changes: readonly PlanChange[]) => void;
}

const WAY_WORDS: Readonly<Record<ReplanWay, string>> = {
  "as it was": "Nothing has to change",
  "moved over": "The set-up is moved over",
  found: "A set-up was found",
};

/** What came of it: kept and lost by number, why it changed, and all that changed. */
export function ReplanResult({ bench, plan, title, done, onTake }: ResultProps) {
  const { units } = useStore(bench.view);
  const heading = useRef<HTMLHeadingElement>(null);
  const { changes, kept, lost, reasons, way } = done;
  const words = `${WAY_WORDS[way]}${lost.length === 0 ? ", and the look is kept" : ""}`;
  useEffect(() => {
    bench.say.set(`${words}.`);
    heading.current?.focus();
  }, [done]);
  return (
    <section class="replanned" aria-labelledby="replanned-title">
      <h2 id="replanned-title" ref={heading} tabIndex={-1}>
        {words}
      </h2>
      <p>
        <button type="button" class="begin" onClick={() => onTake(done.plan, changes)}>
          open as a new plan
        </button>
      </p>
      <div class="replan-told">
        <KeptTable kept={kept} />
        <div>
          {lost.length > 0 && <Told heading="Could not be kept" lines={lost} alert />}
          {reasons.length > 0 && (
            <Told heading="Why it changed" lines={reasons.map((line) => lengthsIn(line, units))} />
          )}
        </div>
      </div>
      <TwoFloors before={{ name: title, plan }} after={{ name: done.plan.title, plan: done.plan }} />
      <ChangeList changes={changes} />
    </section>
  );
}

function Told(props: {
  readonly heading: string;
  readonly lines: readonly string[];
  readonly alert?: boolean;
}) {
  return (
    <>
      <h3>{props.heading}</h3>
      <ul class={props.alert ? "told alert" : "told"}>
        {props.lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}

function KeptTable({ kept }: { readonly kept: readonly KeptNumber[] }) {
  return (
    <table class="kept">
      <caption class="visually-hidden">What is kept of the look</caption>
      <thead class="quiet">
        <tr>
          <td />
          <th scope="col">before</th>
          <th scope="col">now</th>
          <th scope="col">
            <span class="visually-hidden">kept</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {kept.map(({ after, before, isKept, what }) => (
          <tr key={what} class={isKept ? undefined : "alert"}>
            <th scope="row">{what}</th>
            <td>{before}</td>
            <td>{after}</td>
            <td>{isKept ? "kept" : "other"}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
