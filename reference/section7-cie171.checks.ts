/** CIE 171:2006, cases that have a closed form: area source, glass, one reflection, one obstruction. The engine's own
 * interreflection (case 5.8) is in section7-interreflection. */
import type { Vec3 } from "../src/math/index.ts";
import { fresnelReflectance, paneTransmittance, polygonFactor } from "../src/photometry/index.ts";
import { type Check, printed, RADIANS } from "./checks.ts";

const CIE = "CIE 171:2006, tables as transcribed in public";
const EXACT = "the same case, derived to six figures";
const TABLE = { tolerance: 0.003, why: "the printed tables carry rounding of up to 0.3 %" } as const;

const right: Vec3 = [0, 1, 0];
const up: Vec3 = [0, 0, 1];
const down: Vec3 = [0, 0, -1];

/** Level rectangle between two corners. */
const level = (x0: number, x1: number, y0: number, y1: number, z: number): Vec3[] => [
  [x0, y0, z],
  [x1, y0, z],
  [x1, y1, z],
  [x0, y1, z],
];
const ceilingPanel = level(1.5, 2.5, 1.5, 2.5, 3);
const wholeFloor = level(0, 4, 0, 4, 0);
const smallFloor = level(1.75, 2.25, 1.75, 2.25, 0);

/** Per cent of what the floor reflects. */
const reflected = (floor: Vec3[], point: Vec3, normal: Vec3) => 100 * polygonFactor(floor, point, normal);

/** Wall y = 4 as seen over a box that stands across the room at y 2.5 to 2.7, 1 m high: only what lies above the higher
 * of the two lines over its edges. */
function overBox(point: Vec3, normal: Vec3): number {
  const [, y, z] = point;
  const from = Math.max(0, ...[2.5, 2.7].map((edge) => z + ((1 - z) * (4 - y)) / (edge - y)));
  if (from >= 3) return 0;
  const seen: Vec3[] = [
    [0, 4, from],
    [4, 4, from],
    [4, 4, 3],
    [0, 4, 3],
  ];
  return 100 * polygonFactor(seen, point, normal);
}

/** height or depth, printed, exact */
const panelOnWall: [number, number, number][] = [
  [2.75, 32.68, 32.6769],
  [2.25, 75.09, 75.1939],
  [1.75, 81.38, 81.3232],
  [1.25, 69.12, 69.0606],
  [0.75, 53.41, 53.4035],
  [0.25, 39.9, 40.0019],
];
const panelOnFloor: [number, number, number][] = [
  [0.25, 61.27, 61.4241],
  [0.75, 79.18, 79.2552],
  [1.25, 95.52, 95.6673],
  [1.75, 105.89, 105.778],
];
const floorOnWall: [number, number, number][] = [
  [0.75, 35.901, 35.9005],
  [1.25, 27.992, 27.9916],
  [1.75, 21.639, 21.6385],
  [2.25, 16.716, 16.7163],
  [2.75, 12.967, 12.9674],
];
const floorOnCeiling: [number, number, number][] = [
  [0.25, 26.8, 26.7952],
  [0.75, 30.94, 30.9387],
  [1.25, 33.98, 33.9757],
  [1.75, 35.57, 35.5666],
];
const smallOnWall = [0.24581, 0.579936, 0.644366, 0.556354, 0.433296, 0.325109];
const smallOnCeiling = [0.491396, 0.63913, 0.777645, 0.86426];
const boxOnWall: [number, number, number][] = [
  [2.75, 16.07, 16.0706],
  [2.25, 16.33, 16.3297],
  [1.75, 15.4, 15.3988],
  [1.25, 13.32, 13.322],
  [0.75, 10.32, 10.3169],
  [0.25, 7.08, 7.07897],
];
const boxOnFloor: [number, number, number][] = [
  [0.25, 3.38, 3.38234],
  [0.75, 3.63, 3.62899],
  [1.25, 3.01, 3.01295],
  [1.75, 0, 0],
  [2.25, 0, 0],
];
/** degrees, reflectance of a face, both faces passed once, pane */
const glass: [number, number, number, number][] = [
  [0, 0.04258, 0.916653, 0.918318],
  [30, 0.0441435, 0.913662, 0.915957],
  [45, 0.0530452, 0.896723, 0.902528],
  [60, 0.0924827, 0.823588, 0.843471],
  [75, 0.256715, 0.552472, 0.614805],
  [80, 0.39095, 0.370942, 0.456044],
];

