/** What is wrong with a plan, as tests read it. */
import { checkPlan, parsePlan } from "../index.ts";

export const HEAD = '"format": "tapemark/plan", "version": 1';

type Told = ReturnType<typeof parsePlan>;
const lines = (result: Told) =>
  result.ok ? "" : result.problems.map(({ path, what }) => `${path}: ${what}`).join("\n");

/** All problems of a text, one a line. */
export function told(text: string): string {
  return lines(parsePlan(text));
}

/** Breaks a sound document and tells what is wrong with it then. */
// biome-ignore lint/suspicious/noExplicitAny: the point is to break the document in ways its type forbids
export function breaking(text: string): (change: (plan: any) => void) => string {
  return (change) => {
    const raw = JSON.parse(text);
    change(raw);
    return lines(checkPlan(raw));
  };
}
