/** The sitter: head, chin, a step back. */
import { carriedRound, type Plan, type Vec3 } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { HALFWAY_DEG } from "./light-moves.ts";
import type { MainLight } from "./main-light.ts";
import { type Draft, drafted } from "./move.ts";
import { headBy, steppedBy } from "./step-person.ts";
import { CHIN_DEG, HEAD_DEG, STEPS, stepWords } from "./steps.ts";
import { pictureSide, type Sitter } from "./turning.ts";

/** Away from a light that stands within half a right angle of the nose, which closes the face; toward one that stands
 * farther round, which opens it. */
export function headTurn(plan: Plan, sitter: Sitter, main: MainLight | null): Draft {
  const toward = main !== null && Math.abs(main.azimuth) > HALFWAY_DEG;
  // + is to the own left, and so is a positive azimuth
  const lightIsLeft = main === null || main.azimuth > 0;
  const turn = HEAD_DEG * (lightIsLeft === (toward || main === null) ? 1 : -1);
  const ahead = noseAhead(sitter);
  const after = carriedRound(ahead, [0, 0, 0], -turn);
  const way = main === null ? "own left" : toward ? "toward light" : "away";
  const named = {
    key: "head",
    cost: "person",
    does: `head turns ${HEAD_DEG}° ${way}`,
    side: pictureSide(plan, after[0] - ahead[0], after[1] - ahead[1]),
  } as const;
  const whither =
    main === null ? "to own left" : `${toward ? "toward" : "away from"} ${plan.lights[main.index].name}`;
  const label = `${sitter.name}'s head turned ${HEAD_DEG}° ${whither}`;
  return drafted(named, headBy(plan, sitter.index, "turn", turn, label));
}

/** Up to a light that stands high over the nose, else down. */
export function chin(plan: Plan, sitter: Sitter, main: MainLight | null): Draft {
  const up = main !== null && main.elevation > HALFWAY_DEG;
  const words = `${up ? "up" : "down"} ${CHIN_DEG}°`;
  const named = { key: "chin", cost: "person", does: `chin ${words}`, side: null } as const;
  const label = `${sitter.name}'s chin ${words}`;
  return drafted(named, headBy(plan, sitter.index, "tip", up ? CHIN_DEG : -CHIN_DEG, label));
}

/** Backward as the body faces. */
export function stepBack(plan: Plan, sitter: Sitter, units: LengthUnits): Draft {
  const { back_m } = STEPS[units];
  const words = stepWords(back_m, units);
  const named = { key: "back", cost: "person", does: `step back ${words}`, side: null } as const;
  const by = { ahead_m: -back_m, left_m: 0 };
  return drafted(named, steppedBy(plan, sitter.index, by, `${sitter.name} back ${words}`));
}

function noseAhead({ staged }: Sitter): Vec3 {
  const r = staged.headRotation;
  return [r[0], r[3], r[6]];
}
