import { useEffect, useRef } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { aloneLight, followAlone } from "./alone.ts";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";

/** Above frame and reading, while they are of one light only. */
export function AloneNotice({ bench, plan }: { bench: Bench; plan: Plan }) {
  const view = useStore(bench.view);
  const light = aloneLight(plan, view.alone);
  const names = useRef<readonly string[]>([]);
  useEffect(() => {
    const now = plan.lights.map(({ name }) => name);
    const { alone } = bench.view.get();
    const followed = followAlone(names.current, now, alone);
    if (followed !== alone) bench.view.update({ alone: followed });
    names.current = now;
  }, [bench, plan.lights]);
  if (light === null) return null;
  return (
    <p class="alone-notice">
      <strong>only {light.name} is seen</strong>
      {!light.on && <span>, and it is off</span>}
      <button type="button" onClick={() => bench.view.update({ alone: null })}>
        see all lights
      </button>
    </p>
  );
}
