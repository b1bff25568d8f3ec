/** Reflection by skin's oil and by the cornea. */
import { catchlightSize, fresnelReflectance, schlickReflectance } from "../src/photometry/index.ts";
import { type Check, printed, RADIANS } from "./checks.ts";

const FRESNEL = "Fresnel, F0 = ((n - 1) / (n + 1))²";
const SCHLICK = "Schlick 1994";
const CORNEA = "cornea of radius 7.80 mm, image at 3.90 mm: s 3.9 / (d + 3.9)";
const straight: [number, number][] = [
  [1.3, 0.0170132],
  [1.33, 0.0200593],
  [1.376, 0.0250428],
  [1.4, 0.0277778],
  [1.5, 0.04],
];
/** degrees at n 1.4, Fresnel, Schlick */
const slanting: [number, number, number][] = [
  [30, 0.0290506, 0.0278197],
  [45, 0.0365785, 0.0298734],
  [60, 0.0719767, 0.0581597],
  [75, 0.231283, 0.245241],
  [85, 0.598322, 0.644016],
];
/** size, distance, image; mm */
const catchlights: [number, number, number][] = [
  [1000, 1500, 2.59326],
  [600, 1000, 2.33091],
  [150, 1000, 0.582727],
  [1200, 2500, 1.86908],
];

export const checks: Check[] = [
  ...straight.map(([n, share]) =>
    printed(`10 F0 ${n}`, `share reflected straight back, n ${n}`, FRESNEL, share, () =>
      fresnelReflectance(0, n),
    ),
  ),
  ...slanting.flatMap(([angle, fresnel, schlick]) => [
    printed(`10 Fresnel ${angle}`, `share reflected at ${angle}°, n 1.4`, FRESNEL, fresnel, () =>
      fresnelReflectance(angle * RADIANS, 1.4),
    ),
    printed(`10 Schlick ${angle}`, `the same by the fit, ${angle}°`, SCHLICK, schlick, () =>
      schlickReflectance(angle * RADIANS, 1.4),
    ),
  ]),
  ...catchlights.map(([size, distance, image]) =>
    printed(
      `10 catchlight ${size},${distance}`,
      `catchlight of ${size} mm at ${distance} mm, mm`,
      CORNEA,
      image,
      () => catchlightSize(size, distance, 7.8),
    ),
  ),
];
