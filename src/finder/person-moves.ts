/** The sitter: head, chin, a step back. Somebody who is pinned stays on the mark and may still turn the head. */
import type { FieldPath, Plan, Vec3 } from "../plan/index.ts";
import { bearingVector } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { HALFWAY_DEG } from "./light-moves.ts";
import type { MainLight } from "./main-light.ts";
import { blocked, type Draft, draft, put } from "./move.ts";
import { standingRoom } from "./obstacles.ts";
import { CHIN_DEG, HEAD_DEG, STEPS, stepWords } from "./steps.ts";
import { carriedRound, pictureSide, type Sitter } from "./turning.ts";

/** As far as a head is turned and tipped for a picture (common practice, no source). */
const MOST_TURN_DEG = 80;
const MOST_TIP_DEG = 40;

/** Away from a light that stands within half a right angle of the nose, which closes the face; toward one that stands
 * farther round, which opens it. */
export function headTurn(plan: Plan, sitter: Sitter, main: MainLight | null): Draft {
  const { head } = plan.people[sitter.index];
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
  if (Math.abs(head.turn + turn) > MOST_TURN_DEG) return blocked(named, "the neck turns no further");
  const whither =
    main === null ? "to own left" : `${toward ? "toward" : "away from"} ${plan.lights[main.index].name}`;
  const label = `${sitter.name}'s head turned ${HEAD_DEG}° ${whither}`;
  return draft(plan, named, put(label, ["people", sitter.index, "head"], { turn: head.turn + turn }));
}

/** Up to a light that stands high over the nose, else down. */
export function chin(plan: Plan, sitter: Sitter, main: MainLight | null): Draft {
  const { head } = plan.people[sitter.index];
  const up = main !== null && main.elevation > HALFWAY_DEG;
  const words = `${up ? "up" : "down"} ${CHIN_DEG}°`;
  const named = { key: "chin", cost: "person", does: `chin ${words}`, side: null } as const;
  const tip = head.tip + (up ? CHIN_DEG : -CHIN_DEG);
  if (Math.abs(tip) > MOST_TIP_DEG) return blocked(named, "the neck bends no further");
  const label = `${sitter.name}'s chin ${words}`;
  return draft(plan, named, put(label, ["people", sitter.index, "head"], { tip }));
}

/** Meters this near to a person's middle go with the person, as they do in the hand: metres. */
const HELD_WITHIN_M = 0.5;

/** Backward as the body faces; what measures the face goes along. */
export function stepBack(plan: Plan, sitter: Sitter, units: LengthUnits): Draft {
  const { back_m } = STEPS[units];
  const person = plan.people[sitter.index];
  const named = {
    key: "back",
    cost: "person",
    does: `step back ${stepWords(back_m, units)}`,
    side: null,
  } as const;
  if (person.pinned) return blocked(named, `${person.name} is pinned`);
  const [ahead, aside] = bearingVector(person.facing, 0);
  const [dx, dy] = [-back_m * ahead, -back_m * aside];
  const [x, y] = [person.position[0] + dx, person.position[1] + dy];
  const why = standingRoom(plan, sitter.index, x, y);
  if (why !== null) return blocked(named, why);
  const fields: { path: FieldPath; value: unknown }[] = [
    { path: ["people", sitter.index, "position"], value: [x, y] },
  ];
  plan.meters.forEach(({ position: [mx, my, mz] }, i) => {
    if (Math.hypot(mx - person.position[0], my - person.position[1]) > HELD_WITHIN_M) return;
    fields.push({ path: ["meters", i, "position"], value: [mx + dx, my + dy, mz] });
  });
  return draft(plan, named, {
    kind: "set",
    label: `${person.name} back ${stepWords(back_m, units)}`,
    fields,
  });
}

function noseAhead({ staged }: Sitter): Vec3 {
  const r = staged.headRotation;
  return [r[0], r[3], r[6]];
}
