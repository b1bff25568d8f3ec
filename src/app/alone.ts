import type { Light, Plan } from "../plan/index.ts";

const OWNER = /^lights\[(\d+)\]$/;

/** The light that is seen by itself; null where all are. */
export function aloneLight(plan: Plan, alone: string | null): Light | null {
  const index = OWNER.exec(alone ?? "")?.[1];
  return index === undefined ? null : (plan.lights[Number(index)] ?? null);
}

/** Whose share is seen after the lights changed: a light is followed by its name when others come and go, and by its
 * place when it is renamed; all are seen once it is gone. */
export function followAlone(
  before: readonly string[],
  after: readonly string[],
  alone: string | null,
): string | null {
  const index = Number(OWNER.exec(alone ?? "")?.[1] ?? -1);
  const name = before[index];
  if (name === undefined || after[index] === name) return after[index] === undefined ? null : alone;
  const now = after.indexOf(name);
  if (now >= 0) return `lights[${now}]`;
  return after.length === before.length ? alone : null;
}
