/** What no arm reaches is walked off along the floor, heel to toe. */
import { reachOf, soleLength } from "../figure/index.ts";
import type { Person } from "../plan/index.ts";
import { fingersWords, type Way } from "./by-body-arm.ts";
import type { Touch } from "./by-body-target.ts";

/** More of them are not walked while somebody waits, and are off by more than a tape that is held by eye. */
const MOST_SOLES = 8;
/** How far off the point under something that hangs at head height is by eye, metres (common practice, no source). */
const PLUMB_M = 0.03;
/** Any arm is better. */
const WALK_COST = 100;

/** From under it to the mark; null where it is too far, and for somebody who sits: the chair keeps the place. */
export function onFloor({ stature, position, pose }: Person, touch: Touch): Way | null {
  if (pose === "seated") return null;
  const [dx, dy] = [touch.point[0] - position[0], touch.point[1] - position[1]];
  const far = Math.hypot(dx, dy);
  const { length, spread } = soleLength(stature);
  const { finger } = reachOf(stature);
  const soles = Math.round(far / length);
  if (soles < 1 || soles > MOST_SOLES) return null;
  const fingers = Math.round((far - soles * length) / finger);
  const rest =
    fingers === 0 ? "" : fingers > 0 ? ` and ${fingersWords(fingers)}` : ` less ${fingersWords(-fingers)}`;
  return {
    words: `${soles} ${soles === 1 ? "sole" : "soles"} heel to toe${rest} from under the ${touch.name} to the mark`,
    cost: WALK_COST,
    // the same sole is laid down every time: what it is off by adds up
    spread_m: Math.hypot(soles * spread, PLUMB_M, finger / Math.sqrt(12)),
    toward: [dx / far, dy / far],
  };
}
