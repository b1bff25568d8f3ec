import type { Plan } from "../plan/index.ts";
import type { Bench } from "./bench.ts";
import { useStore } from "./hooks.ts";

/** The light that is seen by itself; null where all are. */
export function aloneLight(plan: Plan, alone: string | null): Plan["lights"][number] | null {
  const index = /^lights\[(\d+)\]$/.exec(alone ?? "")?.[1];
  return index === undefined ? null : (plan.lights[Number(index)] ?? null);
}

/** Above frame and reading, while they are of one light only. */
export function AloneNotice({ bench, plan }: { bench: Bench; plan: Plan }) {
  const view = useStore(bench.view);
  const light = aloneLight(plan, view.alone);
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
