import {
  axesOf,
  type Backdrop,
  directionOf,
  faceOutline,
  type Plan,
  panelFront,
  type Vec3,
} from "../plan/index.ts";
import type { FieldMap } from "../reading/index.ts";

/** Where sheets that stop light stand in a map's plane, as stretches on the paper: across, up, across, up each.
 * On either side of one the light is another: no line and no probe reads across it. */
export type Cuts = readonly (readonly [number, number, number, number])[];

type Plane = Pick<FieldMap, "plane" | "at">;

const DEGREE = Math.PI / 180;
const SWEEP_STEPS = 12;

/** Panels, the backdrop and the plates of lights, where the plane goes through them. */
export function cutsOf(plan: Plan, plane: Plane): Cuts {
  const outlines: Vec3[][] = [];
  for (const panel of plan.panels) outlines.push(placed(panel, faceOutline(panelFront(panel).face)));
  for (const light of plan.lights) {
    if (light.face.shape !== "point") outlines.push(placed(light, faceOutline(light.face)));
  }
  if (plan.backdrop !== null) outlines.push(...strips(plan.backdrop));
  return outlines.flatMap((outline) => {
    const cut = cutOf(outline, plane);
    return cut === null ? [] : [cut];
  });
}

type Sheetlike = Pick<Plan["panels"][number], "position" | "direction" | "roll">;

function placed(sheet: Sheetlike, outline: readonly (readonly [number, number])[]): Vec3[] {
  const { bearing_deg, tilt_deg } = directionOf(sheet.direction, sheet.position);
  const { right, up } = axesOf(bearing_deg, tilt_deg, sheet.roll);
  const [x, y, z] = sheet.position;
  return outline.map(([w, h]) => [
    x + w * right[0] + h * up[0],
    y + w * right[1] + h * up[1],
    z + w * right[2] + h * up[2],
  ]);
}

/** The hanging part and the sweep, as level strips one above the other; what lies on the floor cuts no map. */
function strips(backdrop: Backdrop): Vec3[][] {
  const radius = Math.min(backdrop.sweepRadius, backdrop.top);
  const profile: [out: number, up: number][] = [[0, backdrop.top]];
  for (let i = 0; i <= SWEEP_STEPS; i++) {
    const a = (i / SWEEP_STEPS) * (Math.PI / 2);
    profile.push([radius * (1 - Math.cos(a)), radius * (1 - Math.sin(a))]);
  }
  const [sine, cosine] = [Math.sin(backdrop.bearing * DEGREE), Math.cos(backdrop.bearing * DEGREE)];
  const at = (aside: number, [out, up]: readonly [number, number]): Vec3 => [
    backdrop.position[0] + aside * cosine + out * sine,
    backdrop.position[1] - aside * sine + out * cosine,
    up,
  ];
  const half = backdrop.width / 2;
  return profile.slice(1).map((lower, i) => {
    const upper = profile[i] as [number, number];
    return [at(-half, upper), at(half, upper), at(half, lower), at(-half, lower)];
  });
}

/** The stretch of a flat, convex outline that lies in the plane. */
function cutOf(outline: readonly Vec3[], { plane, at }: Plane): [number, number, number, number] | null {
  const [off, across, up] = plane === "floor" ? ([2, 0, 1] as const) : ([0, 1, 2] as const);
  const met: number[] = [];
  outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length] as Vec3;
    const [above, below] = [a[off] - at, b[off] - at];
    if (above < 0 === below < 0) return;
    const t = above / (above - below);
    met.push(a[across] + t * (b[across] - a[across]), a[up] + t * (b[up] - a[up]));
  });
  return met.length === 4 ? (met as [number, number, number, number]) : null;
}

/** Whether a sheet stands between two points of the paper. */
export function isParted(cuts: Cuts, ax: number, ay: number, bx: number, by: number): boolean {
  for (const [cx, cy, dx, dy] of cuts) {
    const side = (px: number, py: number) => (dx - cx) * (py - cy) - (dy - cy) * (px - cx);
    if (side(ax, ay) > 0 === side(bx, by) > 0) continue;
    const end = (px: number, py: number) => (bx - ax) * (py - ay) - (by - ay) * (px - ax);
    if (end(cx, cy) > 0 !== end(dx, dy) > 0) return true;
  }
  return false;
}
