import { execFileSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { writeSpherePoint } from "../math/index.ts";
import { nearestByBruteForce } from "./brute-force.ts";
import { buildBvh } from "./bvh.ts";
import { found, Walker } from "./walker.ts";

/** A bumpy ball: 2,400 triangles of very different sizes and shapes. */
function bumpyBall(): { positions: Float64Array; triangles: Uint32Array } {
  const positions: number[] = [];
  const triangles: number[] = [];
  const [around, down] = [60, 20];
  for (let j = 0; j <= down; j++) {
    for (let i = 0; i < around; i++) {
      const polar = (Math.PI * j) / down;
      const turn = (2 * Math.PI * i) / around;
      const r = 1 + 0.3 * Math.sin(5 * turn) * Math.sin(7 * polar);
      positions.push(
        r * Math.sin(polar) * Math.cos(turn),
        r * Math.sin(polar) * Math.sin(turn),
        r * Math.cos(polar),
      );
    }
  }
  for (let j = 0; j < down; j++) {
    for (let i = 0; i < around; i++) {
      const a = j * around + i;
      const b = j * around + ((i + 1) % around);
      triangles.push(a, a + around, b, b, a + around, b + around);
    }
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** One ray of a fan. */
function stopped(walker: Walker, o: readonly number[], d: readonly number[], tMax: number): boolean {
  walker.seen[0] = 1;
  walker.setRay(0, d[0], d[1], d[2], tMax);
  walker.fan(1, o[0], o[1], o[2]);
  return walker.seen[0] === 0;
}

describe("[EN4] the hierarchy finds what brute force finds", () => {
  const mesh = bumpyBall();
  const bvh = new Walker(buildBvh(mesh.positions, mesh.triangles));
  const starts = new Float64Array(3);
  const ways = new Float64Array(3);

  it.each([0, 100])("600 rays, everything shifted by %f m", (shift) => {
    const moved = { ...mesh, positions: mesh.positions.map((x) => x + shift) };
    const tree = new Walker(buildBvh(moved.positions, moved.triangles));
    for (let k = 0; k < 600; k++) {
      writeSpherePoint(starts, 0, k, 600);
      writeSpherePoint(ways, 0, (k * 37) % 600, 600);
      const o = Array.from(starts, (x) => 2.5 * x + shift);
      const aim = Array.from(ways, (x, i) => 0.9 * x + shift - o[i]);
      const length = Math.hypot(...aim);
      const d = aim.map((x) => x / length);
      const slow = nearestByBruteForce(moved.positions, moved.triangles, o, d);
      const hit = tree.closest(o[0], o[1], o[2], d[0], d[1], d[2], 1e9);
      expect(hit, `ray ${k}`).toBe(slow.triangle >= 0);
      if (!hit) continue;
      // rounding of 64-bit positions 100 m from the origin
      expect(Math.abs(found.t - slow.t), `ray ${k}`).toBeLessThan(1e-9);
      expect(stopped(tree, o, d, slow.t * 1.001)).toBe(true);
      expect(stopped(tree, o, d, slow.t * 0.999)).toBe(false);
    }
  });

  it("a ray along an axis, along a face of a box, misses nothing and gives no NaN", () => {
    expect(bvh.closest(-5, 0.01, 0.01, 1, 0, 0, 1e9)).toBe(true);
    expect(Number.isFinite(found.t)).toBe(true);
    expect(bvh.closest(-5, 9, 0, 1, 0, 0, 1e9)).toBe(false);
  });

  it("an empty mesh is met by nothing", () => {
    const empty = new Walker(buildBvh(new Float64Array(0), new Uint32Array(0)));
    expect(empty.closest(0, 0, 0, 0, 0, 1, 1e9)).toBe(false);
  });
});

it("[EN4] a ray exactly along a seam between triangles does not slip through", () => {
  // a quad cut along its diagonal, and a thousand rays that meet the cut itself
  const positions = Float64Array.of(0, 0, 0, 0.7, 0.1, 0, 0.9, 1.3, 0, -0.1, 0.8, 0);
  const tree = new Walker(buildBvh(positions, Uint32Array.of(0, 1, 2, 0, 2, 3)));
  for (let k = 1; k < 1000; k++) {
    const [x, y] = [(0.9 * k) / 1000, (1.3 * k) / 1000];
    const d = [x - 0.3, y - 2.1, -3.7];
    const length = Math.hypot(...d);
    expect(tree.closest(0.3, 2.1, 3.7, d[0] / length, d[1] / length, d[2] / length, 1e9), `ray ${k}`).toBe(
      true,
    );
  }
});

it("[EN5] the kept kernel is what its source compiles to", () => {
  expect(() => execFileSync(process.execPath, ["scripts/kernel.mjs", "--check"])).not.toThrow();
});

it("[EN4] a fan gives each ray what it gets alone", () => {
  const mesh = bumpyBall();
  const walker = new Walker(buildBvh(mesh.positions, mesh.triangles));
  const o = [0.4, 2.2, -0.3];
  const ways = Array.from({ length: 400 }, (_, k) => {
    const a = 0.11 * k;
    return [0.004 * k * Math.cos(a) - o[0], 0.5 - o[1], 0.004 * k * Math.sin(a) - o[2]];
  });
  const alone = ways.map((d) => stopped(walker, o, d, 1));
  ways.forEach((d, i) => {
    walker.seen[i] = 1;
    walker.setRay(i, d[0], d[1], d[2], 1);
  });
  walker.fan(ways.length, o[0], o[1], o[2]);
  const together = ways.map((_, i) => walker.seen[i] === 0);
  expect(together).toEqual(alone);
  expect(alone.filter(Boolean).length).toBeGreaterThan(100);
  expect(alone.filter((x) => !x).length).toBeGreaterThan(20);
});
