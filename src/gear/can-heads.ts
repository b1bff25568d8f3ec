/** Other heads of the shelf in the place of one that cannot do it. */
import { type Face, type Light, outsideDial, type Plan, writePower } from "../plan/index.ts";
import { energyNow } from "./at-face.ts";
import type { CanAsk, CanWay } from "./can-types.ts";
import { fullLumens } from "./enter.ts";
import type { ShelfHead, ShelfModifier } from "./schema.ts";

const MOST_WAYS = 2;

/** Heads whose dial has what is wanted through the front that is on. */
export function otherHeads(plan: Plan, light: Light, { shelf, stopsMore = 0 }: CanAsk): CanWay[] {
  const wanted = energyNow(light, plan) * 2 ** stopsMore;
  const lost = lostOf(light, shelf?.modifiers ?? []);
  const current = headFor(light, shelf?.heads ?? []);
  const able = (shelf?.heads ?? []).flatMap((head) => {
    const down = Math.log2((fullLumens(head.full) * 2 ** -lost) / wanted);
    return head.name !== current?.name && outsideDial(down, head.dial) === 0 ? [{ head, down }] : [];
  });
  return able.slice(0, MOST_WAYS).map(({ head, down }) => ({
    kind: "head",
    what: `${head.name} at ${powerText(head, down)} in its place`,
    effect: "the same front at the same place: direction and softness stay; measure it before it counts",
    stops: null,
  }));
}

function powerText({ dial, full }: ShelfHead, down: number): string {
  return writePower(Math.max(0, down), dial, "wattSeconds" in full ? full.wattSeconds : null);
}

/** Stops of the bare head that the front keeps back: as the shelf has it, or as the plan does. */
function lostOf(light: Light, modifiers: readonly ShelfModifier[]): number {
  const on = modifierFor(light, modifiers);
  if (on !== null) return on.loss.stops;
  const { output } = light;
  return "efficiency" in output && output.efficiency > 0 ? -Math.log2(output.efficiency) : 0;
}

/** The modifier of the shelf that is on a light: by the name that the plan gives it, else by its front. */
export function modifierFor(
  { face, head }: Pick<Light, "face" | "head">,
  modifiers: readonly ShelfModifier[],
): ShelfModifier | null {
  const named = modifiers.find(({ name }) => name === head?.modifier);
  if (named || head?.modifier !== undefined) return named ?? null;
  return modifiers.find((modifier) => isSameFace(modifier.face, face)) ?? null;
}

/** The head of the shelf that a light is: by the name that the plan gives it; else by the light's own, which a search gives it;
 * else the one of its watt-seconds, where there is but one. */
export function headFor(
  { head, name: own, output }: Pick<Light, "head" | "name" | "output">,
  heads: readonly ShelfHead[],
): ShelfHead | null {
  if (head?.name !== undefined) return heads.find(({ name }) => name === head.name) ?? null;
  const searched = heads.find(({ name }) => own === name || own.startsWith(`${name.slice(0, 70)} no. `));
  if (searched || !("wattSeconds" in output)) return searched ?? null;
  const alike = heads.filter(({ full }) => "wattSeconds" in full && full.wattSeconds === output.wattSeconds);
  return alike.length === 1 ? (alike[0] ?? null) : null;
}

/** The same outline within a centimetre. */
export function isSameFace(a: Face, b: Face): boolean {
  const near = (x: number, y: number) => Math.abs(x - y) <= 0.01;
  if (a.shape === "point" || b.shape === "point") return a.shape === b.shape;
  if (!near(a.width, b.width)) return false;
  if (a.shape === "rectangle") return b.shape === "rectangle" && near(a.height, b.height);
  if (a.shape === "polygon") return b.shape === "polygon" && a.sides === b.sides;
  return b.shape === "disc";
}
