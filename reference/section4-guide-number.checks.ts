/** Guide numbers and the inverse square law. */
import {
  guideFNumber,
  guideNumber,
  intensityOfGuideNumber,
  inverseSquareStops,
  METER_CONSTANT,
  scaledGuideNumber,
} from "../src/photometry/index.ts";
import { METRES_PER_INCH } from "../src/units/index.ts";
import { type Check, printed } from "./checks.ts";

const SOURCE = "ISO 1230: guide number = N d; physically N = sqrt(I S / C) / d";
const FOOT = 12 * METRES_PER_INCH;
const { flat, dome } = METER_CONSTANT;
/** metres, f-number at guide number 40 m */
const distances: [number, number][] = [
  [1, 40],
  [1.5, 26.6667],
  [2, 20],
  [3, 13.3333],
  [4, 10],
  [5, 8],
];
const speeds: [number, number][] = [
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: as printed
  [50, 0.707107],
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: as printed
  [200, 1.41421],
  [400, 2],
  [800, 2.82843],
];
const powers: [number, number][] = [
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: as printed
  [2, 0.707107],
  [4, 0.5],
  [8, 0.353553],
  [128, 0.0883883],
];
/** times as far, stops; the printed factors are powers of two to six figures */
const farther: [number, number][] = [
  [1.1, -0.275007],
  [2 ** 0.25, -0.5],
  [2 ** (1 / 3), -2 / 3],
  [Math.SQRT2, -1],
  [1.5, -1.16993],
  [2, -2],
  [3, -3.16993],
  [4, -4],
  [10, -6.64386],
];

export const checks: Check[] = [
  printed("4 GN flat", "guide number of 1000 cd·s, C = 250, m", SOURCE, 20, () =>
    guideNumber(1000, 100, flat),
  ),
  printed("4 GN dome", "guide number of 1000 cd·s, C = 340, m", SOURCE, 17.1499, () =>
    guideNumber(1000, 100, dome),
  ),
  printed("4 GN 4000 flat", "guide number of 4000 cd·s, C = 250, m", SOURCE, 40, () =>
    guideNumber(4000, 100, flat),
  ),
  printed("4 GN 4000 dome", "guide number of 4000 cd·s, C = 340, m", SOURCE, 34.2997, () =>
    guideNumber(4000, 100, dome),
  ),
  printed("4 intensity", "axial intensity of guide number 40 m, cd·s", SOURCE, 4000, () =>
    intensityOfGuideNumber(40, 100),
  ),
  printed(
    "4 feet flat",
    "GN² in feet over cd·s and ISO, C = 250",
    SOURCE,
    0.0430556,
    () => (guideNumber(1, 1, flat) / FOOT) ** 2,
  ),
  printed("4 feet dome", "the same, C = 340", SOURCE, 0.0316586, () => (guideNumber(1, 1, dome) / FOOT) ** 2),
  printed(
    "4 trade",
    "C that the trade's constant of 0.063 amounts to, lx·s",
    "trade constant 0.063 (from memory)",
    170.856,
    () => 1 / (0.063 * FOOT * FOOT),
  ),
  printed("4 example 20 ft", "aperture of guide number 80 ft at 20 ft", SOURCE, 4, () =>
    guideFNumber(80 * FOOT, 20 * FOOT),
  ),
  printed("4 example 10 ft", "aperture of guide number 80 ft at 10 ft", SOURCE, 8, () =>
    guideFNumber(80 * FOOT, 10 * FOOT),
  ),
  ...distances.map(([d, n]) =>
    printed(`4 at ${d} m`, `aperture of guide number 40 m at ${d} m`, SOURCE, n, () => guideFNumber(40, d)),
  ),
  ...speeds.map(([iso, scale]) =>
    printed(`4 ISO ${iso}`, `guide number at ISO ${iso} over that at ISO 100`, SOURCE, scale, () =>
      scaledGuideNumber(1, 100, iso, 1),
    ),
  ),
  ...powers.map(([p, scale]) =>
    printed(
      `4 power 1/${p}`,
      `guide number at 1/${p} of the power over that at full power`,
      SOURCE,
      scale,
      () => scaledGuideNumber(1, 100, 100, 1 / p),
    ),
  ),
  ...farther.map(([times, stops]) =>
    printed(
      `4 farther ${Number(times.toPrecision(6))}`,
      `stops when a small source goes ${Number(times.toPrecision(6))} times as far`,
      "inverse square law",
      stops,
      () => inverseSquareStops(1, times),
    ),
  ),
];
