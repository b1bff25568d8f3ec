import { useEffect } from "preact/hooks";
import type { FrameComparison } from "../testframe/index.ts";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";
import { type Compared, comparisonsOf } from "./shoot-compare.ts";

/** A plan that is dragged changes with every move: compared is what has been still this long. */
const STILL_MS = 300;

/** The frame beside the plan once that has been worked out; null until then, and where nobody is to be compared. */
export function useComparison(
  bench: Bench,
  compared: Compared | null,
): { readonly comparison: FrameComparison | null; readonly failure: string | null } {
  const comparisons = comparisonsOf(bench);
  const { failure } = useStore(comparisons.store);
  const { plan, person, frame, face } = compared ?? {};
  useEffect(() => {
    if (compared === null) return;
    const timer = setTimeout(() => comparisons.ask(compared), STILL_MS);
    return () => clearTimeout(timer);
  }, [comparisons, plan, person, frame, face]);
  return { comparison: compared === null ? null : comparisons.get(compared), failure };
}
