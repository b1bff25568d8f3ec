import type { Plan } from "../plan/index.ts";

/** The plan whose light is shown: as it stands, or with one light's share by itself. The document stays as it is; a
 * light that is off stays off, so that "alone" never shows light that nobody would get. */
export function shownPlan(plan: Plan, alone: string | null): Plan {
  const index = Number(/^lights\[(\d+)\]$/.exec(alone ?? "")?.[1] ?? -1);
  if (plan.lights[index] === undefined) return plan;
  return {
    ...plan,
    ambient: { ...plan.ambient, lux: 0 },
    lights: plan.lights.map((light, i) => (i === index ? light : { ...light, on: false })),
  };
}
