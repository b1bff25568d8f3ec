/** Fields, depth of field, circles of confusion, diffraction. */
import {
  airyDiameter,
  circleOfConfusion,
  depthOfField,
  fieldAngle,
  fieldSize,
  hyperfocalDistance,
} from "../src/photometry/index.ts";
import { type Check, printed } from "./checks.ts";

const ANGLE = "2 atan(w / 2 f)";
const FIELD = "thin lens, m = f / (s − f)";
const DEPTH = "thin lens, H = f² / (N c) + f, near and far from it";
const CIRCLE = "diagonal / 1500 (common practice)";
const AIRY = "Airy 1835, 2.43934 λ N";

/** focal length; angle across, up, along the diagonal of 36 x 24 */
const angles: [number, number, number, number][] = [
  [35, 54.4322, 37.8493, 63.44],
  [50, 39.5978, 26.9915, 46.793],
  [85, 23.9132, 16.0714, 28.5583],
  [105, 19.4552, 13.0396, 23.2837],
  [135, 15.1893, 10.1592, 18.2081],
  [200, 10.2855, 6.86726, 12.347],
];
const DIAGONAL = Math.hypot(36, 24);
/** focal length, distance; field across and up */
const fields: [number, number, number, number][] = [
  [85, 2000, 811.059, 540.706],
  [50, 1500, 1044, 696],
  [105, 2500, 821.143, 547.429],
  [85, 1500, 599.294, 399.529],
];
/** focal length, f-number, circle, focus; hyperfocal distance, near, far */
const depths: [number, number, number, number, number, number, number][] = [
  [85, 8, 0.03, 2000, 30189.2, 1880.38, 2135.87],
  [50, 2.8, 0.03, 3000, 29811.9, 2729.46, 3330.08],
  [105, 11, 0.03, 1500, 33514.1, 1439.88, 1565.36],
  [85, 1.8, 0.03, 2000, 133881, 1971.78, 2029.04],
  [35, 8, 0.03, 3000, 5139.17, 1897.66, 7158.16],
  [50, 8, 0.02, 2000, 15675, 1778.09, 2285.19],
];
/** width, height; circle of confusion */
const sensors: [number, number, number][] = [
  [36, 24, 0.0288444],
  [23.6, 15.7, 0.0188968],
  [22.3, 14.9, 0.0178798],
  [17.3, 13, 0.0144267],
  [43.8, 32.9, 0.03652],
];
const airy: [number, number][] = [
  [8, 10.7331],
  [11, 14.758],
  [16, 21.4661],
  [22, 29.516],
];

export const checks: Check[] = [
  ...angles.flatMap(([f, ...published]) =>
    [36, 24, DIAGONAL].map((side, k) =>
      printed(
        `12 angle ${f} ${["across", "up", "diagonal"][k]}`,
        `field of ${f} mm on 36 × 24, ${["across", "up", "along the diagonal"][k]}, °`,
        ANGLE,
        published[k],
        () => fieldAngle(side, f),
      ),
    ),
  ),
  ...fields.flatMap(([f, s, ...published]) =>
    [36, 24].map((side, k) =>
      printed(
        `12 field ${f} ${s} ${side}`,
        `what ${side} mm cover at ${s} mm with ${f} mm, mm`,
        FIELD,
        published[k],
        () => fieldSize(side, f, s),
      ),
    ),
  ),
  ...depths.flatMap(([f, n, c, s, hyperfocal, near, far]) => {
    const id = `12 depth f${f} N${n} s${s}`;
    const what = `${f} mm at f/${n}, c ${c}, focused at ${s} mm`;
    return [
      printed(`${id} H`, `${what}: hyperfocal distance, mm`, DEPTH, hyperfocal, () =>
        hyperfocalDistance(f, n, c),
      ),
      printed(`${id} near`, `${what}: near limit, mm`, DEPTH, near, () => depthOfField(f, n, c, s).near_mm),
      printed(`${id} far`, `${what}: far limit, mm`, DEPTH, far, () => depthOfField(f, n, c, s).far_mm),
    ];
  }),
  ...sensors.map(([w, h, c]) =>
    printed(`12 circle ${w} x ${h}`, `circle of confusion of ${w} × ${h} mm, mm`, CIRCLE, c, () =>
      circleOfConfusion(w, h),
    ),
  ),
  ...airy.map(([n, published]) =>
    printed(`12 Airy f/${n}`, `diffraction disc at f/${n}, 550 nm, µm`, AIRY, published, () =>
      airyDiameter(550, n),
    ),
  ),
];
