import { describe, expect, it } from "vitest";
import { type FaceParts, PART_STRIDE, SUBSETS, scatterFace } from "./faces.ts";
import type { Emitter } from "./scene.ts";

function emitter(shape: Emitter["shape"]): Emitter {
  return {
    shape,
    centre: new Float64Array(3),
    right: Float64Array.of(1, 0, 0),
    up: Float64Array.of(0, 0, 1),
    forward: Float64Array.of(0, 1, 0),
    halfWidth: 0.5,
    halfHeight: 0.5,
    sides: 0,
    exponent: 1,
    edgeDrop: 0,
    distribution: null,
  };
}

/** How many of every `step`th point from `first` lie in each quarter of the face. */
function quarters(parts: FaceParts, first: number, step: number): number[] {
  const out = [0, 0, 0, 0];
  for (let i = first; i < parts.count; i += step) {
    const k = PART_STRIDE * i;
    out[(parts.data[k] > 0 ? 1 : 0) + (parts.data[k + 2] > 0 ? 2 : 0)]++;
  }
  return out;
}

describe("[EN8] points scattered over a face", () => {
  it.each(["disc", "rectangle"] as const)("[EN8] %s: a subset has points in every quarter", (shape) => {
    const parts = scatterFace(emitter(shape), 256);
    for (let first = 0; first < SUBSETS; first++)
      for (const count of quarters(parts, first, SUBSETS)) expect(count).toBeGreaterThanOrEqual(2);
  });

  it.each(["disc", "rectangle"] as const)("[EN8] %s: so have four of a subset, within one", (shape) => {
    const parts = scatterFace(emitter(shape), 256);
    for (let first = 0; first < SUBSETS; first++) {
      const count = quarters(parts, first, 4 * SUBSETS);
      expect(count.reduce((a, b) => a + b)).toBe(4);
      // a quarter may miss one to its neighbour; no half may have all four
      expect(count[0] + count[2]).toBeGreaterThan(0);
      expect(count[1] + count[3]).toBeGreaterThan(0);
      expect(count[0] + count[1]).toBeGreaterThan(0);
      expect(count[2] + count[3]).toBeGreaterThan(0);
    }
  });
});
