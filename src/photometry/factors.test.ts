import { describe, expect, it } from "vitest";
import { angleBetween, dot, type Vec3, writeSobol, writeSpherePoint } from "../math/index.ts";
import { QuantityError } from "../units/index.ts";
import {
  centredRectangleFactor,
  cornerRectangleFactorAcross,
  discFactor,
  discFactorAcross,
  lobedDiscFactor,
  polygonFactor,
  sphereFactor,
  tiltedDiscFactor,
} from "./index.ts";

const rad = Math.PI / 180;

/** F by a plain sum over directions: the cosine of every one that meets the source, over pi. */
function byDirections(meets: (w: Vec3) => boolean, normal: Vec3): number {
  const n = 400_000;
  const w = [0, 0, 0] as [number, number, number];
  let sum = 0;
  for (let i = 0; i < n; i++) {
    writeSpherePoint(w, 0, i, n);
    const c = dot(w, normal);
    if (c > 0 && meets(w)) sum += c;
  }
  return (sum * 4) / n;
}

describe("[PH3] discs and spheres by closed form", () => {
  it.each([
    [0.4, 0.7, 20],
    [0.4, 0.7, 70],
    [0.4, 0.7, 95],
    [2, 0.5, 120],
    [2, 0.5, 150],
  ])("disc r %f at %f, element tilted %f degrees: a sum over directions agrees (0.2 %)", (r, h, tilt) => {
    const normal: Vec3 = [Math.sin(tilt * rad), 0, Math.cos(tilt * rad)];
    const plain = byDirections(([x, y, z]) => z > 0 && Math.hypot(x, y) * h <= r * z, normal);
    // 400,000 directions leave about 1e-5 of the half-space
    expect(Math.abs(tiltedDiscFactor(r, h, tilt * rad) - plain)).toBeLessThan(0.002 * plain + 2e-5);
  });
  it.each([0, 60, 75, 90, 100])("sphere cut by the horizon or not, tilted %f degrees", (tilt) => {
    const normal: Vec3 = [Math.sin(tilt * rad), 0, Math.cos(tilt * rad)];
    const half = Math.asin(0.5 / 1.2);
    const plain = byDirections((w) => angleBetween(w, [0, 0, 1]) < half, normal);
    expect(Math.abs(sphereFactor(0.5, 1.2, tilt * rad) - plain)).toBeLessThan(0.002 * plain + 2e-5);
  });
  it("tilts join without a step where the horizon meets the rim, and end at nothing", () => {
    const horizon = Math.atan(1);
    expect(tiltedDiscFactor(1, 1, horizon + 1e-9)).toBeCloseTo(tiltedDiscFactor(1, 1, horizon), 8);
    expect(tiltedDiscFactor(1, 1, Math.PI - horizon - 1e-6)).toBeCloseTo(0, 8);
    expect(tiltedDiscFactor(1, 1, Math.PI)).toBe(0);
    expect(tiltedDiscFactor(1, 0, Math.PI / 2)).toBeCloseTo(0.5, 12);
  });
  it("on the disc's plane: whole inside, half on the rim, nothing outside", () => {
    expect(discFactor(1, 0, 0.5)).toBe(1);
    expect(discFactor(1, 0, 1)).toBe(0.5);
    expect(discFactor(1, 0, 2)).toBe(0);
    expect(discFactorAcross(1, 0, 1)).toBe(0);
  });
  it("far away they are the inverse square to nine digits: nothing is lost in differences", () => {
    for (const d of [1e4, 1e6]) {
      expect(discFactor(0.5, d, 0) / (0.25 / d ** 2)).toBeCloseTo(1, 7);
      expect(discFactorAcross(0.5, d, d) / (0.25 / (4 * d ** 2))).toBeCloseTo(1, 7);
    }
  });
  it("a lobe of 1 is the plain disc", () => expect(lobedDiscFactor(0.5, 1, 1)).toBeCloseTo(0.2, 15));
  it("a point on or inside a sphere is refused", () => {
    expect(() => sphereFactor(1, 1, 0)).toThrow(QuantityError);
    expect(() => sphereFactor(1, Number.NaN, 0)).toThrow(QuantityError);
  });
});

