import { useId, useMemo, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { About } from "./ask-follower.ts";
import { AskSteps } from "./ask-steps.tsx";
import { AskWish } from "./ask-wish.tsx";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { useKept } from "./kept.ts";
import { chosenPerson } from "./layer-height.ts";

interface AskPanelProps {
  readonly bench: Bench;
  /** the plan whose light is shown */
  readonly plan: Plan;
}

/** A wish about the light as it stands, and the smallest changes that reach it; every small step and what it changes. */
export function AskPanel({ bench, plan }: AskPanelProps) {
  const view = useStore(bench.view);
  const [kept, keep] = useKept("fold.what to change", "no");
  const title = useId();
  const isOpen = kept === "yes";
  const person = chosenPerson(plan, view);
  const { units } = view;
  const about = useMemo(() => ({ plan, person, units }), [plan, person, units]);
  return (
    <section class="asks" aria-labelledby={title}>
      <details
        open={isOpen}
        onToggle={({ currentTarget: { open } }) => {
          if (open !== isOpen) keep(open ? "yes" : "no");
        }}
      >
        <summary>
          <h2 id={title}>What to change</h2>{" "}
          <span class="quiet">a wish, and the smallest steps that reach it</span>
        </summary>
        {isOpen && <Inside bench={bench} about={about} />}
      </details>
    </section>
  );
}

function Inside({ bench, about }: { readonly bench: Bench; readonly about: About }) {
  const [showsSteps, setShowsSteps] = useState(false);
  if (about.plan.people[about.person] === undefined)
    return <p class="quiet">Nobody stands in this plan yet: there is no face to wish anything for.</p>;
  return (
    <div class="asks-body">
      <AskWish bench={bench} about={about} />
      <details
        class="asks-steps"
        open={showsSteps}
        onToggle={({ currentTarget: { open } }) => setShowsSteps(open)}
      >
        <summary>
          every small step <span class="quiet">one at a time, and what each changes</span>
        </summary>
        {showsSteps && <AskSteps bench={bench} about={about} />}
      </details>
    </div>
  );
}
