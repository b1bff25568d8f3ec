/** What everybody on set is told every time. It lists what to do; it never says that anything is in order. */
import type { Plan } from "../plan/index.ts";
import { type Nose, overPeople } from "./place.ts";

export interface OverheadCaution {
  readonly path: string;
  readonly people: readonly string[];
  readonly text: string;
}

/** Lights that hang over somebody; these come first. */
export function overheadCautions(plan: Plan, noses: readonly Nose[]): OverheadCaution[] {
  return plan.lights.flatMap((light, i) => {
    const under = overPeople(plan, i, noses);
    if (under.length === 0) return [];
    const text =
      `${light.name} hangs over ${listed(under)}: counterweight and bag, a tether line from head to grid or stand, ` +
      "and nobody beneath while it is raised, lowered or swung.";
    return [{ path: `lights[${i}]`, people: under, text }];
  });
}

export function usualCautions(plan: Plan): string[] {
  const out = [
    "A bag on every stand, on the leg that points under the load, turned so that this leg runs below the arm. Legs full out.",
    "Any arm that reaches over people: counterweight, bag, tether line; nobody beneath while it moves. Mark the arm's end.",
  ];
  if (plan.panels.length > 0) out.push("Panels catch wind and elbows: bag or tie them top and bottom.");
  out.push(
    "Tape every cable across its whole way, or run it round; the slack lies coiled at the stand.",
    "Mains: sum the heads' draw per circuit before switching on; no water near; earthed leads in one piece.",
    "Modelling lamps and heads stay hot: cloth, gel, paper and hands off; let them cool before packing.",
    "Switch off and discharge each head before it is unplugged, opened or its tube is touched.",
    "Flash can harm people with photosensitive epilepsy: ask everyone before the first pop. Nobody looks into a head.",
    "Estimates only: local rules and competent people decide.",
  );
  return out;
}

export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;
}
