/** A light that is too bright at its least: what takes the rest away. */
import type { Light, Plan } from "../plan/index.ts";
import { bodyFor, markedSpeed } from "./can-camera.ts";
import { movedAlong } from "./can-distance.ts";
import { otherHeads } from "./can-heads.ts";
import type { CanAsk, CanWay } from "./can-types.ts";
import { stopsText } from "./words.ts";

/** A tenth of a stop is heard of; less is not. */
const HEARD = 0.05;
/** What a grid takes on its axis (common practice, no source). */
const GRID = { least: 1, most: 2 };

export function waysDarker(plan: Plan, light: Light, by: number, ask: CanAsk): CanWay[] {
  return [
    lensFilter(by),
    ...slowerSensor(plan, by, ask),
    frontFilter(by),
    grid(by),
    ...further(plan, light, by),
    ...otherHeads(plan, light, ask),
  ];
}

function lensFilter(by: number): CanWay {
  const whole = Math.ceil(by - HEARD);
  const rest = whole - by;
  const up = rest > HEARD ? `, and every light ${stopsText(rest)} up` : "";
  return {
    kind: "filter",
    what: `grey filter of ${stopsText(whole)} on the lens, which lets 1/${2 ** whole} through${up}`,
    effect:
      "nothing is moved: direction, softness and the background against the face stay; room light falls by as much; focus before it goes on",
    stops: null,
  };
}

function slowerSensor(plan: Plan, by: number, ask: CanAsk): CanWay[] {
  const body = ask.body ?? bodyFor(plan, ask.shelf);
  const { iso } = plan.camera;
  const gives = body === null ? 0 : Math.log2(iso / body.baseIso);
  if (body === null || gives < HEARD) return [];
  const isEnough = gives >= by - HEARD;
  const to = isEnough ? markedSpeed(iso * 2 ** -by, "at most") : body.baseIso;
  const over = Math.log2(iso / to) - by;
  const rest = over > HEARD ? `, and every light ${stopsText(over)} up` : "";
  return [
    {
      kind: "iso",
      what: `ISO ${to} in place of ${iso}${isEnough ? rest : `: ${gives.toFixed(1)} of ${stopsText(by)}`}`,
      effect: "nothing is moved; all lights and room light fall alike",
      stops: isEnough ? null : gives,
    },
  ];
}

function frontFilter(by: number): CanWay {
  return {
    kind: "filter",
    what: `grey gel of ${stopsText(by)} before this head`,
    effect: "only this light falls; direction and softness stay",
    stops: null,
  };
}

function grid(by: number): CanWay {
  const { least, most } = GRID;
  const isEnough = by <= least;
  return {
    kind: "grid",
    what: `grid on its front: ${least} to ${most}${isEnough ? " stops" : ` of ${stopsText(by)}`} (common practice)`,
    effect: "direction stays; it narrows the beam, so walls and background beside its aim fall more",
    stops: isEnough ? null : Math.min(most, by),
  };
}

function further(plan: Plan, light: Light, by: number): CanWay[] {
  const moved = movedAlong(plan, light, -by);
  if (moved === null || -moved.gives < HEARD) return [];
  const isEnough = -moved.gives >= by - HEARD;
  const from = `from ${moved.from_m.toFixed(2)} m back to ${moved.to_m.toFixed(2)} m on its own line`;
  return [
    {
      kind: "distance",
      what: isEnough
        ? from
        : `${from}, as far as the room lets it: ${(-moved.gives).toFixed(1)} of ${stopsText(by)}`,
      effect: moved.effect,
      stops: isEnough ? null : -moved.gives,
    },
  ];
}
