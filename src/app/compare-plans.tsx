import { useMemo } from "preact/hooks";
import {
  type ChangeGroup,
  type ChangePart,
  changeGroups,
  type PlanChange,
  planChanges,
} from "../shoots/index.ts";
import type { Bench } from "./bench.ts";
import { type NamedPlan, TwoFloors } from "./compare-floors.tsx";
import { useStore } from "./hooks.ts";
import { count } from "./wording.ts";

interface CompareProps {
  readonly bench: Bench;
  readonly before: NamedPlan;
  readonly after: NamedPlan;
}

/** Two plans side by side: their floors, and everything in which they differ. */
export function ComparePlans({ bench, before, after }: CompareProps) {
  const { units } = useStore(bench.view);
  const changes = useMemo(
    () => planChanges(before.plan, after.plan, units),
    [before.plan, after.plan, units],
  );
  return (
    <section class="compare" aria-labelledby="compare-title">
      <h2 id="compare-title" tabIndex={-1}>
        {changes.length === 0 ? "The two are the same" : count(changes.length, "change")}
      </h2>
      <TwoFloors before={before} after={after} />
      {changes.length > 0 && <ChangeList changes={changes} />}
    </section>
  );
}

const PART_WORDS: Readonly<Record<ChangePart, string>> = {
  direction: "direction",
  power: "power",
  other: "",
};

/** Thing by thing: before, after, and how it changed; what is direction and what is power told apart. */
export function ChangeList({ changes }: { readonly changes: readonly PlanChange[] }) {
  return (
    <div class="changes">
      <p class="changes-head quiet" aria-hidden="true">
        <span />
        <span>before</span>
        <span>after</span>
        <span>change</span>
      </p>
      {changeGroups(changes).map((group) => (
        <Group key={group.what} group={group} />
      ))}
    </div>
  );
}

function Group({ group: { what, parts } }: { readonly group: ChangeGroup }) {
  return (
    <section class="changes-of">
      <h3>{what}</h3>
      {parts.map(({ part, changes }) => (
        <ul
          key={part}
          class={`of-${part}`}
          aria-label={`${what}${part === "other" ? "" : `, ${PART_WORDS[part]}`}`}
        >
          {changes.map((change) => (
            <Row key={`${change.which} ${change.before} ${change.after}`} change={change} />
          ))}
        </ul>
      ))}
    </section>
  );
}

function Row({ change: { after, before, change, which } }: { readonly change: PlanChange }) {
  return (
    <li>
      <span class="which">{which === "there" ? "" : which}</span>
      <span class="before">
        <span class="visually-hidden">before: </span>
        {before === "" ? "–" : before}
      </span>
      <span class="after">
        <span class="visually-hidden">, after: </span>
        {after === "" ? "–" : after}
      </span>
      <strong>
        <span class="visually-hidden">, </span>
        {change}
      </strong>
    </li>
  );
}
