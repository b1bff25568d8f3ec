/** A light by an amount: round the head, up, nearer, aimed elsewhere, more or less power. */
import {
  aimCarriedRound,
  carriedRound,
  type Direction,
  directionOf,
  type Light,
  type Output,
  outsideDial,
  type Plan,
  scaledOutput,
  turnedBearing,
  type Vec3,
} from "../plan/index.ts";
import { frontTouches, wallBefore } from "./obstacles.ts";
import { type Made, made, put, refused } from "./step-made.ts";
import type { Sitter } from "./turning.ts";

/** At the same height and distance. A light that aims at a point goes on aiming at it; another is turned along. */
export function lightRoundBy(
  plan: Plan,
  sitter: Sitter,
  index: number,
  clockwise_deg: number,
  label: string,
): Made {
  const light = plan.lights[index];
  const position = carriedRound(light.position, sitter.head, clockwise_deg);
  const aim = light.direction;
  const patch =
    "at" in aim ? { position } : { position, direction: aimCarriedRound(aim, sitter.head, clockwise_deg) };
  return lightAt(plan, index, patch, label);
}

export function lightUpBy(plan: Plan, index: number, up_m: number, label: string): Made {
  const [x, y, z] = plan.lights[index].position;
  return lightAt(plan, index, { position: [x, y, z + up_m] }, label);
}

/** What faces the head within so much goes toward the head, another along its own aim. */
const FACES_HEAD_DEG = 60;
/** Nearer than this to what it goes toward a light is in the way of everything (common practice, no source). */
const NEAREST_M = 0.3;

/** Along the straight line, so that its light comes from the same direction. */
export function lightNearerBy(
  plan: Plan,
  sitter: Sitter,
  index: number,
  nearer_m: number,
  label: string,
): Made {
  const light = plan.lights[index];
  const { position } = light;
  const [dx, dy, dz] = wayAhead(light, sitter);
  const far = Math.hypot(dx, dy, dz);
  if (far - nearer_m < NEAREST_M) return refused("it is as near as it goes");
  const share = nearer_m / far;
  const to: Vec3 = [position[0] + share * dx, position[1] + share * dy, position[2] + share * dz];
  return lightAt(plan, index, { position: to }, label);
}

/** From a light to what it goes toward when it comes nearer, metres. */
function wayAhead({ position, direction }: Light, { head }: Sitter): Vec3 {
  const minus = (to: Readonly<Vec3>): Vec3 => [to[0] - position[0], to[1] - position[1], to[2] - position[2]];
  const toHead = minus(head);
  const { bearing_deg, tilt_deg } = directionOf(direction, position);
  const [b, t] = [(bearing_deg * Math.PI) / 180, (tilt_deg * Math.PI) / 180];
  const forward: Vec3 = [Math.cos(t) * Math.sin(b), Math.cos(t) * Math.cos(b), Math.sin(t)];
  const far = Math.hypot(...toHead);
  const along = toHead[0] * forward[0] + toHead[1] * forward[1] + toHead[2] * forward[2];
  if (along > far * Math.cos((FACES_HEAD_DEG * Math.PI) / 180)) return toHead;
  return "at" in direction ? minus(direction.at) : [far * forward[0], far * forward[1], far * forward[2]];
}

/** Along the floor of the room, its aim going along. */
export function lightMovedBy(plan: Plan, index: number, dx_m: number, dy_m: number, label: string): Made {
  const { position, direction } = plan.lights[index];
  const moved = ([x, y, z]: Readonly<Vec3>): Vec3 => [x + dx_m, y + dy_m, z];
  const patch =
    "at" in direction
      ? { position: moved(position), direction: { at: moved(direction.at) } }
      : { position: moved(position) };
  return lightAt(plan, index, patch, label);
}

function lightAt(
  plan: Plan,
  index: number,
  patch: Pick<Light, "position"> & Partial<Pick<Light, "direction">>,
  label: string,
): Made {
  const light = plan.lights[index];
  if (light.pinned) return refused(pinnedWords(light));
  const why = wallBefore(plan, patch.position) ?? frontTouches(plan, light, { ...light, ...patch });
  if (why !== null) return refused(why);
  return made(plan, put(label, ["lights", index], patch));
}

/** Turned where it stands: bearing clockwise as seen from above, tilt upward. */
export function lightAimedBy(
  plan: Plan,
  index: number,
  by: { readonly clockwise_deg: number; readonly up_deg: number },
  label: string,
): Made {
  const light = plan.lights[index];
  if (light.pinned) return refused(pinnedWords(light));
  const direction = aimedBy(light, by.clockwise_deg, by.up_deg);
  if (direction === null) return refused("it would tip over");
  return made(plan, put(label, ["lights", index], { direction }));
}

function aimedBy({ position, direction }: Light, clockwise_deg: number, up_deg: number): Direction | null {
  const { bearing_deg, tilt_deg } = directionOf(direction, position);
  const tilt = tilt_deg + up_deg;
  if (Math.abs(tilt) > 90) return null;
  if (!("at" in direction)) return { bearing: turnedBearing(direction.bearing, clockwise_deg), tilt };
  const far = Math.hypot(...direction.at.map((x, k) => x - position[k]));
  const [b, t] = [((bearing_deg + clockwise_deg) * Math.PI) / 180, (tilt * Math.PI) / 180];
  return {
    at: [
      position[0] + far * Math.cos(t) * Math.sin(b),
      position[1] + far * Math.cos(t) * Math.cos(b),
      position[2] + far * Math.sin(t),
    ],
  };
}

/** So many stops more; a dial ends at full power and at its least. A light without a dial has no end that is known. */
export function lightPowerBy(plan: Plan, index: number, stops: number, label: string): Made {
  const { output, dial, name } = plan.lights[index];
  const to = powered(output, stops);
  if (!("stopsDown" in to)) return made(plan, put(label, ["lights", index], { output: to }));
  const outside = outsideDial(to.stopsDown, dial);
  if (outside > 0) return refused(`${name} would be over full power`);
  if (outside < 0) return refused(`${name} would be under its least power`);
  const within = { ...to, stopsDown: Math.max(0, to.stopsDown) };
  return made(plan, put(label, ["lights", index], { output: within }));
}

/** Free of the last digits that adding tenths leaves. */
export function powered(output: Output, stops: number): Output {
  if (!("stopsDown" in output)) return scaledOutput(output, 2 ** stops);
  return { ...output, stopsDown: Number((output.stopsDown - stops).toFixed(6)) };
}

export function lightOn(plan: Plan, index: number, label: string): Made {
  return made(plan, put(label, ["lights", index], { on: true }));
}

function pinnedWords({ name }: { readonly name: string }): string {
  return `${name} is pinned`;
}
