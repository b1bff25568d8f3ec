import { useMemo, useState } from "preact/hooks";
import { bodyReaches, effectWords } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { spreadWords } from "../sheet/index.ts";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { useReachEffects } from "./reach-effects.ts";

export interface BodyReachProps {
  readonly bench: Bench;
  /** of what is held */
  readonly owner: string;
}

/** How the sitter finds the distance of what is held again with their own body; behind it what that is off by, and what that
 * does to the light, which is worked out when it is first looked at. */
export function BodyReach({ bench, owner }: BodyReachProps) {
  const { plan } = useStore(bench.session);
  const { units } = useStore(bench.view);
  const [isOpen, setOpen] = useState(false);
  const reach = useMemo(
    () => bodyReaches(plan, units).find((each) => each.owner === owner) ?? null,
    [plan, units, owner],
  );
  if (reach === null) return null;
  if (reach.spread_m === 0)
    return (
      <p class="body-reach">
        <span class="quiet">without a tape</span> {reach.text}
      </p>
    );
  const { text, spread_m } = reach;
  return (
    <details class="fold" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <span class="quiet">without a tape</span> <span class="sums">{text}</span>
      </summary>
      <div class="fold-body">
        <p>
          Within {spreadWords(spread_m, units)} for two in three people of that stature.{" "}
          {isOpen && <Effect bench={bench} plan={plan} owner={owner} spread_m={spread_m} />}
        </p>
      </div>
    </details>
  );
}

interface EffectProps extends BodyReachProps {
  readonly plan: Plan;
  readonly spread_m: number;
}

function Effect({ bench, plan, owner, spread_m }: EffectProps) {
  const { units } = useStore(bench.view);
  const { readingOf, readingQuality } = useStore(bench.results.store);
  // what is worked out for everybody comes first
  const isSettled = readingOf === plan && readingQuality === "fine";
  const effects = useReachEffects(bench, plan, isSettled);
  if (effects === null) return <span class="quiet">What that does to the light is being worked out.</span>;
  const effect = effects.find((each) => each.owner === owner);
  return effect === undefined ? null : <>On the face: {effectWords(effect, spread_m, units)}.</>;
}
