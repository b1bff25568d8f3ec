/** What distances found by the body do to the light: worked out once for a plan, by whoever first wants to see it. */
import { useEffect, useState } from "preact/hooks";
import type { ReachEffect } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";

const known = new WeakMap<Plan, readonly ReachEffect[]>();

/** Null until it is known, and where it cannot be worked out: the distances stand without it. */
export function useReachEffects(bench: Bench, plan: Plan, isWanted: boolean): readonly ReachEffect[] | null {
  const [, setAsked] = useState(0);
  useEffect(() => {
    if (!isWanted || known.has(plan)) return;
    const stop = new AbortController();
    bench.trials.reach(plan, { signal: stop.signal }).then(
      (effects) => {
        known.set(plan, effects);
        if (!stop.signal.aborted) setAsked((n) => n + 1);
      },
      () => undefined,
    );
    return () => stop.abort();
  }, [bench, plan, isWanted]);
  return known.get(plan) ?? null;
}
