import { describe, expect, it } from "vitest";
import { fresnelReflectance } from "./mirror.ts";
import { fresnelByCosine, lobeShare, lobeShares, SKIN_INDEX, skinLobe, underShine } from "./skin-lobe.ts";

type V = [number, number, number];
const N: V = [0, 0, 1];
const at = (polar: number, turn: number): V => [
  Math.sin(polar) * Math.cos(turn),
  Math.sin(polar) * Math.sin(turn),
  Math.cos(polar),
];

/** Plain sum over directions on a fine grid, equal steps of the squared sine. */
function integral(slope: number, v: V, steps: number): number {
  let sum = 0;
  for (let i = 0; i < steps; i++)
    for (let j = 0; j < steps; j++) {
      const l = at(Math.asin(Math.sqrt((i + 0.5) / steps)), (2 * Math.PI * (j + 0.5)) / steps);
      sum += skinLobe(slope, ...N, ...v, ...l);
    }
  return (Math.PI * sum) / (steps * steps);
}

describe("[PH14] the lobe of skin", () => {
  it("Fresnel by cosine is Fresnel by angle", () => {
    for (const degrees of [0, 30, 45, 60, 75, 85, 89])
      expect(fresnelByCosine(Math.cos((degrees * Math.PI) / 180), SKIN_INDEX)).toBeCloseTo(
        fresnelReflectance((degrees * Math.PI) / 180, SKIN_INDEX),
        9,
      );
  });

  it("is reciprocal, and nothing below the horizon", () => {
    for (const [a, b, turn] of [
      [0.3, 1.2, 0.4],
      [1.5, 0.9, 2],
      [1.1, 1.4, 3.1],
    ]) {
      const v = at(a, 0.2);
      const l = at(b, turn);
      expect(skinLobe(0.3, ...N, ...v, ...l)).toBeCloseTo(skinLobe(0.3, ...N, ...l, ...v), 12);
    }
    expect(skinLobe(0.3, ...N, ...at(0.5, 0), 0.6, 0, -0.8)).toBe(0);
    expect(skinLobe(0.3, ...N, 0.6, 0, -0.8, ...at(0.5, 0))).toBe(0);
  });

  it("throws back less than all that comes, and what the table of its shares says, within 1 %", () => {
    for (const slope of [0.1, 0.3, 0.6]) {
      const shares = lobeShares(slope);
      for (const cosine of [0.25, 0.5, 0.75, 1]) {
        const sum = integral(slope, at(Math.acos(cosine), 0), 600);
        expect(sum).toBeLessThan(1);
        // a plain sum over 360,000 directions against the sum over 576 mirrors
        expect(Math.abs(lobeShare(shares, cosine) / sum - 1), `${slope} ${cosine}`).toBeLessThan(0.01);
      }
      for (const share of shares.byCosine) expect(share > 0 && share < 1).toBe(true);
    }
  });

  it("a nearly smooth surface throws back what a smooth one does", () => {
    const shares = lobeShares(0.01);
    for (const degrees of [0, 30, 60])
      expect(
        lobeShare(shares, Math.cos((degrees * Math.PI) / 180)) /
          fresnelReflectance((degrees * Math.PI) / 180, SKIN_INDEX),
      ).toBeCloseTo(1, 1);
  });

  it("a smooth ball sends a quarter of F per solid angle to every side: the sum over its normals", () => {
    // closed form: a mirror ball spreads E pi R^2 evenly over 4 pi
    const apart = 0.8;
    const v = at(apart / 2, 0);
    const l = at(apart / 2, Math.PI);
    const steps = 800;
    let sum = 0;
    for (let i = 0; i < steps; i++)
      for (let j = 0; j < 64; j++) {
        // normals about the half-vector, as far as a slope of 0.02 reaches
        const polar = (0.15 * (i + 0.5)) / steps;
        const n = at(polar, (2 * Math.PI * (j + 0.5)) / 64);
        const nl = n[0] * l[0] + n[1] * l[1] + n[2] * l[2];
        const nv = n[0] * v[0] + n[1] * v[1] + n[2] * v[2];
        sum += skinLobe(0.02, ...n, ...v, ...l) * nl * nv * Math.sin(polar);
      }
    const all = (sum * 2 * Math.PI * 0.15) / (steps * 64);
    expect(all / (fresnelReflectance(apart / 2, SKIN_INDEX) / 4)).toBeCloseTo(1, 2);
  });
});

describe("[PH14] skin under its glints", () => {
  it("reflects the reflectance given of light from straight ahead, within 1 %, and never more than comes", () => {
    for (const slope of [0.1, 0.3, 0.6])
      for (const shine of [0, 0.5, 1, 2])
        for (const reflectance of [0.1, 0.36, 0.6, 1]) {
          const shares = lobeShares(slope);
          const under = underShine(reflectance, shine * lobeShare(shares, 1));
          // under the surface: (1 - s) on the way in over its mean, (1 - s) on the way out; by a sum over directions
          const steps = 2000;
          let out = 0;
          for (let i = 0; i < steps; i++)
            out += (1 - shine * lobeShare(shares, Math.sqrt((i + 0.5) / steps))) / (1 - shine * shares.mean);
          const straight = shine * lobeShare(shares, 1);
          const all = straight + (1 - straight) * under * (out / steps);
          expect(Math.abs(all / reflectance - 1)).toBeLessThan(0.01);
          for (const share of shares.byCosine)
            expect(shine * share + (1 - shine * share) * under).toBeLessThanOrEqual(
              Math.max(1, shine * share) + 1e-12,
            );
        }
  });

  it("where glints alone are more than the reflectance, nothing is taken off", () => {
    expect(underShine(0.02, 0.05)).toBe(0);
    expect(underShine(0.36, 0)).toBe(0.36);
  });
});
