/** Sensor exposure: saturation, middle level, clipping. */
import {
  clippingExposure,
  focalPlaneExposure,
  LENS_FACTOR,
  lensFactor,
  luminanceOfEv100,
  METER_CONSTANT,
  MIDDLE_LEVEL,
  meteredLevel,
  pictureLevel,
  reflectedFNumber,
  SATURATION_LEVEL,
  saturationLuminance,
} from "../src/photometry/index.ts";
import { type Check, printed, RADIANS } from "./checks.ts";

const SOURCE = "ISO 12232:2006/2019, H = 0.65 L t / N², S_sat = 78 / H, S_SOS = 10 / H";
const METERED = "ISO 12232 with ISO 2720: 0.65 (ρ / π) C";
const { flat, dome } = METER_CONSTANT;
const headroom = (level: number) => Math.log2(SATURATION_LEVEL / level);
/** H S of a surface that a reflected meter of this constant has just read */
const underReflected = (constant: number) =>
  100 * focalPlaneExposure(32, reflectedFNumber(32, 100, constant));

export const checks: Check[] = [
  printed("2 q", "lens factor q of T 0.9, v 0.98, 10°", SOURCE, 0.651575, () =>
    lensFactor(0.9, 0.98, 10 * RADIANS),
  ),
  {
    ...printed("2 q rounded", "the same as the standard rounds it", SOURCE, 0.65, () =>
      lensFactor(0.9, 0.98, 10 * RADIANS),
    ),
    tolerance: 0.005,
    absolute: true,
    why: "rounded by the standard to two decimals",
  },
  printed("2 saturation", "saturation over the middle level, stops", SOURCE, 2.96347, () =>
    headroom(MIDDLE_LEVEL),
  ),
  printed("2 clip", "clipping exposure at ISO 100 with 2.96347 stops of headroom, lx·s", SOURCE, 0.78, () =>
    clippingExposure(100, 2.96347),
  ),
  printed("2 middle", "middle level at ISO 100, lx·s", SOURCE, 0.1, () => clippingExposure(100, 0)),
  printed(
    "2 saturating grey",
    "saturating reflectance where 18 % is the middle level, %",
    SOURCE,
    140.4,
    () => (18 * SATURATION_LEVEL) / MIDDLE_LEVEL,
  ),
  printed(
    "2 middle over saturation",
    "middle level over saturation, %",
    SOURCE,
    12.8205,
    () => (100 * MIDDLE_LEVEL) / SATURATION_LEVEL,
  ),
  printed("2 L_sat", "saturating luminance at f/8, 1/125 s, ISO 100, cd/m²", SOURCE, 9600, () =>
    saturationLuminance(8, 1 / 125, 100),
  ),
  printed("2 L_sat EV", "saturating luminance over 2^EV100, cd/m²", SOURCE, 1.2, () =>
    saturationLuminance(1, 1, 100),
  ),
  printed(
    "2 L_sat metered",
    "saturating luminance over a reading with K = 12.5",
    SOURCE,
    9.6,
    () => saturationLuminance(1, 1, 100) / luminanceOfEv100(0),
  ),
  printed("2 metered K12.5", "H S under a reflected reading, K = 12.5", SOURCE, 8.125, () =>
    underReflected(12.5),
  ),
  printed("2 headroom K12.5", "headroom to saturation from there, stops", SOURCE, 3.26303, () =>
    headroom(underReflected(12.5)),
  ),
  printed("2 headroom K14", "the same with K = 14", SOURCE, 3.09954, () => headroom(underReflected(14))),
  printed("2 grey flat", "H S of 18 % grey under an incident reading, C = 250", METERED, 9.31056, () =>
    meteredLevel(0.18, flat),
  ),
  printed("2 grey dome", "the same, C = 340", METERED, 12.6624, () => meteredLevel(0.18, dome)),
  printed(
    "2 grey headroom flat",
    "headroom to saturation from 18 % grey, C = 250, stops",
    METERED,
    3.06653,
    () => headroom(meteredLevel(0.18, flat)),
  ),
  printed("2 grey headroom dome", "the same, C = 340", METERED, 2.62293, () =>
    headroom(meteredLevel(0.18, dome)),
  ),
  ...(
    [
      [250, 150.796],
      [340, 110.88],
      [320, 117.81],
    ] as const
  ).map(([c, percent]) =>
    printed(
      `2 clip reflectance ${c}`,
      `reflectance that clips under an incident reading, C = ${c}, %`,
      METERED,
      percent,
      () => (100 * SATURATION_LEVEL) / meteredLevel(1, c),
    ),
  ),
  {
    ...printed(
      "2 clip reflectance 540",
      "the same, C = 540, %",
      METERED,
      69.8,
      () => (100 * SATURATION_LEVEL) / meteredLevel(1, 540),
    ),
    tolerance: 1e-3,
    why: "printed to three figures",
  },
  printed("2 sunny 16", "focal-plane exposure of 3200 cd/m² at f/16, 1/100 s, lx·s", SOURCE, 0.08125, () =>
    focalPlaneExposure(3200 / 100, 16),
  ),
  {
    ...printed("2 level", "picture level of the middle level at ISO 100", "ISO 12232: 118 of 255", 118, () =>
      pictureLevel(MIDDLE_LEVEL / 100, 100, 2.96),
    ),
    tolerance: 0,
    why: "a whole number",
  },
  printed("2 q used", "lens factor q in use", SOURCE, 0.65, () => LENS_FACTOR),
];
