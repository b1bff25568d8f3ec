import { useEffect } from "preact/hooks";
import type { Bench } from "./bench.ts";
import { openGuide } from "./guide-places.ts";

export function GuideLink({ bench }: { bench: Bench }) {
  return (
    <button type="button" onClick={() => openGuide(bench)}>
      guide
    </button>
  );
}

/** F1, as in most programs, wherever one is. */
export function useGuideKey(bench: Bench): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== "F1") return;
      event.preventDefault();
      openGuide(bench);
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [bench]);
}
