import { useEffect, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { Computer, FramePicture } from "../workbench/index.ts";

/** Pictures that are there already: somebody who comes back to the page sees them at once. */
const taken = new WeakMap<Plan, { readonly width: number; readonly picture: FramePicture }>();

/** The picture of a plan that is not on the table; null until it is there. Work for a page that is left is stopped. */
export function useFrameOf(computer: Computer, plan: Plan, width_px: number): FramePicture | null {
  const [, setTaken] = useState(0);
  useEffect(() => {
    if (width_px <= 0 || taken.get(plan)?.width === width_px) return;
    const control = new AbortController();
    computer
      .frame(plan, { width: width_px, quality: "coarse" }, { signal: control.signal })
      .then((picture) => {
        taken.set(plan, { width: width_px, picture });
        setTaken((count) => count + 1);
      })
      .catch(() => {
        // stopped, or a worker that died: the words beside it stand without it
      });
    return () => control.abort();
  }, [computer, plan, width_px]);
  return taken.get(plan)?.picture ?? null;
}
