/** Heads by percentile: how large, and what of them keeps its size. */
import { describe, expect, it } from "vitest";
import { bendNeck, buildHead, buildPerson, headRotation, headScale } from "./index.ts";
import { normalQuantile } from "./percentile.ts";
import { at, distance } from "./testing/probes.ts";

/** Mean and standard deviation of a population half men, half women, from ANSUR II's of each, millimetres. */
function together(men: number, menSd: number, women: number, womenSd: number) {
  const mean = (men + women) / 2;
  return { mean, sd: Math.sqrt((menSd ** 2 + womenSd ** 2) / 2 + (men - mean) ** 2) };
}
const LENGTH = together(199.505, 7.025, 189.82, 7.449);
const CIRCUMFERENCE = together(574.373, 16.049, 561.12, 19.361);

describe("[FG12] the normal quantile", () => {
  // percentage points as printed in any table of the normal distribution
  it.each([
    [0.5, 0],
    [0.75, 0.67449],
    [0.9, 1.281552],
    [0.95, 1.644854],
    [0.975, 1.959964],
    [0.99, 2.326348],
    [0.01, -2.326348],
    [0.05, -1.644854],
  ])("[FG12] of %d is %d", (p, z) => expect(Math.abs(normalQuantile(p) - z)).toBeLessThan(1e-6));
  it("[FG12] the two formulae meet where one takes over from the other", () =>
    expect(normalQuantile(0.925 + 1e-9) - normalQuantile(0.925 - 1e-9)).toBeLessThan(1e-6));
});

/** Perimeter of the convex outline of the head's skin in a level slice, as a tape goes: millimetres. */
function tape(size: number): number {
  const head = buildHead(size);
  let longest = 0;
  for (let level = 0.03; level < 0.07; level += 0.004) {
    const z = level * head.scale;
    const points: [number, number][] = [];
    for (let v = 0; v < head.front.length; v++) {
      const p = at(head.mesh, v);
      // ears reach further out than the head does
      if (Math.abs(p[2] - z) < 0.003 && !(Math.abs(p[1]) > 0.0772 * head.scale)) points.push([p[0], p[1]]);
    }
    longest = Math.max(longest, perimeter(points));
  }
  return 1000 * longest;
}

