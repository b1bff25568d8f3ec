/** Configuration factors by closed form; the engine's own light is held to the same values in section5-6-sources. */
import type { Vec3 } from "../src/math/index.ts";
import {
  axialExposure,
  centredRectangleFactor,
  cornerRectangleFactor,
  cornerRectangleFactorAcross,
  discFactor,
  discFactorAcross,
  lobedDiscFactor,
  polygonFactor,
  sphereFactor,
  tiltedDiscFactor,
} from "../src/photometry/index.ts";
import { type Check, printed, RADIANS } from "./checks.ts";
import { centred, corners, HOWELL, lobes, offAxis, tilted } from "./section5.tables.ts";

const LAMBERT = "Lambert 1760; Arvo 1995";

const origin: Vec3 = [0, 0, 0];
const triangle: Vec3[] = [
  [1, 0, 1],
  [0, 1, 1],
  [-1, -1, 1],
];
const panel: Vec3[] = [
  [1, -0.5, -0.5],
  [1, 0.5, -0.5],
  [1, 0.5, 0.5],
  [1, -0.5, 0.5],
];
const polygons: [string, Vec3[], Vec3, number][] = [
  ["triangle (1,0,1), (0,1,1), (-1,-1,1) facing", triangle, [0, 0, 1], 0.300349],
  ["panel 1 × 1 at 1, facing", panel, [1, 0, 0], 0.239456],
  ["panel 1 × 1 at 1, element tilted 45°", panel, [Math.SQRT1_2, 0, Math.SQRT1_2], 0.169321],
  ["panel 1 × 1 at 1, half of it below the horizon", panel, [0, 0, 1], 0.0278554],
];

export const checks: Check[] = [
  printed("5 form axis 1,1", "disc on its axis, r 1 h 1", HOWELL, 0.5, () => discFactor(1, 1, 0)),
  printed("5 form axis .5,1", "disc on its axis, r 0.5 h 1", HOWELL, 0.2, () => discFactor(0.5, 1, 0)),
  ...offAxis.flatMap(([r, h, a, parallel, across]) => [
    printed(
      `5 form off ${r},${h},${a}`,
      `disc off its axis, parallel, r ${r} h ${h} a ${a}`,
      HOWELL,
      parallel,
      () => discFactor(r, h, a),
    ),
    printed(
      `5 form across ${r},${h},${a}`,
      `disc off its axis, upright, r ${r} h ${h} a ${a}`,
      HOWELL,
      across,
      () => discFactorAcross(r, h, a),
    ),
  ]),
  ...tilted.map(([h, tilt, f]) =>
    printed(`5 form tilt ${h},${tilt}`, `disc, element tilted ${tilt}°, h/r ${h} (B-13)`, HOWELL, f, () =>
      tiltedDiscFactor(1, h, tilt * RADIANS),
    ),
  ),
  ...corners.flatMap(([a, b, c, parallel, across]) => [
    printed(
      `5 form corner ${a},${b},${c}`,
      `corner rectangle ${a} × ${b} at ${c}, parallel`,
      HOWELL,
      parallel,
      () => cornerRectangleFactor(a, b, c),
    ),
    printed(
      `5 form foot ${a},${b},${c}`,
      `rectangle ${a} × ${b} on the element's plane at ${c}`,
      HOWELL,
      across,
      () => cornerRectangleFactorAcross(a, b, c),
    ),
  ]),
  ...centred.map(([w, h, d, f]) =>
    printed(`5 form centred ${w},${h},${d}`, `rectangle ${w} × ${h} facing at ${d}`, HOWELL, f, () =>
      centredRectangleFactor(w, h, d),
    ),
  ),
  ...polygons.map(([what, outline, normal, f], i) =>
    printed(`5 form polygon ${i}`, what, LAMBERT, f, () => polygonFactor(outline, origin, normal)),
  ),
  printed("5 form sphere 0", "sphere R 0.25 at 1.5", HOWELL, 0.0277778, () => sphereFactor(0.25, 1.5, 0)),
  printed("5 form sphere 60", "sphere R 0.25 at 1.5, element tilted 60°", HOWELL, 0.0138889, () =>
    sphereFactor(0.25, 1.5, 60 * RADIANS),
  ),
  ...lobes.flatMap(([m, f]) => [
    printed(`5 form lobe ${m}`, `disc r 0.5 h 1 with lobe exponent ${m}`, "integration", f, () =>
      lobedDiscFactor(0.5, 1, m),
    ),
    printed(
      `5 form axial ${m}`,
      `the same by the quadrature that sets "output by meter", exponent ${m}`,
      "integration",
      f,
      () => (axialExposure({ shape: "disc", width: 1 }, m, 0, 1, "flat") * 2 * Math.PI * 0.25) / (m + 1),
    ),
  ]),
  ...centred.map(([width, height, d, f]) =>
    printed(
      `5 form axial ${width},${height},${d}`,
      `rectangle ${width} × ${height} at ${d} by that quadrature`,
      HOWELL,
      f,
      () => axialExposure({ shape: "rectangle", width, height }, 1, 0, d, "flat") * width * height,
    ),
  ),
];
