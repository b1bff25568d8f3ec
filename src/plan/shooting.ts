/** What is taken of a shoot where the plan does not say it. */
import type { Plan } from "./schema.ts";
import { SITTER_M_S } from "./schema-support.ts";

/** How fast what must stay sharp moves, m/s: what the plan says, else what it would say by itself. */
export function subjectSpeed({ shooting }: Plan): number {
  return shooting?.subjectSpeed ?? SITTER_M_S;
}
