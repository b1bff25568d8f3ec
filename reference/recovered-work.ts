/** One brief that is known to have an answer: made anew, searched, and judged. */
import type { HoldZone } from "../src/finder/index.ts";
import type { Plan } from "../src/plan/index.ts";
import { createComputer, findSetUps, type SearchFinder } from "../src/workbench/index.ts";
import { cannotBeBuilt, lookMissed } from "./brief-judge.ts";
import { drawn, read } from "./recovered-briefs.ts";

export interface Outcome {
  /** of the set-up that the brief was made of; null where the draw makes none */
  readonly pattern: string | null;
  /** what that set-up itself lacks, by the same judge: nothing */
  readonly ownLacks: readonly string[];
  /** null where one of the set-ups found meets the brief; else what each lacks */
  readonly lacking: string | null;
}

export async function outcomeOf(draw: number): Promise<Outcome> {
  const made = drawn(draw);
  if (made === null) return { pattern: null, ownLacks: [], lacking: "no draw" };
  const { setUp, asked, reading } = made;
  return {
    pattern: reading.pattern,
    ownLacks: [...lookMissed(setUp, asked, reading), ...cannotBeBuilt(setUp, asked)],
    lacking: await lackingOf(asked),
  };
}

/** Hold zones are no part of it, and take longer than the search. */
function searching(): SearchFinder {
  return { ...createComputer(), hold: async () => null as unknown as HoldZone };
}

async function lackingOf(asked: Plan): Promise<string | null> {
  const answer = await findSetUps(asked, [searching()]);
  const told: string[] = [];
  for (const { plan, kind, isMet } of answer.setUps) {
    const lacks = [...cannotBeBuilt(plan, asked), ...lookMissed(plan, asked, read(plan))];
    if (lacks.length === 0) return null;
    told.push(`${kind} (${isMet ? "told as met" : "told as missed"}): ${lacks.join(", ")}`);
  }
  return told.join("; ") || "nothing found";
}
