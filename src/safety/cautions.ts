/** What everybody on set is told. It lists what to do; it never says that anything is in order. */
import type { Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { cautionsHere } from "./cautions-here.ts";
import { overheads, type Standing, underArm } from "./overhead.ts";
import { type Caution, ESTIMATES_ONLY } from "./types.ts";
import { listed } from "./words.ts";

export interface OverheadCaution {
  readonly path: string;
  readonly people: readonly string[];
  readonly text: string;
}

/** All that a plan asks to be said aloud: what is over somebody first, then what follows from its numbers, then what is
 * said every time.
 * Shape   people: the plan's, staged, in its order; the noses of `measurePlaces` are such */
export function cautionsFor(plan: Plan, people: readonly Standing[], units: LengthUnits): Caution[] {
  return [
    ...overheadCautions(plan, people).map((each): Caution => ({ kind: "overhead", ...each })),
    ...cautionsHere(plan, units),
    ...usualCautions(plan).map((text): Caution => ({ kind: "usual", path: null, people: [], text })),
  ];
}

/** Lights and panels that are above somebody, and arms that may reach over them; these come first. */
export function overheadCautions(plan: Plan, people: readonly Standing[]): OverheadCaution[] {
  return overheads(plan, people).flatMap(({ cure, does, held, name, over, path }) => {
    const under = over.map((person) => person.name);
    // nobody is told of twice for one thing
    const near = underArm(plan, held, people).filter((person) => !under.includes(person));
    const isKnown = typeof held.support?.arm?.bearing === "number";
    return [
      ...called(path, under, `${name} ${does} ${listed(under)}: ${cure}.`),
      ...called(
        path,
        near,
        `${name}'s arm ${isKnown ? "reaches" : "can reach"} over ${listed(near)}: ${ARM}.`,
      ),
    ];
  });
}

const ARM = "turn it clear, its counterweight too; bag, tether line, nobody beneath";

function called(path: string, people: readonly string[], text: string): OverheadCaution[] {
  return people.length === 0 ? [] : [{ path, people, text }];
}

export function usualCautions(plan: Plan): string[] {
  const out = [
    "A bag on every stand, on the leg that points under the load, turned so that this leg runs below the arm. Legs full out.",
    "Any arm that reaches over people: counterweight, bag, tether line; nobody beneath while it moves. Mark the arm's end.",
  ];
  if (plan.panels.length > 0) out.push("Panels catch wind and elbows: bag or tie them top and bottom.");
  out.push(
    "Tape every cable across its whole way, or run it round; the slack lies coiled at the stand.",
    "Mains: sum the heads' draw per circuit before switching on; no wet floor, no water near; earthed leads in one piece.",
    "Modelling lamps and heads stay hot: cloth, gel, paper and hands off; let them cool before packing.",
    "Switch off and discharge each head before it is unplugged, opened or its tube is touched.",
    "Flash can harm people with photosensitive epilepsy: ask everyone before the first pop. Nobody looks into a head.",
    ESTIMATES_ONLY,
  );
  return out;
}
