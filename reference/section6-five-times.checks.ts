/** How wrong the inverse square law is near a front. */
import { centredRectangleFactor, discFactor } from "../src/photometry/index.ts";
import { type Check, printed } from "./checks.ts";

const SOURCE = "five-times rule, IES definition 9.1.1; for a disc the error is 1 / (4 k²) exactly";
/** k, disc at k diameters: per cent, stops; square at k sides, square at k diagonals: per cent */
const table: [number, number, number, number, number][] = [
  [1, 25, 0.321928, 32.9302, 16.5499],
  [2, 6.25, 0.0874628, 8.30162, 4.15838],
  [3, 2.77778, 0.0395284, 3.69712, 1.85017],
  [5, 1, 0.0143553, 1.33246, 0.666446],
  [10, 0.25, 0.00360224, 0.333278, 0.166653],
];
const disc = (k: number) => 0.25 / k ** 2 / discFactor(0.5, k, 0) - 1;
const square = (k: number) => 1 / (Math.PI * k ** 2) / centredRectangleFactor(1, 1, k) - 1;

export const checks: Check[] = table.flatMap(([k, percent, stops, sides, diagonals]) => [
  printed(
    `6 form disc ${k}`,
    `point over disc at ${k} diameters, error %`,
    SOURCE,
    percent,
    () => 100 * disc(k),
  ),
  printed(`6 form stops ${k}`, `the same in stops, ${k} diameters`, SOURCE, stops, () =>
    Math.log2(1 + disc(k)),
  ),
  printed(
    `6 form side ${k}`,
    `point over square at ${k} sides, error %`,
    SOURCE,
    sides,
    () => 100 * square(k),
  ),
  printed(
    `6 form diagonal ${k}`,
    `point over square at ${k} diagonals, error %`,
    SOURCE,
    diagonals,
    () => 100 * square(k * Math.SQRT2),
  ),
]);
