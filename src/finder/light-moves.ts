/** The main light: up, and round the head. */
import type { Plan, Vec3 } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { MainLight } from "./main-light.ts";
import { blocked, type Draft, draft, put } from "./move.ts";
import { wallBefore } from "./obstacles.ts";
import { ROUND_DEG, STEPS, stepWords } from "./steps.ts";
import { carriedRound, pictureSide, type Sitter, turnedBearing } from "./turning.ts";

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
  const light = plan.lights[main.index];
  if (light.pinned) return blocked(named, `${light.name} is pinned`);
  const [x, y, z] = light.position;
  const position: Vec3 = [x, y, z + up_m];
  const why = wallBefore(plan, position);
  if (why !== null) return blocked(named, why);
  const label = `${light.name} up ${stepWords(up_m, units)}`;
  return draft(plan, named, put(label, ["lights", main.index], { position }));
}

/** Round the head at the same height and distance. A light that aims at a point goes on aiming at it; another is
 * turned along. */
export function lightRound(plan: Plan, sitter: Sitter, main: MainLight | null): Draft {
  const named = { key: "light-round", cost: "light", does: `light round ${ROUND_DEG}°`, side: null } as const;
  if (main === null) return blocked(named, noLightWords(plan));
  const light = plan.lights[main.index];
  // a larger azimuth, to the own left, lies anticlockwise as seen from above
  const outward = Math.abs(main.azimuth) > HALFWAY_DEG || Math.abs(main.azimuth) < INWARD_FROM_DEG;
  const clockwise_deg = ROUND_DEG * (outward === main.azimuth > 0 ? -1 : 1);
  const position = carriedRound(light.position, sitter.head, clockwise_deg);
  const side = pictureSide(plan, position[0] - light.position[0], position[1] - light.position[1]);
  const way = side === null ? "" : ` ${side}`;
  const placed = { ...named, side, does: `${called(light.name)} round ${ROUND_DEG}°${way}` };
  if (light.pinned) return blocked(placed, `${light.name} is pinned`);
  const why = wallBefore(plan, position);
  if (why !== null) return blocked(placed, why);
  const aim = light.direction;
  const patch =
    "at" in aim
      ? { position }
      : {
          position,
          direction: { bearing: turnedBearing(aim.bearing, clockwise_deg), tilt: aim.tilt },
        };
  const label = `${light.name} round ${ROUND_DEG}°${side === null ? "" : ` to the ${side}`}`;
  return draft(plan, placed, put(label, ["lights", main.index], patch));
}

function noLightWords(plan: Plan): string {
  return plan.lights.some((light) => light.on) ? NONE_REACHES : NO_LIGHT;
}
