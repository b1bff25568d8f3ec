/** Power and direction of light over a level or an upright grid, one person taken away. */

import { incidentFNumber, METER_CONSTANT } from "../photometry/index.ts";
import type { Plan } from "../plan/index.ts";
import { formatFStops } from "../units/index.ts";
import { noseBridgeOf } from "./bridge.ts";
import { fieldsAt, type Spot, totalField } from "./field.ts";
import { type Lighting, lightUp, type Quality } from "./lighting.ts";
import { FIELD } from "./map-even.ts";
import { lightOver } from "./map-light.ts";
import type { Memory } from "./memory.ts";
import { type KeepGoing, within } from "./progress.ts";
import type { FieldMap, MapRequest } from "./types.ts";

/** Cells of a map: as many as this squared, and as near to square as they go. */
const GRID = { coarse: 24, fine: 60 } as const;
/** In open space the map covers this much round everything that stands there, metres. */
const MARGIN = 2;
const DEGREE = Math.PI / 180;

/** What a dome turned to where the light comes from would read: 2 x scalar + |vector| / 2. */
export function turnedDome(field: ArrayLike<number>): number {
  return field[0] / 2 + Math.hypot(field[1], field[2], field[3]) / 2;
}

export function computeMap(
  plan: Plan,
  request: MapRequest & { quality: Quality },
  memory: Memory,
  keepGoing: KeepGoing = () => true,
): FieldMap {
  const { plane, at, person, quality } = request;
  const without = plan.people.length > 0 ? person : -1;
  const lighting = lightUp(plan, quality, memory, without, within(keepGoing, 0, 0.4));
  const box = extentOf(plan, plane);
  const columns = Math.max(2, Math.round(GRID[quality] * Math.sqrt(box.width / box.height)));
  const rows = Math.max(2, Math.round(GRID[quality] ** 2 / columns));
  const dAcross = box.width / columns;
  const dUp = box.height / rows;
  const across0 = box.across + dAcross / 2;
  const up0 = box.up + dUp / 2;
  const spots: Spot[] = [];
  for (let j = 0; j < rows; j++)
    for (let i = 0; i < columns; i++) {
      const [x, y] = [across0 + i * dAcross, up0 + j * dUp];
      spots.push({ position: plane === "floor" ? [x, y, at] : [at, x, y], direction: [0, 0, 1] });
    }
  const named = JSON.stringify([box, columns, rows, plane, at]);
  const cells = { columns, rows, spots, named, slot: `map ${plane}` };
  const light = lightOver(lighting, cells, within(keepGoing, 0.4, 1));
  const read = referenceReading(lighting, plan, request.reference);
  const reference = read > 0 ? read : METER_CONSTANT.dome / plan.camera.iso;
  const n = columns * rows;
  const map: FieldMap = {
    plane,
    at,
    across0,
    up0,
    dAcross,
    dUp,
    columns,
    rows,
    stops: new Float32Array(n),
    luxSeconds: new Float32Array(n),
    bearing: new Float32Array(n),
    tilt: new Float32Array(n),
    vectorScalarRatio: new Float32Array(n),
    referenceFStops: formatFStops(incidentFNumber(read, plan.camera.iso, METER_CONSTANT.dome)),
  };
  for (let i = 0; i < n; i++) {
    const f = light.subarray(FIELD * i, FIELD * i + FIELD);
    const length = Math.hypot(f[1], f[2], f[3]);
    map.luxSeconds[i] = turnedDome(f);
    map.stops[i] = Math.log2(map.luxSeconds[i] / reference);
    map.bearing[i] = length > 0 ? (Math.atan2(f[1], f[2]) / DEGREE + 360) % 360 : Number.NaN;
    map.tilt[i] = length > 0 ? Math.asin(Math.max(-1, Math.min(1, f[3] / length))) / DEGREE : Number.NaN;
    map.vectorScalarRatio[i] = f[0] > 0 ? length / (f[0] / 4) : 0;
  }
  return map;
}

/** The same reading at the bridge of a person's nose or at a meter's place; 0 where neither is there or no light
 * arrives. Stops are then from what f/1 at the camera's speed stands for. */
function referenceReading(lighting: Lighting, plan: Plan, reference: MapRequest["reference"]): number {
  const { kind, index } = reference;
  const position =
    kind === "meter" ? plan.meters[index]?.position : plan.people[index] && noseBridgeOf(lighting, index);
  if (position === undefined) return 0;
  const [fields] = fieldsAt(lighting, "map reference", [{ position, direction: [0, 0, 1] }], 1024, "meter");
  return turnedDome(totalField(lighting, fields));
}

interface MapBox {
  readonly across: number;
  readonly up: number;
  readonly width: number;
  readonly height: number;
}

/** The room, or in open space what stands there with a margin round it; from the side never below the floor. */
function extentOf(plan: Plan, plane: MapRequest["plane"]): MapBox {
  const side = plane === "side";
  if (plan.room) {
    const { width, depth, height } = plan.room;
    return side ? { across: 0, up: 0, width: depth, height } : { across: 0, up: 0, width, height: depth };
  }
  const things = [plan.camera, ...plan.lights, ...plan.panels, ...plan.people, ...plan.meters];
  const across = things.map(({ position }) => position[side ? 1 : 0]);
  const up = things.map(({ position }) => (side ? (position[2] ?? 0) : position[1]));
  const left = Math.min(...across) - MARGIN;
  const low = side ? 0 : Math.min(...up) - MARGIN;
  return {
    across: left,
    up: low,
    width: Math.max(...across) + MARGIN - left,
    height: Math.max(...up) + MARGIN - low,
  };
}
