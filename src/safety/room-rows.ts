/** Air between what stands high and what hangs from the ceiling. */
import { directionOf, frontTop, type Light, type Plan, panelFront } from "../plan/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import type { SafetyRow, SafetySum } from "./types.ts";
import { listed } from "./words.ts";

/** Air kept over a front, its tilt counted, metres: what a search keeps (common practice, no source). */
export const CEILING_AIR_M = 0.05;
/** Clear height under a sprinkler's plate, over the whole room, metres.
 * Source  29 CFR 1910.159(c)(10): 18 in (45.7 cm) between sprinklers and material below; a level plane through the whole
 *         room by OSHA's letter of 29 September 2008. Written for what is stored: elsewhere other rules hold */
export const UNDER_SPRINKLERS_M = 0.4572;

/** Half a millimetre is nothing that a tape can tell. */
export function isShort(air_m: number, kept_m: number): boolean {
  return air_m < kept_m - 5e-4;
}

export interface High {
  readonly owner: string;
  readonly name: string;
  /** highest point of front or panel, tilt and roll counted */
  readonly top_m: number;
}

export function highest({ lights, panels }: Plan): High[] {
  return [
    ...lights.map((light, i) => ({ owner: `lights[${i}]`, name: light.name, top_m: frontTop(light) })),
    ...panels.map((panel, i) => ({
      owner: `panels[${i}]`,
      name: panel.name,
      top_m: frontTop(panelFront(panel)),
    })),
  ];
}

/** What has less air over it than is kept; nothing where no ceiling is given. */
export function atCeiling(plan: Plan): (High & { readonly air_m: number })[] {
  const { room } = plan;
  if (room === null) return [];
  return highest(plan)
    .map((one) => ({ ...one, air_m: room.height - one.top_m }))
    .filter(({ air_m }) => isShort(air_m, CEILING_AIR_M));
}

export const CEILING_CURE = "lower it, tilt it, or take a smaller one";

export function roomRows(plan: Plan, units: LengthUnits): SafetyRow[] {
  const all = highest(plan);
  if (all.length === 0) return [];
  const { room } = plan;
  if (room === null) {
    const about = "No ceiling is given: no clearance can be told.";
    return [{ kind: "room", owner: null, heading: "Ceiling", about, sums: [], asks: [LOOK_UP] }];
  }
  const plates_m = room.sprinklers === null ? null : room.height - room.sprinklers.below;
  const behind = plan.lights.flatMap((light) => behindWords(light, room.height, units));
  return [
    {
      kind: "room",
      owner: "room",
      heading: plates_m === null ? "Ceiling" : "Ceiling and sprinklers",
      about: [
        `Highest points of fronts and panels, tilt and roll counted, under a ceiling of ${formatLength(room.height, units)}.`,
        "Heads, brackets and arms are not in the plan and may stand higher.",
        ...(behind.length === 0 ? [] : [`Straight behind its front, ${listed(behind)}.`]),
      ].join(" "),
      sums: all.flatMap((one) => [
        ceilingSum(one, room.height, units),
        ...(plates_m === null ? [] : [sprinklerSum(one, plates_m, units)]),
      ]),
      asks: plates_m === null ? [LOOK_UP] : [],
    },
  ];
}

const LOOK_UP = "look up before anything is raised: sprinklers, detectors, lamps, beams, fans";

export function ceilingSum({ name, top_m }: High, height_m: number, units: LengthUnits): SafetySum {
  return {
    what: name,
    left: `top at ${formatLength(top_m, units)}`,
    right: `ceiling ${formatLength(height_m, units)}`,
    word: ceilingWord(height_m - top_m, units),
    isOver: isShort(height_m - top_m, CEILING_AIR_M),
  };
}

export function ceilingWord(air_m: number, units: LengthUnits): string {
  const length = formatLength(Math.abs(air_m), units);
  if (air_m < 0) return `${length} too high: it touches`;
  if (isShort(air_m, CEILING_AIR_M))
    return `${length} of air, less than the ${formatLength(CEILING_AIR_M, units)} that is kept`;
  return `${length} of air`;
}

export function sprinklerSum({ name, top_m }: High, plates_m: number, units: LengthUnits): SafetySum {
  return {
    what: `${name}, sprinklers`,
    left: `top at ${formatLength(top_m, units)}`,
    right: `plates at ${formatLength(plates_m, units)}`,
    word: sprinklerWord(plates_m - top_m, units),
    isOver: isShort(plates_m - top_m, UNDER_SPRINKLERS_M),
  };
}

export function sprinklerWord(under_m: number, units: LengthUnits): string {
  const length = formatLength(Math.abs(under_m), units);
  const asked = formatLength(UNDER_SPRINKLERS_M, units);
  if (under_m < 0) return `${length} above the plates: it stands in the spray`;
  if (isShort(under_m, UNDER_SPRINKLERS_M))
    return `${length} under the plates, less than the ${asked} often asked`;
  return `${length} under the plates; ${asked} is often asked`;
}

/** How deep a head may be before its back touches: only where a front points down does it stand higher than its rim. */
function behindWords(light: Light, height_m: number, units: LengthUnits): string[] {
  const { tilt_deg } = directionOf(light.direction, light.position);
  const rise = -Math.sin((tilt_deg * Math.PI) / 180);
  const deep_m = (height_m - light.position[2]) / rise;
  if (!(rise > 0) || !(deep_m > 0) || deep_m > DEEPEST_M) return [];
  return [`${light.name} touches ${formatLength(deep_m, units)} back`];
}

/** Front and head together are hardly ever deeper (common practice, no source), metres. */
const DEEPEST_M = 1;
