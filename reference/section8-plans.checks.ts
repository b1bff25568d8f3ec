/** Light vector and scalar as a meter of a plan reads them. */
import { type Check, PRINTED, RADIANS } from "./checks.ts";
import { type Held, type Point, readOne } from "./plans.ts";

const GERSHUN = "Gershun 1936 (tr. Moon and Timoshenko 1939)";
const AREA = { tolerance: 0.005, why: "direct, unobstructed light is asked to 0.5 %" } as const;
const METER: Held = { position: [0, 0, 0], direction: { bearing: 0, tilt: 90 } };
/** So that ambient lux are lux-seconds. */
const ONE_SECOND = { shutter: 1 };

/** A perfect diffuser seen from its axis is a uniform cone. Near the half-space it is held close: a front is at most
 * 100 m wide. */
function underDisc(alpha: number): number {
  const height = alpha > 80 ? 0.1 : 1;
  const light = {
    position: [0, 0, height],
    direction: { bearing: 0, tilt: -90 },
    face: { shape: "disc", width: 2 * height * Math.tan(alpha * RADIANS) },
    output: { lumenSeconds: 1000 },
  };
  return readOne({ lights: [light] }, METER).vectorScalarRatio ?? Number.NaN;
}

/** A point that gives `lux` on a receptor 1 m away, which it is aimed at. */
function pointFrom([x, y, z]: Point, lux: number) {
  return {
    position: [x, y, z],
    direction: { at: METER.position },
    face: { shape: "point" },
    beam: { exponent: 1 },
    output: { lumenSeconds: lux * Math.PI },
  };
}

const cones: [number, number][] = [
  [10, 3.96962],
  [20, 3.87939],
  [30, 3.73205],
  [45, 3.41421],
  [60, 3],
  [85, 2 * (1 + Math.cos(85 * RADIANS))],
  [89, 2 * (1 + Math.cos(89 * RADIANS))],
];
/** degrees between 1000 lx and 250 lx; ratio */
const pairs: [number, number][] = [
  [0, 4],
  [90, 3.29848],
  [120, 2.88444],
  [180, 2.4],
];
/** point, lx; uniform all round, lx; ratio */
const withAmbient: [number, number, number][] = [
  [400, 100, 2],
  [800, 100, 2.66667],
  [1000, 50, 3.33333],
  [300, 150, 1.33333],
];

export const checks: Check[] = [
  ...cones.map(
    ([alpha, published]): Check => ({
      id: `8 plan cone ${alpha}`,
      what: `vector/scalar ratio that a meter reads under a disc of half-angle ${alpha}°`,
      source: `${GERSHUN}: 2 (1 + cos a)`,
      published,
      ours: () => underDisc(alpha),
      ...AREA,
    }),
  ),
  ...pairs.map(
    ([apart, published]): Check => ({
      id: `8 plan pair ${apart}`,
      what: `vector/scalar ratio that a meter reads between points of 1000 and 250 lx, ${apart}° apart`,
      source: `${GERSHUN}; Lynes et al. 1966`,
      published,
      ours: () => {
        const a = apart * RADIANS;
        const lights = [pointFrom([0, 0, 1], 1000), pointFrom([Math.sin(a), 0, Math.cos(a)], 250)];
        return readOne({ lights }, METER).vectorScalarRatio ?? Number.NaN;
      },
      ...PRINTED,
    }),
  ),
  ...withAmbient.map(
    ([point, ambient, published]): Check => ({
      id: `8 plan ambient ${point},${ambient}`,
      what: `vector/scalar ratio that a meter reads: ${point} lx from a point, ${ambient} lx all round`,
      source: `${GERSHUN}; Lynes et al. 1966`,
      published,
      ours: () => {
        const set = { lights: [pointFrom([0, 0, 1], point)], ambient: { lux: ambient }, camera: ONE_SECOND };
        return readOne(set, METER).vectorScalarRatio ?? Number.NaN;
      },
      ...PRINTED,
    }),
  ),
];
