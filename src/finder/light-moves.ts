/** The main light: up, and round the head. */
import { carriedRound, type Plan } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { MainLight } from "./main-light.ts";
import { blocked, type Draft, drafted } from "./move.ts";
import { lightRoundBy, lightUpBy } from "./step-light.ts";
import { ROUND_DEG, STEPS, stepWords } from "./steps.ts";
import { pictureSide, type Sitter } from "./turning.ts";

/** Within these angles from the nose the light comes nearer to it, else it goes farther from it: so that it shows the
 * other way than the head's turn does, and never passes the nose. */
const INWARD_FROM_DEG = 15;
export const HALFWAY_DEG = 45;

/** Longer names would fill the caption. */
const SHORT_NAME = 14;
const called = (name: string) => (name.length > SHORT_NAME ? "main light" : name);

const NO_LIGHT = "no light is on";
const NONE_REACHES = "no light that is on reaches the face from the front";

export function lightUp(plan: Plan, main: MainLight | null, units: LengthUnits): Draft {
  const { up_m } = STEPS[units];
  const does = `${main === null ? "light" : called(main.name)} up ${stepWords(up_m, units)}`;
  const named = { key: "light-up", cost: "light", does, side: null } as const;
  if (main === null) return blocked(named, noLightWords(plan));
  return drafted(named, lightUpBy(plan, main.index, up_m, `${main.name} up ${stepWords(up_m, units)}`));
}

export function lightRound(plan: Plan, sitter: Sitter, main: MainLight | null): Draft {
  const named = { key: "light-round", cost: "light", does: `light round ${ROUND_DEG}°`, side: null } as const;
  if (main === null) return blocked(named, noLightWords(plan));
  const light = plan.lights[main.index];
  // a larger azimuth, to the own left, lies anticlockwise as seen from above
  const outward = Math.abs(main.azimuth) > HALFWAY_DEG || Math.abs(main.azimuth) < INWARD_FROM_DEG;
  const clockwise_deg = ROUND_DEG * (outward === main.azimuth > 0 ? -1 : 1);
  const [x, y] = carriedRound(light.position, sitter.head, clockwise_deg);
  const side = pictureSide(plan, x - light.position[0], y - light.position[1]);
  const way = side === null ? "" : ` ${side}`;
  const placed = { ...named, side, does: `${called(light.name)} round ${ROUND_DEG}°${way}` };
  const label = `${light.name} round ${ROUND_DEG}°${side === null ? "" : ` to the ${side}`}`;
  return drafted(placed, lightRoundBy(plan, sitter, main.index, clockwise_deg, label));
}

function noLightWords(plan: Plan): string {
  return plan.lights.some((light) => light.on) ? NONE_REACHES : NO_LIGHT;
}
