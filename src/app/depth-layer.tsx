import { useMemo } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import { sharpness, viewfinder } from "../reading/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { limitsWords } from "./frame-depth.ts";
import { type Box, nameBox } from "./label-places.ts";
import type { Projection } from "./projection.ts";
import { Unspoken } from "./unspoken.tsx";

interface DepthLayerProps {
  readonly plan: Plan;
  readonly person: number;
  readonly projection: Projection;
  readonly units: LengthUnits;
}

/** Where the distances are written, pixels above the floor. */
const ABOVE_FLOOR_PX = 10;
/** A room that is open behind is drawn this far, metres. */
const FAR_DRAWN_M = 60;

/** The room that the words at the foot of the Side take, pixels; null where nothing is said. */
export function depthNoteBox({ plan, person, projection, units }: DepthLayerProps): Box | null {
  const found = sharpness(plan, person);
  if (found === null) return null;
  const { position, forward, up, tanY } = viewfinder(plan.camera, 1);
  const low = (position[1] as number) + found.near_m * ((forward[1] as number) - tanY * (up[1] as number));
  const middle = projection.toScreen((position[1] + low) / 2, 0);
  const words = nameBox({ owner: "", text: limitsWords(found, units), anchor: "middle", ...middle });
  return { ...words, y0: middle.y - ABOVE_FLOOR_PX - 22, y1: middle.y - 2 };
}

/** On the Side: from where to where the picture is sharp, across the field of view, focused on the nearer eye. */
export function DepthLayer({ plan, person, projection, units }: DepthLayerProps) {
  const found = useMemo(() => sharpness(plan, person), [plan, person]);
  if (found === null) return null;
  const { position, forward, up, tanY } = viewfinder(plan.camera, 1);
  /** where a plane across the axis meets the upper (1) or lower (-1) edge of the field, above the axis's own course */
  const at = (depth_m: number, side: 1 | -1) => {
    const point = (k: 1 | 2) =>
      (position[k] as number) + depth_m * ((forward[k] as number) + side * tanY * (up[k] as number));
    return projection.toScreen(point(1), point(2));
  };
  const line = (depth_m: number) => {
    const [a, b] = [at(depth_m, 1), at(depth_m, -1)];
    return `M${a.x},${a.y}L${b.x},${b.y}`;
  };
  const far_m = Math.min(found.far_m, FAR_DRAWN_M);
  const floor = projection.toScreen(0, 0).y;
  const dimension = floor - ABOVE_FLOOR_PX;
  const camera = projection.toScreen(position[1], position[2]);
  const [a, b, c, d] = [at(found.near_m, 1), at(far_m, 1), at(far_m, -1), at(found.near_m, -1)];
  const middle = (camera.x + d.x) / 2;
  // to the floor, where a tape is laid; not upward where the field reaches under it
  const drops = (found.far_m === Infinity ? [d] : [d, c]).filter(({ y }) => y < floor);
  return (
    <Unspoken class="depth-layer">
      <path class="sharp" d={`M${a.x},${a.y}L${b.x},${b.y}L${c.x},${c.y}L${d.x},${d.y}Z`} />
      <path class="limit" d={line(found.near_m)} />
      {found.far_m !== Infinity && <path class="limit" d={line(found.far_m)} />}
      <path class="focus" d={line(found.focus_m)} />
      <path class="drop" d={drops.map(({ x, y }) => `M${x},${y}V${floor}`).join("")} />
      <path class="drop" d={`M${camera.x},${camera.y}V${floor}M${camera.x},${dimension}H${d.x}`} />
      <text x={middle} y={dimension - 8}>
        sharp
      </text>
      <text x={middle} y={dimension + 4}>
        {limitsWords(found, units)}
      </text>
    </Unspoken>
  );
}
