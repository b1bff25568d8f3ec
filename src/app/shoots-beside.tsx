import { useEffect, useRef } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import type { NamedPlan } from "./compare-floors.tsx";
import { ComparePlans } from "./compare-plans.tsx";
import type { KnownRoom } from "./replan-ask.ts";
import { Replan } from "./replan-page.tsx";

export type Beside =
  | { readonly kind: "compare"; readonly before: NamedPlan; readonly after: NamedPlan }
  | { readonly kind: "again"; readonly title: string; readonly plan: Plan };

interface BesideProps {
  readonly bench: Bench;
  readonly beside: Beside;
  /** rooms of the shoot's other plans */
  readonly rooms: readonly KnownRoom[];
  readonly leave: () => void;
  readonly take: (plan: Plan) => void;
}

/** In place of the shoot's parts: two states of its plans, or one planned anew. */
export function BesidePart({ bench, beside, rooms, leave, take }: BesideProps) {
  const back = useRef<HTMLButtonElement>(null);
  useEffect(() => back.current?.focus(), []);
  return (
    <div class="shoots-beside">
      <p>
        <button ref={back} type="button" onClick={leave}>
          back to the shoot
        </button>
      </p>
      {beside.kind === "compare" ? (
        <ComparePlans bench={bench} before={beside.before} after={beside.after} />
      ) : (
        <Replan bench={bench} plan={beside.plan} title={beside.title} rooms={rooms} onTake={take} />
      )}
    </div>
  );
}
