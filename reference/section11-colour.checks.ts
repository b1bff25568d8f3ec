/** Colour temperature, daylight, the sRGB curve. */
import {
  correlatedKelvin,
  daylightXy,
  decodeSrgb,
  encodeSrgb,
  LUMINANCE,
  miredShift,
  planckianXy,
} from "../src/photometry/index.ts";
import { type Check, printed } from "./checks.ts";

const PLANCK = "Planck's law with the CIE 1931 observer, c2 = 1.4388e-2, steps of 1 nm";
const STEPS = {
  tolerance: 5e-5,
  absolute: true,
  why: "steps of 5 nm against the table's 1 nm; a fortieth of the least visible step of a light's colour",
} as const;
const CIE_D = "CIE 15, D locus";
const MCCAMY = "McCamy 1992";
const SRGB = "IEC 61966-2-1";
const planckian: [number, number, number][] = [
  [2700, 0.459863, 0.4106],
  [2856, 0.447539, 0.407429],
  [3200, 0.423363, 0.398953],
  [3400, 0.411037, 0.393505],
  [4000, 0.380442, 0.376749],
  [5000, 0.345103, 0.35161],
  [5500, 0.332436, 0.341037],
  [5600, 0.3302, 0.339081],
  [6500, 0.313528, 0.32363],
];
const daylight: [number, number, number][] = [
  [4000, 0.382344, 0.383766],
  [5000, 0.345741, 0.358666],
  [5500, 0.332502, 0.347608],
  [5600, 0.330164, 0.345546],
  [6504, 0.312714, 0.329119],
  [7500, 0.299091, 0.315025],
];
const whites: [string, number, number, number][] = [
  ["D65", 0.31272, 0.32903, 6503.77],
  ["A", 0.44757, 0.40745, 2857.29],
  ["D50", 0.34567, 0.3585, 5002.1],
];
const mired: [number, number, number][] = [
  [3200, 5600, -133.929],
  [5600, 3200, 133.929],
  [3200, 5500, -130.682],
  [5500, 3200, 130.682],
  [3200, 3400, -18.3824],
  [5600, 4300, 53.9867],
  [5600, 6500, -24.7253],
  [3400, 5500, -112.299],
];
const encoded: [number, number][] = [
  [0.001, 0.01292],
  [0.01, 0.0998528],
  [0.05, 0.247801],
  [0.1, 0.34919],
  [0.18, 0.461356],
  [0.36, 0.634253],
  [0.5, 0.735357],
  [0.72, 0.865042],
];
const decoded: [number, number][] = [
  [10, 0.00303527],
  [11, 0.00334654],
  [118, 0.181164],
  [128, 0.215861],
  [188, 0.502886],
  [200, 0.57758],
  [230, 0.791298],
];
const axis = (k: number) => (k === 0 ? "x" : "y");

export const checks: Check[] = [
  ...planckian.flatMap(([kelvin, ...xy]) =>
    xy.map((published, k) => ({
      ...printed(
        `11 Planck ${kelvin} ${axis(k)}`,
        `${axis(k)} of a Planckian radiator at ${kelvin} K`,
        PLANCK,
        published,
        () => planckianXy(kelvin)[k],
      ),
      ...STEPS,
    })),
  ),
  ...daylight.flatMap(([kelvin, ...xy]) =>
    xy.map((published, k) =>
      printed(
        `11 daylight ${kelvin} ${axis(k)}`,
        `${axis(k)} of daylight at ${kelvin} K`,
        CIE_D,
        published,
        () => daylightXy(kelvin)[k],
      ),
    ),
  ),
  ...whites.map(([name, x, y, kelvin]) =>
    printed(`11 McCamy ${name}`, `correlated colour temperature of ${name}, K`, MCCAMY, kelvin, () =>
      correlatedKelvin([x, y]),
    ),
  ),
  ...mired.map(([from, to, shift]) =>
    printed(`11 mired ${from},${to}`, `mired shift from ${from} K to ${to} K`, "CIE: 10⁶ / T", shift, () =>
      miredShift(from, to),
    ),
  ),
  ...encoded.map(([linear, value]) =>
    printed(`11 encode ${linear}`, `sRGB encoding of ${linear}`, SRGB, value, () => encodeSrgb(linear)),
  ),
  ...decoded.map(([level, value]) =>
    printed(`11 decode ${level}`, `sRGB level ${level} decoded`, SRGB, value, () => decodeSrgb(level / 255)),
  ),
  ...[0.2126, 0.7152, 0.0722].map((weight, k) =>
    printed(
      `11 luminance ${"RGB"[k]}`,
      `weight of ${"RGB"[k]} in luminance`,
      "BT.709",
      weight,
      () => LUMINANCE[k],
    ),
  ),
];
