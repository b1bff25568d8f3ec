import { describe, expect, it } from "vitest";
import { writeR2, writeSobol, writeSpherePoint } from "./index.ts";

function mean(
  n: number,
  write: (out: Float64Array, at: number, i: number) => void,
  f: (u: number, v: number) => number,
) {
  const p = new Float64Array(2);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    write(p, 0, i);
    sum += f(p[0], p[1]);
  }
  return sum / n;
}

describe("[MA3] points that spread themselves evenly", () => {
  it("Sobol: the first points are those of the published sequence", () => {
    const out = new Float64Array(16);
    for (let i = 0; i < 8; i++) writeSobol(out, 2 * i, i);
    // biome-ignore format: pairs
    expect([...out]).toEqual([
      0, 0, 0.5, 0.5, 0.25, 0.75, 0.75, 0.25, 0.125, 0.625, 0.625, 0.125, 0.375, 0.375, 0.875, 0.875,
    ]);
  });
  it("Sobol: each box of area 2^-8 holds exactly one of 256 points, whatever its shape and where they start", () => {
    const p = new Float64Array(2);
    for (const start of [0, 256, 256 * 12345]) {
      for (let k = 0; k <= 8; k++) {
        const boxes = new Set<number>();
        for (let i = start; i < start + 256; i++) {
          writeSobol(p, 0, i);
          boxes.add(Math.floor(p[0] * 2 ** k) * 2 ** (8 - k) + Math.floor(p[1] * 2 ** (8 - k)));
        }
        expect(boxes.size).toBe(256);
      }
    }
  });
  it.each([
    ["R2", writeR2],
    ["Sobol", writeSobol],
  ] as const)("%s: a smooth mean is near after 1024 points", (_name, write) => {
    // 1024 draws by chance would be off by about 0.006
    expect(Math.abs(mean(1024, write, (u, v) => u * v) - 0.25)).toBeLessThan(1e-3);
    expect(Math.abs(mean(1024, write, (u, v) => Math.hypot(u, v)) - 0.765195716)).toBeLessThan(1e-3);
  });
  it("R2: its steps are the first two powers of one over the plastic number, g^3 = g + 1", () => {
    const out = new Float64Array(2);
    writeR2(out, 0, 1);
    const [u, v] = [out[0] + 0.5, out[1] + 0.5];
    expect(u * u).toBeCloseTo(v, 15);
    expect(v + v * u).toBeCloseTo(1, 14);
  });
  it("sphere: on the sphere, centred, and the second moments are a third", () => {
    const n = 2000;
    const p = new Float64Array(3);
    const first = [0, 0, 0];
    const second = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      writeSpherePoint(p, 0, i, n);
      expect(Math.hypot(p[0], p[1], p[2])).toBeCloseTo(1, 14);
      for (let k = 0; k < 3; k++) {
        first[k] += p[k] / n;
        second[k] += p[k] ** 2 / n;
      }
    }
    for (let k = 0; k < 3; k++) {
      expect(Math.abs(first[k])).toBeLessThan(1e-3);
      expect(second[k]).toBeCloseTo(1 / 3, 3);
    }
  });
});
