/** Whether lenses are clear of lights, by where everything stands alone: no light is traced. */
import type { Plan } from "../plan/index.ts";
import { lensInWorld } from "../reading/glasses-lens.ts";
import { LensRays } from "../reading/glasses-rays.ts";
import { stage } from "../staging/index.ts";

/** Of these lights, both lenses of a person; a person without glasses is clear. */
export function areGlassesClear(plan: Plan, person: number, lights: readonly number[]): boolean {
  const staged = stage(plan);
  const who = staged.people[person];
  return (who.shape.glasses?.lenses ?? []).every((lens) =>
    new LensRays(staged.tracer, lensInWorld(lens, who), plan.camera.position).isClearOf(lights),
  );
}