/** The printed table's row and the exact one. */
function both(id: string, what: string, table: number, exact: number, ours: () => number): Check[] {
  return [
    { ...printed(`${id} printed`, what, CIE, table, ours), ...TABLE },
    printed(`${id} exact`, what, EXACT, exact, ours),
  ];
}

/** Its whole hemisphere times the luminance of 1000 cd/m2. */
const lux = (point: Vec3, normal: Vec3) => Math.PI * 1000 * polygonFactor(ceilingPanel, point, normal);

export const checks: Check[] = [
  ...panelOnWall.flatMap(([z, table, exact]) =>
    both(`7 5.3 wall ${z}`, `ceiling panel on a wall at ${z} m, lx`, table, exact, () =>
      lux([2, 0, z], right),
    ),
  ),
  ...panelOnFloor.flatMap(([y, table, exact]) =>
    both(`7 5.3 floor ${y}`, `ceiling panel on the floor at ${y} m, lx`, table, exact, () =>
      lux([2, y, 0], up),
    ),
  ),
  ...glass.flatMap(([angle, face, once, pane]) => [
    printed(
      `7 5.5 face ${angle}`,
      `glass n 1.52, share reflected by a face at ${angle}°`,
      "Fresnel",
      face,
      () => fresnelReflectance(angle * RADIANS, 1.52),
    ),
    printed(
      `7 5.5 once ${angle}`,
      `both faces passed once at ${angle}°`,
      "Fresnel",
      once,
      () => (1 - fresnelReflectance(angle * RADIANS, 1.52)) ** 2,
    ),
    printed(`7 5.5 pane ${angle}`, `clear pane at ${angle}°, to and fro included`, "Fresnel", pane, () =>
      paneTransmittance(angle * RADIANS, 1.52),
    ),
  ]),
  ...floorOnWall.flatMap(([z, table, exact]) =>
    both(`7 5.6 wall ${z}`, `whole floor on a wall at ${z} m, %`, table, exact, () =>
      reflected(wholeFloor, [2, 0, z], right),
    ),
  ),
  ...floorOnCeiling.flatMap(([y, table, exact]) =>
    both(`7 5.6 ceiling ${y}`, `whole floor on the ceiling at ${y} m, %`, table, exact, () =>
      reflected(wholeFloor, [2, y, 3], down),
    ),
  ),
  ...smallOnWall.map((exact, i) => {
    const z = 0.25 + 0.5 * i;
    return printed(`7 5.6 small wall ${z}`, `floor of 0.5 × 0.5 on a wall at ${z} m, %`, EXACT, exact, () =>
      reflected(smallFloor, [2, 0, z], right),
    );
  }),
  ...smallOnCeiling.map((exact, i) => {
    const y = 0.25 + 0.5 * i;
    return printed(
      `7 5.6 small ceiling ${y}`,
      `floor of 0.5 × 0.5 on the ceiling at ${y} m, %`,
      EXACT,
      exact,
      () => reflected(smallFloor, [2, y, 3], down),
    );
  }),
  ...boxOnWall.flatMap(([z, table, exact]) =>
    both(`7 5.7 wall ${z}`, `far wall over a box on a wall at ${z} m, %`, table, exact, () =>
      overBox([2, 0, z], right),
    ),
  ),
  ...boxOnFloor.flatMap(([y, table, exact]) =>
    both(`7 5.7 floor ${y}`, `far wall over a box on the floor at ${y} m, %`, table, exact, () =>
      overBox([2, y, 0], up),
    ),
  ),
];
