/** Light vector and scalar by closed form; the engine's own field is in section8-light-vector. */
import {
  coneScalar,
  coneVector,
  coneVectorScalar,
  cylindricalIlluminance,
  fieldOfPoints,
  semicylindricalIlluminance,
} from "../src/photometry/index.ts";
import { type Check, printed, RADIANS } from "./checks.ts";

const CONE = "Gershun 1936 (tr. Moon and Timoshenko 1939): 2 (1 + cos a)";
const POINTS = "Gershun 1936; Lynes et al. 1966";
const cones: [number, number][] = [
  [0, 4],
  [10, 3.96962],
  [20, 3.87939],
  [30, 3.73205],
  [45, 3.41421],
  [60, 3],
  [90, 2],
  [120, 1],
  [180, 0],
];
/** point, lx; uniform scalar, lx; ratio */
const withAmbient: [number, number, number][] = [
  [400, 100, 2],
  [800, 100, 2.66667],
  [1000, 50, 3.33333],
  [300, 150, 1.33333],
];
/** degrees between 1000 lx and 250 lx; ratio */
const pairs: [number, number][] = [
  [0, 4],
  [90, 3.29848],
  [120, 2.88444],
  [180, 2.4],
];

export const checks: Check[] = [
  ...cones.map(([a, ratio]) =>
    printed(`8 form cone ${a}`, `vector/scalar of a cone of half-angle ${a}°`, CONE, ratio, () =>
      coneVectorScalar(a * RADIANS),
    ),
  ),
  ...cones
    .filter(([a]) => a > 0)
    .map(([a, ratio]) =>
      printed(
        `8 form parts ${a}`,
        `the same from vector and scalar apart, ${a}°`,
        CONE,
        ratio,
        () => coneVector(1000, a * RADIANS) / coneScalar(1000, a * RADIANS),
      ),
    ),
  ...withAmbient.map(([point, ambient, ratio]) =>
    printed(
      `8 ambient ${point},${ambient}`,
      `vector/scalar of ${point} lx from a point with ${ambient} lx all round`,
      POINTS,
      ratio,
      () =>
        fieldOfPoints([{ illuminance: point, direction: [0, 0, 1] }], ambient).vectorScalarRatio ??
        Number.NaN,
    ),
  ),
  ...pairs.map(([apart, ratio]) =>
    printed(`8 pair ${apart}`, `vector/scalar of 1000 lx and 250 lx, ${apart}° apart`, POINTS, ratio, () => {
      const a = apart * RADIANS;
      const points = [
        { illuminance: 1000, direction: [1, 0, 0] as const },
        { illuminance: 250, direction: [Math.cos(a), Math.sin(a), 0] as const },
      ];
      return fieldOfPoints(points).vectorScalarRatio ?? Number.NaN;
    }),
  ),
  printed("8 cylinder", "cylindrical illuminance of 1000 lx from 30° up", POINTS, 275.664, () =>
    cylindricalIlluminance(1000, 30 * RADIANS),
  ),
  printed("8 half-cylinder", "the same on the half-cylinder that faces it", POINTS, 551.329, () =>
    semicylindricalIlluminance(1000, 30 * RADIANS, 0),
  ),
];
