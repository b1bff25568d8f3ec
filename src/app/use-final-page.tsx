import { useEffect, useMemo, useRef } from "preact/hooks";
import { type FinalUse, finalUse, useFacts } from "../deliver/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { chosenPerson } from "./layer-height.ts";
import { PageHead, UndoPlan } from "./page-head.tsx";
import { UseForm } from "./use-final-form.tsx";
import { TrueSize } from "./use-final-size.tsx";
import { Told } from "./use-final-told.tsx";

/** Whether the picture is good enough for what it is for: what is asked, what there is, and how it will look from there. */
export function UsePage({ bench }: { readonly bench: Bench }) {
  const { plan } = useStore(bench.session);
  const view = useStore(bench.view);
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => title.current?.focus(), []);
  const person = chosenPerson(plan, view);
  const use = useMemo(() => finalUse(plan, person), [plan, person]);
  useSpoken(bench, use, view.units);
  return (
    <main class="use-final">
      <PageHead bench={bench} heading="Final use" title={title} about={plan.title}>
        <UndoPlan bench={bench} />
      </PageHead>
      <section class="use-asked" aria-labelledby="use-asked-title">
        <h2 id="use-asked-title">What it is for</h2>
        <UseForm bench={bench} plan={plan} person={person} use={use} />
      </section>
      {use === null ? (
        <p class="quiet use-none">
          Say what the picture is for: choose a use, or give its finished width. Then it is told how many
          pixels an inch that is, what the eye sees of them, and how wide focus and motion draw a point.
        </p>
      ) : (
        <>
          <Told use={use} units={view.units} />
          <TrueSize bench={bench} plan={plan} use={use} units={view.units} />
        </>
      )}
    </main>
  );
}

/** After a change, in short what has come of it. */
function useSpoken(bench: Bench, use: FinalUse | null, units: LengthUnits): void {
  const before = useRef(use);
  useEffect(() => {
    if (before.current === use) return;
    before.current = use;
    const facts = use === null ? [] : useFacts(use, units);
    bench.say.set(facts.map(({ strong, term }) => `${term}: ${strong}`).join("; "));
  }, [bench, use, units]);
}