function perimeter(points: [number, number][]): number {
  const sorted = points.toSorted((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: [number, number][]) => {
    const hull: [number, number][] = [];
    for (const p of list) {
      for (;;) {
        const [a, b] = hull.slice(-2);
        if (!b || (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
        hull.pop();
      }
      hull.push(p);
    }
    return hull;
  };
  const hull = [...half(sorted), ...half(sorted.toReversed())];
  return hull.reduce((sum, p, i) => sum + distance(p, hull[(i + 1) % hull.length]), 0);
}

function length(size: number): number {
  const { mesh } = buildHead(size);
  const xs = Array.from(mesh.positions.filter((_, i) => i % 3 === 0));
  const { scale } = buildHead(size);
  let front = 0;
  for (let v = 0; v < xs.length; v++) {
    const z = mesh.positions[3 * v + 2] / scale;
    if (z > 0.03 && z < 0.06) front = Math.max(front, xs[v]);
  }
  return 1000 * (front - xs.reduce((a, b) => Math.min(a, b)));
}

describe("[FG12] size by percentile", () => {
  it("[FG12] worked by hand: one standard deviation is 3.9 % of a head", () => {
    // sd/mean: length 8.710 / 194.6625 = 0.04475, circumference 18.980 / 567.7465 = 0.03343; half of both 0.03909
    expect(headScale(84.1344746)).toBeCloseTo(1.03909, 4);
    expect(headScale(50)).toBe(1);
  });
  // one factor for all sizes stands between length (which varies more) and circumference (less): 1.5 % off each at the
  // ends; against the mean head's own sizes, which are FG2's matter
  it.each([1, 5, 95, 99])("[FG12] percentile %d: length and circumference are that percentile's", (size) => {
    const z = normalQuantile(size / 100);
    const ratio = (of: typeof LENGTH) => 1 + (z * of.sd) / of.mean;
    expect(Math.abs(length(size) / length(50) / ratio(LENGTH) - 1)).toBeLessThan(0.02);
    expect(Math.abs(tape(size) / tape(50) / ratio(CIRCUMFERENCE) - 1)).toBeLessThan(0.02);
  });
  it("[FG12] a tape round the mean head reads within 3 % of the mean circumference", () =>
    expect(Math.abs(tape(50) / CIRCUMFERENCE.mean - 1)).toBeLessThan(0.03));
  it("[FG12] the same size is the same head, whoever asks", () => {
    expect(buildHead(80)).toBe(buildHead(80));
    expect(buildPerson({ stature: 1.6, pose: "standing", headSize: 80 }).head).toBe(buildHead(80));
    expect(buildPerson({ stature: 1.6, pose: "standing" }).head).toBe(buildHead());
  });
  it("[FG12] somebody is as tall as they are, whatever their head", () => {
    for (const headSize of [1, 50, 99]) {
      const { head, earHeight } = buildPerson({ stature: 1.692, pose: "standing", headSize });
      // the top of the head; 1 mm is what the mean head lacks of the mean (FG2)
      expect(Math.abs(earHeight + head.landmarks.crown[2] - 1.692)).toBeLessThan(0.001);
    }
  });
});

describe.each([1, 20, 80, 99])("[FG12] percentile %d", (size) => {
  const head = buildHead(size);
  const mean = buildHead();
  it("[FG12] eyes keep their size, and the lids lie on them as on the mean head", () => {
    for (const side of ["leftEye", "rightEye"] as const) {
      const [eye, was] = [head[side], mean[side]];
      expect([eye.globeRadius, eye.corneaRadius, eye.irisRadius]).toEqual(
        [0.012, 0.0078, 0.0059].map((r) => expect.closeTo(r, 12)),
      );
      expect(eye.centre[1]).toBeCloseTo(head.scale * was.centre[1], 12);
      for (let v = 0; v < mean.front.length; v++) {
        if (distance(at(mean.mesh, v), was.centre) > 0.0145) continue;
        const off = at(head.mesh, v).map((c, k) => c - eye.centre[k]);
        at(mean.mesh, v).forEach((c, k) => {
          expect(off[k]).toBeCloseTo(c - was.centre[k], 12);
        });
      }
    }
  });
  it("[FG12] the face is the mean one scaled, away from the eyes", () => {
    for (let v = 0; v < mean.front.length; v++) {
      if (!mean.front[v]) continue;
      const p = at(mean.mesh, v);
      if (distance(p, mean.leftEye.centre) < 0.03 || distance(p, mean.rightEye.centre) < 0.03) continue;
      at(head.mesh, v).forEach((c, k) => {
        expect(c).toBeCloseTo(head.scale * p[k], 12);
      });
    }
    expect(distance(head.landmarks.chin, [0, 0, 0]) / distance(mean.landmarks.chin, [0, 0, 0])).toBeCloseTo(
      head.scale,
      9,
    );
  });
  it("[FG12] the neck's foot fits the same collar", () => {
    let feet = 0;
    for (let v = 0; v < mean.front.length; v++) {
      const p = at(mean.mesh, v);
      if (0.272 * p[0] + 0.962 * p[2] + 0.1271 > 0) continue;
      expect(at(head.mesh, v)).toEqual(p);
      feet++;
    }
    expect(feet).toBeGreaterThan(100);
  });
  it("[FG12] its neck bends and its face stays whole", () => {
    const bent = bendNeck(head, headRotation(40, -15, 5));
    expect(bent).not.toBe(head);
    for (let v = 0; v < head.front.length; v++)
      if (head.front[v]) expect(at(bent.mesh, v)).toEqual(at(head.mesh, v));
  });
  it("[FG12] no triangle of the front is turned over", () => {
    const { triangles, normals } = head.mesh;
    for (let t = 0; t < triangles.length; t += 3) {
      const corners = [triangles[t], triangles[t + 1], triangles[t + 2]];
      if (!corners.every((c) => head.front[c])) continue;
      const [a, b, c] = corners.map((v) => at(head.mesh, v));
      const u = b.map((x, k) => x - a[k]);
      const w = c.map((x, k) => x - a[k]);
      const out = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
      for (const v of corners)
        expect(
          out[0] * normals[3 * v] + out[1] * normals[3 * v + 1] + out[2] * normals[3 * v + 2],
        ).toBeGreaterThan(0);
    }
  });
});
