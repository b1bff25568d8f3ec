import type { Plan } from "../plan/index.ts";

/** The plan whose light is shown: as it stands, or with one light's share by itself. The document stays as it is; a
 * light that is off stays off, so that "alone" never shows light that nobody would get. */
export function shownPlan(plan: Plan, alone: string | null): Plan {
  const index = Number(/^lights\[(\d+)\]$/.exec(alone ?? "")?.[1] ?? -1);
  if (plan.lights[index] === undefined) return plan;
  if (last?.of !== plan || last.index !== index) last = { of: plan, index, shown: aloneIn(plan, index) };
  return last.shown;
}

/** The same light of the same plan is the same object, whoever asks. */
let last: { readonly of: Plan; readonly index: number; readonly shown: Plan } | null = null;

function aloneIn(plan: Plan, index: number): Plan {
  return {
    ...plan,
    ambient: { ...plan.ambient, lux: 0 },
    lights: plan.lights.map((light, i) => (i === index ? light : { ...light, on: false })),
  };
}