/** The same polygon by a plain sum over its fan of triangles, 2^16 points in each. */
function polygonByPoints(corners: readonly Vec3[], normal: Vec3): number {
  const p = new Float64Array(2);
  const n = 65536;
  let sum = 0;
  for (let k = 1; k + 1 < corners.length; k++) {
    const [o, a, b] = [corners[0], corners[k], corners[k + 1]];
    const [u, v] = [a.map((x, i) => x - o[i]), b.map((x, i) => x - o[i])];
    const n2 = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    const area = Math.hypot(n2[0], n2[1], n2[2]) / 2;
    for (let i = 0; i < n; i++) {
      writeSobol(p, 0, i);
      const [s, t] = p[0] + p[1] > 1 ? [1 - p[0], 1 - p[1]] : [p[0], p[1]];
      const q = [0, 1, 2].map((j) => o[j] + s * u[j] + t * v[j]);
      const d2 = dot(q, q);
      const here = Math.max(0, dot(q, normal));
      const there = Math.abs(dot(q, n2)) / (2 * area);
      sum += (here * there * area) / (d2 * d2 * Math.PI * n);
    }
  }
  return sum;
}

const origin: Vec3 = [0, 0, 0];
const square: Vec3[] = [
  [-0.5, -0.5, 1],
  [0.5, -0.5, 1],
  [0.5, 0.5, 1],
  [-0.5, 0.5, 1],
];

describe("[PH4] any polygon by the sum over its edges", () => {
  it("a square is four corner rectangles", () =>
    expect(polygonFactor(square, origin, [0, 0, 1])).toBeCloseTo(centredRectangleFactor(1, 1, 1), 14));
  it("the other way round is the same", () =>
    expect(polygonFactor([...square].reverse(), origin, [0, 0, 1])).toBeCloseTo(
      polygonFactor(square, origin, [0, 0, 1]),
      14,
    ));
  it("a panel whose foot is on the element's plane is the perpendicular closed form", () => {
    const wall: Vec3[] = [
      [1.2, 0, 0],
      [1.2, 0.9, 0],
      [1.2, 0.9, 0.6],
      [1.2, 0, 0.6],
    ];
    expect(polygonFactor(wall, origin, [0, 0, 1])).toBeCloseTo(
      cornerRectangleFactorAcross(0.6, 0.9, 1.2),
      14,
    );
  });
  const slanting: Vec3[] = [
    [0.3, -0.4, 0.8],
    [1.1, 0.1, 0.2],
    [0.7, 0.9, -0.6],
    [-0.1, 0.4, 0],
  ];
  it.each([[[0, 0, 1]], [[1, 0, 0]], [[0.6, 0, -0.8]], [[0, 0.6, 0.8]]] as [Vec3][])(
    "a slanting one, cut by the horizon of %j: a plain sum agrees (0.2 %)",
    (normal) => {
      // corners are flat: the last lies in the plane of the first three
      const [a, b, c] = slanting;
      const flat: Vec3[] = [a, b, c, [a[0] + c[0] - b[0], a[1] + c[1] - b[1], a[2] + c[2] - b[2]]];
      const plain = polygonByPoints(flat, normal);
      expect(plain).toBeGreaterThan(1e-3);
      expect(polygonFactor(flat, origin, normal) / plain).toBeCloseTo(1, 2.4);
    },
  );
  it("below the horizon, edge on and of no size it is nothing, and never NaN", () => {
    expect(polygonFactor(square, origin, [0, 0, -1])).toBe(0);
    expect(polygonFactor(square, [3, 0, 1], [0, 0, 1])).toBe(0);
    expect(polygonFactor(square, [0, 0, 1], [0, 0, 1])).toBe(0);
    expect(polygonFactor(square, [0.5, 0.2, 1], [1, 0, 0])).toBe(0);
    expect(polygonFactor([square[0], square[0], square[0]], origin, [0, 0, 1])).toBe(0);
    expect(polygonFactor([], origin, [0, 0, 1])).toBe(0);
  });
});
