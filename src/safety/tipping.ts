/** Weights on a stand: what turns it over and what holds it, about the line between two feet. */
import type { Support } from "../plan/index.ts";
import { GRAVITY } from "../units/index.ts";

/** Which way it would go over. */
export type Way = "load" | "counterweight";

/** What has come off, or was never hung. */
export interface Off {
  readonly load?: boolean;
  readonly bag?: boolean;
  readonly counterweight?: boolean;
  /** the leg that stood under the load: the arm was swung and lies between two legs */
  readonly leg?: boolean;
}

export interface Moments {
  readonly turning_Nm: number;
  readonly holding_Nm: number;
}

/** From the column to the line between two neighbouring feet: the nearest that a stand can tip about.
 * Units   m
 * Source  published-checks section 14: R cos(180° / n)
 * @example 0.55 m, 3 legs -> 0.275 */
export function tippingLine(footRadius_m: number, legs: number): number {
  return footRadius_m * Math.cos(Math.PI / legs);
}

/** Every weight as [kg, m from the column towards the load]. A bag and the stand's own weight are taken at the column. */
function weights(support: Support, off: Off): (readonly [kg: number, at_m: number])[] {
  const { arm, bag, load, mass } = support;
  const standing: [number, number] = [mass + (off.bag ? 0 : bag), 0];
  const hung: [number, number] = [off.load ? 0 : load, arm?.reach ?? 0];
  if (arm === null) return [standing, hung];
  return [
    standing,
    hung,
    [arm.mass, (arm.reach - arm.counterReach) / 2],
    [off.counterweight ? 0 : arm.counterweight, -arm.counterReach],
  ];
}

/** The line it would tip about. A leg under the load carries the line out to its tip; the other way the sums take the
 * worst way to stand, which is the true one for three and five legs. */
function lineOf({ footRadius, legs, legUnderLoad }: Support, way: Way, off: Off): number {
  return way === "load" && legUnderLoad && !off.leg ? footRadius : tippingLine(footRadius, legs);
}

/** What turns a stand over one way, and what holds it.
 * Units    kg, m -> N·m about the line between two feet (or the tip of the leg under the load)
 * Domain   level arm, stand upright, floor level; bag at the column; arm's own weight spread evenly over its length
 * Accuracy section 14's worked stand to six figures; reference/section14-safety.checks.ts [SF1]
 * Source   published-checks section 14 */
export function momentsOf(support: Support, way: Way, off: Off = {}): Moments {
  const line = lineOf(support, way, off);
  const sign = way === "load" ? 1 : -1;
  let [turning_Nm, holding_Nm] = [0, 0];
  for (const [kg, at] of weights(support, off)) {
    const beyond = sign * at - line;
    if (beyond > 0) turning_Nm += kg * GRAVITY * beyond;
    else holding_Nm -= kg * GRAVITY * beyond;
  }
  return { turning_Nm, holding_Nm };
}

/** The least bag with which neither the load nor, once that is off, the counterweight turns it over; level, with nothing
 * to spare. 0 where none is needed for that. */
export function bagToLevel(support: Support): number {
  const needed = (way: Way, off: Off) => {
    const { turning_Nm, holding_Nm } = momentsOf(support, way, { ...off, bag: true });
    return (turning_Nm - holding_Nm) / (GRAVITY * lineOf(support, way, off));
  };
  return Math.max(0, needed("load", {}), needed("counterweight", { load: true }));
}

/** The counterweight that balances load and arm over the column; null where there is no arm behind it. Not under 0: an arm
 * whose own back outweighs the load asks for none. */
export function counterweightToBalance({ arm, load }: Support): number | null {
  if (arm === null || arm.counterReach === 0) return null;
  const over = load * arm.reach + (arm.mass * (arm.reach - arm.counterReach)) / 2;
  return Math.max(0, over / arm.counterReach);
}

/** The least level push, at a height, that tips it: whichever way is weakest. 0 where it tips by itself.
 * Units   m -> N
 * Domain  feet that do not slide; height above 0
 * Source  published-checks section 14: weight times tipping line over height, the weights' own centre counted
 * @example 7 kg, legs 0.55 m, pushed at 2.4 m -> 7.86575 */
export function sidePush(support: Support, height_m: number, off: Off = {}): number {
  const { footRadius, legs, legUnderLoad } = support;
  let [kg, over] = [0, 0];
  for (const [each, at] of weights(support, off)) {
    kg += each;
    over += each * at;
  }
  if (kg === 0) return 0;
  const centre = over / kg;
  // with a leg under the load the nearest lines run to either side of it
  const towards = legUnderLoad && centre > 0 ? centre * Math.cos(Math.PI / legs) : Math.abs(centre);
  return Math.max(0, (kg * GRAVITY * (tippingLine(footRadius, legs) - towards)) / height_m);
}
