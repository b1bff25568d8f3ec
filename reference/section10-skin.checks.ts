/** Skin: lightness, typology angle, classes. */
import {
  ita,
  LUMINANCE,
  labRgb,
  luminousReflectance,
  type SkinTone,
  toneOf,
} from "../src/photometry/index.ts";
import { type Check, printed } from "./checks.ts";

const CIELAB = "CIE 15: Y = ((L* + 16) / 116)³";
const ANGLE = "individual typology angle, atan((L* − 50) / b*)";
const CLASSES = "classes of the typology angle: 55, 41, 28, 10, −30";

const lightness: [number, number][] = [
  [30, 0.0623591],
  [40, 0.11251],
  [50, 0.184187],
  [60, 0.281233],
  [65, 0.340472],
  [70, 0.407494],
];
/** the same table the other way about */
const reflectance: [number, number][] = [
  [0.05, 26.7348],
  [0.1, 37.8424],
  [0.18, 49.4961],
  [0.25, 57.0754],
  [0.35, 65.7487],
];
const angles: [number, number, number, SkinTone][] = [
  [70, 15, 53.1301, "light"],
  [65, 18, 39.8056, "intermediate"],
  [60, 18, 29.0546, "intermediate"],
  [55, 18, 15.5241, "tan"],
  [45, 16, -17.354, "brown"],
  [35, 10, -56.3099, "dark"],
];
const TONES: readonly SkinTone[] = ["very light", "light", "intermediate", "tan", "brown", "dark"];

export const checks: Check[] = [
  ...[...lightness, ...reflectance.map(([y, l]): [number, number] => [l, y])].map(([l, y]) =>
    printed(`10 L* ${l}`, `luminous reflectance of L* ${l}`, CIELAB, y, () => luminousReflectance(l)),
  ),
  ...[50, 65, 35].map((l) =>
    printed(
      `10 L* ${l} as a colour`,
      `luminance of the colour of L* ${l}, a* 12, b* 17`,
      `${CIELAB}; BT.709`,
      luminousReflectance(l),
      () => labRgb([l, 12, 17]).reduce((sum, v, k) => sum + v * LUMINANCE[k], 0),
    ),
  ),
  ...angles.flatMap(([l, b, angle, tone]): Check[] => [
    printed(`10 ITA ${l},${b}`, `typology angle of L* ${l}, b* ${b}, degrees`, ANGLE, angle, () =>
      ita([l, 10, b]),
    ),
    {
      id: `10 class ${l},${b}`,
      what: `its class, counted from very light: ${tone}`,
      source: CLASSES,
      published: TONES.indexOf(tone),
      ours: () => TONES.indexOf(toneOf(ita([l, 10, b]))),
      tolerance: 0,
      absolute: true,
      why: "a class, not a quantity",
    },
  ]),
];
