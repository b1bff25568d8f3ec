/** A light that is too weak at full: where the rest can come from. */
import type { Light, Plan } from "../plan/index.ts";
import { formatFStops } from "../units/index.ts";
import { lensFor, markedSpeed, sharpWords } from "./can-camera.ts";
import { movedAlong } from "./can-distance.ts";
import { otherHeads } from "./can-heads.ts";
import type { CanAsk, CanWay } from "./can-types.ts";
import { stopsText } from "./words.ts";

const HEARD = 0.05;
/** Lenses do not open further (common practice, no source). */
const WIDEST = 1;

export function waysBrighter(plan: Plan, light: Light, by: number, ask: CanAsk): CanWay[] {
  return [
    fasterSensor(plan, by),
    ...wider(plan, by, ask),
    ...nearer(plan, light, by),
    ...otherHeads(plan, light, ask),
  ];
}

function fasterSensor({ camera: { iso } }: Plan, by: number): CanWay {
  const to = markedSpeed(iso * 2 ** by, "at least");
  const over = Math.log2(to / iso) - by;
  const down = over > HEARD ? `, and this head ${stopsText(over)} down` : "";
  return {
    kind: "iso",
    what: `ISO ${to} in place of ${iso}${down}`,
    effect: "nothing is moved; the other lights and room light come up by as much, and noise grows",
    stops: null,
  };
}

function wider(plan: Plan, by: number, { shelf }: CanAsk): CanWay[] {
  const { camera } = plan;
  const lens = lensFor(plan, shelf);
  const gives = Math.min(by, 2 * Math.log2(camera.fNumber / (lens?.widest ?? WIDEST)));
  if (gives < HEARD) return [];
  const isEnough = gives >= by - HEARD;
  const to = camera.fNumber * 2 ** (-gives / 2);
  const limit = isEnough
    ? ""
    : `, the widest of ${lens?.name ?? "any lens"}: ${gives.toFixed(1)} of ${stopsText(by)}`;
  return [
    {
      kind: "aperture",
      what: `${formatFStops(to)} in place of ${formatFStops(camera.fNumber)}${limit}`,
      effect: `nothing is moved; the other lights and room light come up by as much${sharpWords(plan, camera.fNumber)}${sharpWords(plan, to)}`,
      stops: isEnough ? null : gives,
    },
  ];
}

function nearer(plan: Plan, light: Light, by: number): CanWay[] {
  const moved = movedAlong(plan, light, by);
  if (moved === null || moved.gives < HEARD) return [];
  const isEnough = moved.gives >= by - HEARD;
  const from = `from ${moved.from_m.toFixed(2)} m in to ${moved.to_m.toFixed(2)} m on its own line`;
  return [
    {
      kind: "distance",
      what: isEnough
        ? from
        : `${from}, as near as a front goes: ${moved.gives.toFixed(1)} of ${stopsText(by)}`,
      effect: `${moved.effect}; see that it stays out of the picture`,
      stops: isEnough ? null : moved.gives,
    },
  ];
}
