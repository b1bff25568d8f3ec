import { BOARD_AWAY_M, type BoardTone, boardAt, panelNearerBy } from "./step-panel.ts";
import { either, FINEST_M, type Ground, type Way } from "./step-way.ts";
import { STEPS, stepWords } from "./steps.ts";

/** A panel in (+) and out. */
export function panelWay({ plan, sitter, units }: Ground, index: number): Way {
  const { name } = plan.panels[index];
  const { in_m } = STEPS[units];
  const does = (a: number) => `${stepWords(Math.abs(a), units)} ${either(a, "nearer", "farther")}`;
  const label = (a: number) => `${name} ${does(a)}`;
  return {
    id: `panels[${index}] nearer`,
    of: name,
    ease: "stand",
    unit: "metres",
    step: in_m,
    finest: FINEST_M[units],
    reach: 4 * in_m,
    does,
    label,
    make: (a) => panelNearerBy(plan, sitter, index, a, label(a)),
  };
}

/** How far out a board begins to be felt, metres: past three times arm's length it hardly is. */
const BOARD_FROM_M = 2.4;

/** A board as an addition, on a side of the face: the amount is how far in it comes from where it is hardly felt. */
export function boardWay({ plan, sitter, units }: Ground, tone: BoardTone, side: "left" | "right"): Way {
  const away = (a: number) => BOARD_FROM_M - a;
  const does = (a: number) => `${tone} panel at own ${side}, ${stepWords(away(a), units)} from the face`;
  return {
    id: `${tone} panel`,
    of: `${tone} panel`,
    ease: "gear",
    unit: "metres",
    step: BOARD_FROM_M - BOARD_AWAY_M,
    finest: FINEST_M[units],
    reach: BOARD_FROM_M,
    does,
    label: does,
    make: (a) => boardAt(plan, sitter, tone, side, away(a), does(a)),
  };
}
