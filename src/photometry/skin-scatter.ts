/** How far light wanders under skin before it comes out again: what makes the edge of a shadow on a face soft, and
 * softer in red than in green and blue. */

/** Reduced scattering and absorption, 1/mm, red, green, blue. Source  Jensen et al. 2001, "skin1" (from memory) */
export const SKIN_SCATTERING: readonly (readonly [number, number])[] = [
  [0.74, 0.032],
  [0.88, 0.17],
  [1.01, 0.48],
];
/** Refractive index of skin in that model (n = 1.4, as its surface). */
const INDEX = 1.4;

/** Share of the contrast of a wave of `waves` radians per millimetre that is left once light has wandered.
 * Units   rad/mm -> 0 to 1
 * Domain  channel 0 to 2; 1 for a wave of no end
 * Source  the dipole of Jensen et al. 2001: each source at depth z gives e^(-z sqrt(s^2 + k^2)), s^2 = 3 a (a + b),
 * in the plane's Fourier transform; over its value at 0 */
export function contrastLeft(channel: number, waves: number): number {
  const [scattered, absorbed] = SKIN_SCATTERING[channel];
  const lost = scattered + absorbed;
  const inside = -1.44 / INDEX ** 2 + 0.71 / INDEX + 0.668 + 0.0636 * INDEX;
  const mismatch = (1 + inside) / (1 - inside);
  const real = 1 / lost;
  const mirrored = real * (1 + (4 * mismatch) / 3);
  const still = 3 * absorbed * lost;
  const at = (k2: number) => {
    const s = Math.sqrt(still + k2);
    return Math.exp(-real * s) + Math.exp(-mirrored * s);
  };
  return at(waves * waves) / at(0);
}

/** The same as a mean of two rounds of diffusion each: contrast left is the sum of share / (1 + reach k^2)^2, which a
 * grid can do in rows and columns. `reach` in mm2.
 * Accuracy 0.003 of the light across a shadow's edge against the dipole; skin-scatter.test.ts
 * Source  least squares over 0 to 8 rad/mm */
export const SCATTER_ROUNDS: readonly (readonly { share: number; reach_mm2: number }[])[] = [
  [
    { share: 0.5963, reach_mm2: 0.4236 },
    { share: 0.4037, reach_mm2: 4.3424 },
  ],
  [
    { share: 0.7877, reach_mm2: 0.20126 },
    { share: 0.2123, reach_mm2: 1.11786 },
  ],
  [
    { share: 0.92707, reach_mm2: 0.09311 },
    { share: 0.07293, reach_mm2: 0.5367 },
  ],
];
