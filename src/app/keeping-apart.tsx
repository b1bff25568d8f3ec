import { useMemo } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { linesApart } from "../shoots/index.ts";
import type { Between } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { count } from "./wording.ts";

/** More would push the two answers out of sight. */
const SHOWN = 3;

interface ApartProps {
  readonly bench: Bench;
  /** on the table of this window */
  readonly plan: Plan;
  readonly between: Between;
}

/** In what this window's plan and the other one differ, first what both changed. */
export function Apart({ bench, plan, between: { base, theirs } }: ApartProps) {
  const { units } = useStore(bench.view);
  const lines = useMemo(() => linesApart(plan, theirs, base, units), [plan, theirs, base, units]);
  const rest = lines.slice(SHOWN);
  return (
    <>
      <Lines lines={lines.slice(0, SHOWN)} />
      {rest.length > 0 && (
        <details>
          <summary>{count(rest.length, "more difference")}</summary>
          <Lines lines={rest} />
        </details>
      )}
    </>
  );
}

function Lines({ lines }: { readonly lines: readonly string[] }) {
  return (
    <ul class="apart-lines">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
