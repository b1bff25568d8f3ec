/** Lighting ratios and backgrounds. */
import {
  backgroundStops,
  fillDistanceRatio,
  keyOverFillStops,
  litToShadowRatio,
} from "../src/photometry/index.ts";
import { stopsOfRatio } from "../src/units/index.ts";
import { type Check, printed } from "./checks.ts";

const ARMY = "US Army SS0510: ratio = (main + fill) : fill";
const GREY = "middle grey of 18 %, by arithmetic";
/** ratio, key over fill in stops, lit over shadow in stops, fill distance over key distance */
const ratios: [number, number, number, number][] = [
  [2, 0, 1, 1],
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: as printed
  [3, 1, 1.58496, 1.41421],
  [4, 1.58496, 2, 1.73205],
  [5, 2, 2.32193, 2],
  [6, 2.32193, 2.58496, 2.23607],
  [8, 2.80735, 3, 2.64575],
  [9, 3, 3.16993, 2.82843],
];
const keys: [number, number][] = [
  [0.5, 2.41421],
  [1, 3],
  [1.5, 3.82843],
  [2, 5],
];

export const checks: Check[] = [
  ...ratios.flatMap(([ratio, keyStops, litStops, distance]) => [
    printed(`9 key ${ratio}`, `key over fill at ${ratio}:1, stops`, ARMY, keyStops, () =>
      keyOverFillStops(ratio),
    ),
    printed(`9 lit ${ratio}`, `lit over shadow side at ${ratio}:1, stops`, ARMY, litStops, () =>
      stopsOfRatio(ratio),
    ),
    printed(`9 distance ${ratio}`, `fill distance over key distance at ${ratio}:1`, ARMY, distance, () =>
      fillDistanceRatio(ratio),
    ),
  ]),
  ...keys.map(([stops, ratio]) =>
    printed(`9 ratio ${stops}`, `ratio of a key ${stops} stops over the fill`, ARMY, ratio, () =>
      litToShadowRatio(stops),
    ),
  ),
  printed(
    "9 key distance",
    "key distance for 4:1 with the fill at 16 ft, ft",
    ARMY,
    9.2376,
    () => 16 / fillDistanceRatio(4),
  ),
  printed("9 paper .80", "background stops, paper of 0.80 as middle grey", GREY, -2.152, () =>
    backgroundStops(0, 0.8),
  ),
  printed("9 paper .05", "background stops, paper of 0.05 as middle grey", GREY, 1.848, () =>
    backgroundStops(0, 0.05),
  ),
];
