/** Weights, pushes and watts in words. */
import type { Support } from "../plan/index.ts";
import { formatDegrees, formatLength, formatWeight, type LengthUnits } from "../units/index.ts";

/** "boom stand, 3 legs, foot 0.55 m, 4 kg, bag 10 kg, carries 3 kg; arm 1.20 m, counterweight 4.5 kg at 0.60 m" */
export function supportWords(support: Support, units: LengthUnits): string {
  const { arm, bag, footRadius, isWheeled, legs, legUnderLoad, load, mass, name } = support;
  const length = (metres: number) => formatLength(metres, units);
  const weight = (kg: number) => formatWeight(kg, units);
  const parts = [
    `${name}, ${legs} legs, foot ${length(footRadius)}, ${weight(mass)}`,
    `bag ${weight(bag)}`,
    `carries ${weight(load)}`,
    ...(legUnderLoad ? ["a leg under the load"] : []),
    ...(isWheeled ? ["on wheels"] : []),
  ];
  if (arm === null) return parts.join(", ");
  const points = arm.bearing === null ? "" : `, bearing ${formatDegrees(arm.bearing)}`;
  const own = arm.mass === 0 ? "" : ` of ${weight(arm.mass)}`;
  const counter = `counterweight ${weight(arm.counterweight)} at ${length(arm.counterReach)}`;
  return `${parts.join(", ")}; arm ${length(arm.reach)}${own}${points}, ${counter}`;
}

/** "489 W" */
export const wattWords = (watts: number) => `${watts.toFixed(0)} W`;

/** "2.1 A" */
export const ampWords = (amps: number) => `${amps.toFixed(1)} A`;

/** "key", "key and fill", "key, fill and rim" */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;
}
