import { describe, expect, it } from "vitest";
import { contrastLeft } from "../photometry/index.ts";
import { type SkinNet, skinNet, wander } from "./frame-scatter.ts";

/** A sheet of skin seen square on, or leaned back by `lean`, whose pixels are `pitch` metres wide. */
function sheet(width: number, height: number, pitch: number, lean = 0): SkinNet {
  const n = width * height;
  const points = new Float32Array(3 * n);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      points.set([pitch * x, pitch * y, pitch * y * Math.tan(lean)], 3 * (y * width + x));
  return skinNet(
    width,
    Uint32Array.from({ length: n }, (_, i) => i),
    points,
    3,
    new Uint16Array(n),
    () => pitch,
  );
}

/** Light x metres inside the lit side of a sharp edge, by the dipole. */
function dipoleEdge(channel: number, x: number): number {
  const step = 0.005;
  let sum = 0;
  for (let k = step / 2; k < 20; k += step) sum += (contrastLeft(channel, k) / k) * Math.sin(k * 1000 * x);
  return 0.5 + (sum * step) / Math.PI;
}

const total = (net: SkinNet, light: Float32Array) => light.reduce((sum, v, i) => sum + v * net.area[i], 0);

describe("[RD13] light that wanders under skin", () => {
  it("is not lost, on even ground and on leaned, and leaves evenly lit skin as it is", () => {
    for (const lean of [0, 1.1]) {
      const net = sheet(40, 30, 0.0006, lean);
      const light = Float32Array.from({ length: net.count }, (_, i) => (i * 7919) % 13);
      const even = new Float32Array(net.count).fill(3);
      for (const channel of [0, 1, 2]) {
        expect(total(net, wander(net, light, channel)) / total(net, light)).toBeCloseTo(1, 5);
        for (const v of wander(net, even, channel)) expect(v).toBeCloseTo(3, 4);
      }
    }
  });

  it("softens an edge as the dipole does, at every scale, along rows and down columns", () => {
    for (const pitch of [0.0002, 0.0005])
      for (const channel of [0, 1, 2])
        for (const down of [false, true]) {
          const long = Math.round(0.06 / pitch);
          const net = down ? sheet(3, long, pitch) : sheet(long, 3, pitch);
          const at = (i: number) => (down ? Math.floor(i / 3) : i % long);
          const light = Float32Array.from({ length: net.count }, (_, i) => +(at(i) >= long / 2));
          const out = wander(net, light, channel);
          for (let i = 0; i < net.count; i++) {
            const x = (at(i) + 0.5 - long / 2) * pitch;
            if (Math.abs(x) > 0.008) continue;
            // a pixel of half a millimetre is no longer small against the reach of green and blue
            expect(Math.abs(out[i] - dipoleEdge(channel, x))).toBeLessThan(pitch > 0.0003 ? 0.035 : 0.01);
          }
        }
  });

  it("a spot of light spreads nearly round", () => {
    const net = sheet(81, 81, 0.0004);
    const light = new Float32Array(net.count);
    light[40 * 81 + 40] = 1;
    const out = wander(net, light, 0);
    const at = (x: number, y: number) => out[(40 + y) * 81 + 40 + x];
    // 4 mm away, straight and aslant: rows and columns carry a little further than what lies between
    expect(at(10, 0) / at(7, 7)).toBeGreaterThan(0.75);
    expect(at(10, 0) / at(7, 7)).toBeLessThan(1.6);
  });

  it("does nothing where a pixel is wider than it wanders, nor from body to body, nor across a fold", () => {
    const light = Float32Array.of(1, 0, 1, 0, 1, 0, 1, 0);
    const wide = sheet(8, 1, 0.05);
    const far = wander(wide, light, 0);
    light.forEach((v, i) => {
      expect(Math.abs(far[i] - v)).toBeLessThan(0.01);
    });
    const points = new Float32Array(24);
    for (let i = 0; i < 8; i++) points.set([0.0005 * i, 0, i < 4 ? 0 : 0.01], 3 * i);
    const all = Uint32Array.from({ length: 8 }, (_, i) => i);
    const step = Float32Array.of(1, 1, 1, 1, 0, 0, 0, 0);
    const fold = skinNet(8, all, points, 3, new Uint16Array(8), () => 0.0005);
    const bodies = skinNet(
      8,
      all,
      points.map((v, i) => (i % 3 === 2 ? 0 : v)),
      3,
      Uint16Array.of(1, 1, 1, 1, 2, 2, 2, 2),
      () => 0.0005,
    );
    for (const net of [fold, bodies])
      wander(net, step, 0).forEach((v, i) => {
        expect(v).toBeCloseTo(step[i], 5);
      });
  });
});
