/** Numbers, places and directions that the whole plan is made of, with their bounds. */
import { z } from "zod";

/** A finite number within bounds; the message names the bounds and the unit. */
export function quantity(low: number, high: number, unit: string) {
  const range = `a number from ${low} to ${high}${unit ? ` ${unit}` : ""}`;
  return z
    .number({ error: `must be ${range}` })
    .min(low, { error: `must be ${range}` })
    .max(high, { error: `must be ${range}` });
}

/** Larger than any studio; keeps sums away from overflow. */
export const FARTHEST = 1000;
const coordinate = quantity(-FARTHEST, FARTHEST, "m");
export const size = quantity(0.001, 100, "m");
export const share = quantity(0, 1, "");
export const angle = quantity(-360, 360, "degrees");
export const kelvin = quantity(1500, 20000, "K");
export const fNumber = quantity(0.5, 256, "");
export const iso = quantity(1, 1e6, "");

export const name = z
  .string({ error: "must be a name in quotes" })
  .min(1, { error: "must not be empty" })
  .max(80, { error: "must be at most 80 characters" });

export const point = z.tuple([coordinate, coordinate, coordinate], {
  error: "must be three numbers in metres: [x, y, z]",
});
export const floorPoint = z.tuple([coordinate, coordinate], {
  error: "must be two numbers in metres: [x, y]",
});

export const direction = z.union(
  [
    z.strictObject({ bearing: angle, tilt: quantity(-90, 90, "degrees").default(0) }),
    z.strictObject({ at: point }),
  ],
  { error: 'must be { "bearing": degrees, "tilt": degrees } or { "at": [x, y, z] }' },
);

export const reflectance = z.union([share, z.tuple([share, share, share])], {
  error: "must be a number from 0 to 1, or three of them: [r, g, b]",
});

export type Vec3 = z.output<typeof point>;
export type Direction = z.output<typeof direction>;
export type Reflectance = z.output<typeof reflectance>;
