/** Weights, pushes and watts in words. */
import type { Support } from "../plan/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";

const tidy = (value: number) => String(Number(value.toPrecision(4)));

/** "boom stand, 3 legs, foot 0.55 m, 4 kg, bag 10 kg, carries 3 kg; arm 1.20 m, counterweight 4.5 kg at 0.60 m" */
export function supportWords(support: Support, units: LengthUnits): string {
  const { arm, bag, footRadius, isWheeled, legs, legUnderLoad, load, mass, name } = support;
  const length = (metres: number) => formatLength(metres, units);
  const parts = [
    `${name}, ${legs} legs, foot ${length(footRadius)}, ${tidy(mass)} kg`,
    `bag ${tidy(bag)} kg`,
    `carries ${tidy(load)} kg`,
    ...(legUnderLoad ? ["a leg under the load"] : []),
    ...(isWheeled ? ["on wheels"] : []),
  ];
  if (arm === null) return parts.join(", ");
  const own = arm.mass === 0 ? "" : ` of ${tidy(arm.mass)} kg`;
  const counter = `counterweight ${tidy(arm.counterweight)} kg at ${length(arm.counterReach)}`;
  return `${parts.join(", ")}; arm ${length(arm.reach)}${own}, ${counter}`;
}

/** "27.2 N·m" */
export const momentWords = (moment_Nm: number) => `${moment_Nm.toFixed(1)} N·m`;

/** "1.5 kg": what comes out of a sum, not what is on a scale */
export const sumKgWords = (kg: number) => `${kg.toFixed(1)} kg`;

/** "489 W" */
export const wattWords = (watts: number) => `${watts.toFixed(0)} W`;

/** "2.1 A" */
export const ampWords = (amps: number) => `${amps.toFixed(1)} A`;

/** "key", "key and fill", "key, fill and rim" */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;
}
