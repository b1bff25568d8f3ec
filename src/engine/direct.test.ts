import { describe, expect, it } from "vitest";
import { offAxis, tilted } from "../../reference/section5.tables.ts";
import { askedFace, directByShare, directField, directFlat, type FieldAtPoint, shareSeen } from "./direct.ts";
import { directAtMeter } from "./direct-meter.ts";
import { cutFace } from "./faces.ts";
import type { Emitter } from "./scene.ts";
import { SceneBuilder } from "./scene-builder.ts";
import { Tracer } from "./tracer.ts";

const AXES = {
  right: Float64Array.of(1, 0, 0),
  up: Float64Array.of(0, -1, 0),
  forward: Float64Array.of(0, 0, -1),
};

function disc(radius: number, height: number, exponent = 1): Emitter {
  return {
    shape: "disc",
    centre: Float64Array.of(0, 0, height),
    ...AXES,
    halfWidth: radius,
    halfHeight: radius,
    sides: 0,
    exponent,
    edgeDrop: 0,
    distribution: null,
  };
}

function sceneOf(...emitters: Emitter[]): Tracer {
  const b = new SceneBuilder();
  for (const e of emitters) b.addEmitter(e);
  return new Tracer(b.build());
}

/** E / (pi L) of a perfect diffuser of area A and 1 lm.s: L = 1 / (pi A), so F = E A. */
function factor(e: Emitter, p: number[], n: number[], area: number): number {
  const field: FieldAtPoint = { sum: 0, x: 0, y: 0, z: 0 };
  return directAtMeter(sceneOf(e), 0, p, n, field) * area;
}

const rad = Math.PI / 180;
/** Asked of direct, unobstructed light: 0.5 % (physics.md); reached here with room to spare. */
const REL = 1e-3;

describe("[EN1] direct light against configuration factors (Howell, catalogue section B)", () => {
  it.each([
    [1, 1, 0.5],
    [0.5, 1, 0.2],
  ])("disc on its axis, r %f h %f", (r, h, published) => {
    expect(factor(disc(r, h), [0, 0, 0], [0, 0, 1], Math.PI * r * r) / published).toBeCloseTo(1, 3);
  });

  it.each(offAxis)("disc off its axis, r %f h %f a %f", (r, h, a, parallel, across) => {
    const area = Math.PI * r * r;
    expect(Math.abs(factor(disc(r, h), [a, 0, 0], [0, 0, 1], area) / parallel - 1)).toBeLessThan(REL);
    expect(Math.abs(factor(disc(r, h), [a, 0, 0], [-1, 0, 0], area) / across - 1)).toBeLessThan(REL);
  });

  it.each(tilted)("tilted element, h/r %f tilt %f", (h, tilt, published) => {
    const n = [Math.sin(tilt * rad), 0, Math.cos(tilt * rad)];
    expect(Math.abs(factor(disc(1, h), [0, 0, 0], n, Math.PI) / published - 1)).toBeLessThan(0.004);
  });

  it.each([
    [1, 0.2],
    [2, 0.189639],
    [4, 0.171027],
    [8, 0.140809],
    [16, 0.0999929],
  ])("lobe of exponent %f on the axis", (m, published) => {
    // L = L0 cos^(m-1) and 1 lm.s: pi L0 = (m + 1) / (2 A)
    const area = Math.PI * 0.25;
    const e = factor(disc(0.5, 1, m), [0, 0, 0], [0, 0, 1], 1);
    expect(Math.abs(e / ((published * (m + 1)) / (2 * area)) - 1)).toBeLessThan(REL);
  });
});

describe("[EN2] two roads to the same number", () => {
  it("a coarse cut agrees with a fine one within the tolerance of a drag", () => {
    const t = sceneOf(disc(0.75, 1.3));
    const fine = directFlat(t, 0, cutFace(t.scene.emitters[0], 40), 0, 1, 0.4, 0, 0, 0, 0, 1);
    const coarse = directFlat(t, 0, cutFace(t.scene.emitters[0], 2), 0, 1, 0.4, 0, 0, 0, 0, 1);
    expect(Math.abs(coarse / fine - 1)).toBeLessThan(0.02);
  });

  it("the far field of a face is that of a point: vector over scalar 4", () => {
    const t = sceneOf(disc(0.1, 50));
    const f = { sum: 0, x: 0, y: 0, z: 0 };
    directField(t, 0, cutFace(t.scene.emitters[0], 8), 0, 0, 0, true, f);
    expect(Math.hypot(f.x, f.y, f.z) / (f.sum / 4)).toBeCloseTo(4, 4);
  });

  it("a panel between takes the light away", () => {
    const b = new SceneBuilder();
    b.addEmitter(disc(0.2, 2));
    b.addPanel(
      { centre: Float64Array.of(0, 0, 1), right: AXES.right, up: AXES.up, forward: AXES.forward },
      1,
      1,
      [0, 0, 0],
      0,
      0.5,
    );
    const f = { sum: 0, x: 0, y: 0, z: 0 };
    expect(directAtMeter(new Tracer(b.build()), 0, [0, 0, 0], [0, 0, 1], f)).toBe(0);
  });

  /** A panel across half the space between, its edge at x = edge at half the height. */
  function halfHidden(edge: number): Tracer {
    const b = new SceneBuilder();
    b.addEmitter(disc(0.5, 2));
    b.addPanel(
      { centre: Float64Array.of(edge - 2, 0, 1), right: AXES.right, up: AXES.up, forward: AXES.forward },
      4,
      4,
      [0, 0, 0],
      0,
      4,
    );
    return new Tracer(b.build());
  }

  it("the share that is seen past an edge is the segment of the disc", () => {
    // the edge at half the height hides the disc up to x = 2 edge: the part beyond is a circular segment
    for (const edge of [-0.24, -0.11, -0.03, 0, 0.04, 0.13, 0.22]) {
      const t = halfHidden(edge);
      const parts = cutFace(t.scene.emitters[0], 40);
      const c = (2 * edge) / 0.5;
      const flat = shareSeen(t, 0, parts, 0, 1, 0, 0, 0, 0, 0, 1);
      // far smaller than its distance, the disc is even as seen from here to 4 %: hold the exact sum to the segment loosely
      const segment = (Math.acos(c) - c * Math.sqrt(1 - c * c)) / Math.PI;
      expect(Math.abs(flat - segment)).toBeLessThan(0.01);
    }
  });

  it.each([
    [4, 64, 0.03],
    [8, 256, 0.012],
  ])(
    "few rays first, then many: %i rings and %i points within %f of the whole light, past any edge",
    (rings, count, bound) => {
      let worst = 0;
      for (let edge = -0.3; edge <= 0.3; edge += 0.007) {
        const t = halfHidden(edge);
        const e = t.scene.emitters[0];
        const open = directFlat(t, 0, cutFace(e, 40), 0, 1, 0, 0, 0, 0, 0, 1, false);
        const exact = directFlat(t, 0, cutFace(e, 40), 0, 1, 0, 0, 0, 0, 0, 1);
        const quick = directByShare(t, 0, askedFace(e, rings, count), 0, 0, 0, 0, 0, 1);
        worst = Math.max(worst, Math.abs(quick - exact) / open);
      }
      expect(worst).toBeLessThan(bound);
    },
  );
});
