/** Power and direction of light over a level grid, one person taken away. */

import { incidentFNumber, METER_CONSTANT } from "../photometry/index.ts";
import type { Plan } from "../plan/index.ts";
import { formatFStops } from "../units/index.ts";
import { noseBridgeOf } from "./bridge.ts";
import { fieldsAt, type Spot, totalField } from "./field.ts";
import { lightUp, type Quality } from "./lighting.ts";
import type { Memory } from "./memory.ts";
import { type KeepGoing, within } from "./progress.ts";
import type { FieldMap } from "./types.ts";

/** Cells along each side and rays per cell. */
const GRID = { coarse: 24, fine: 60 } as const;
const RAYS = { coarse: 24, fine: 128 } as const;
/** In open space the map covers this much round everything that stands there, metres. */
const MARGIN = 2;
const DEGREE = Math.PI / 180;

/** What a dome turned to where the light comes from would read: 2 x scalar + |vector| / 2. */
export function turnedDome(field: ArrayLike<number>): number {
  return field[0] / 2 + Math.hypot(field[1], field[2], field[3]) / 2;
}

export function computeMap(
  plan: Plan,
  request: { height: number; person: number; quality: Quality },
  memory: Memory,
  keepGoing: KeepGoing = () => true,
): FieldMap {
  const without = plan.people.length > 0 ? request.person : -1;
  const lighting = lightUp(plan, request.quality, memory, without, within(keepGoing, 0, 0.4));
  const box = extentOf(plan);
  const columns = GRID[request.quality];
  const rows = GRID[request.quality];
  const dx = box.width / columns;
  const dy = box.depth / rows;
  const x0 = box.x + dx / 2;
  const y0 = box.y + dy / 2;
  const spots: Spot[] = [];
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++)
      spots.push({ position: [x0 + i * dx, y0 + j * dy, request.height], direction: [0, 0, 1] });
  const named = JSON.stringify([box, columns, rows, request.height]);
  const fields = fieldsAt(
    lighting,
    "map",
    spots,
    RAYS[request.quality],
    lighting.parts,
    named,
    within(keepGoing, 0.4, 1),
  );
  const reference = referenceReading(lighting, plan, request.person);
  const n = columns * rows;
  const map: FieldMap = {
    height: request.height,
    x0,
    y0,
    dx,
    dy,
    columns,
    rows,
    stops: new Float32Array(n),
    luxSeconds: new Float32Array(n),
    bearing: new Float32Array(n),
    tilt: new Float32Array(n),
    vectorScalarRatio: new Float32Array(n),
    referenceFStops: formatFStops(incidentFNumber(reference, plan.camera.iso, METER_CONSTANT.dome)),
  };
  for (let i = 0; i < n; i++) {
    const f = totalField(lighting, fields[i]);
    const length = Math.hypot(f[1], f[2], f[3]);
    map.luxSeconds[i] = turnedDome(f);
    map.stops[i] = Math.log2(map.luxSeconds[i] / reference);
    map.bearing[i] = length > 0 ? (Math.atan2(f[1], f[2]) / DEGREE + 360) % 360 : Number.NaN;
    map.tilt[i] = length > 0 ? Math.asin(Math.max(-1, Math.min(1, f[3] / length))) / DEGREE : Number.NaN;
    map.vectorScalarRatio[i] = f[0] > 0 ? length / (f[0] / 4) : 0;
  }
  return map;
}

/** The same reading at the bridge of the person's nose; without people, the brightest that a meter of the plan sees. */
function referenceReading(lighting: ReturnType<typeof lightUp>, plan: Plan, person: number): number {
  const spot: Spot | null =
    plan.people.length > 0
      ? { position: noseBridgeOf(lighting, person), direction: [0, 0, 1] }
      : plan.meters.length > 0
        ? { position: plan.meters[0].position, direction: [0, 0, 1] }
        : null;
  if (!spot) return METER_CONSTANT.dome / plan.camera.iso;
  const [fields] = fieldsAt(lighting, "map reference", [spot], 1024, "meter");
  const reading = turnedDome(totalField(lighting, fields));
  return reading > 0 ? reading : METER_CONSTANT.dome / plan.camera.iso;
}

function extentOf(plan: Plan): { x: number; y: number; width: number; depth: number } {
  if (plan.room) return { x: 0, y: 0, width: plan.room.width, depth: plan.room.depth };
  const xs = [plan.camera.position[0]];
  const ys = [plan.camera.position[1]];
  for (const thing of [...plan.lights, ...plan.panels, ...plan.people, ...plan.meters]) {
    xs.push(thing.position[0]);
    ys.push(thing.position[1]);
  }
  const x = Math.min(...xs) - MARGIN;
  const y = Math.min(...ys) - MARGIN;
  return { x, y, width: Math.max(...xs) + MARGIN - x, depth: Math.max(...ys) + MARGIN - y };
}
