import { describe, expect, it } from "vitest";
import { type Emitter, SceneBuilder, Tracer } from "../engine/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { readGlasses } from "./glasses.ts";
import { mirrorOnLens, type WorldLens, writeOnLens } from "./glasses-lens.ts";
import { LensRays } from "./glasses-rays.ts";
import { lightUp, type Quality } from "./lighting.ts";
import { Memory } from "./memory.ts";
import type { GlassesReading } from "./types.ts";

/** A lens at the origin that looks along +x; its own left is +y. */
function lens(change: Partial<WorldLens> = {}): WorldLens {
  return {
    eye: "left",
    centre: [0, 0, 0],
    ahead: [1, 0, 0],
    left: [0, 1, 0],
    up: [0, 0, 1],
    halfWidth: 0.025,
    halfHeight: 0.019,
    cornerRadius: 0,
    curveRadius: Number.POSITIVE_INFINITY,
    ...change,
  };
}

/** A front square to the x axis, that looks back at the lens. */
function front(centre: readonly number[], change: Partial<Emitter> = {}): Emitter {
  return {
    shape: "rectangle",
    centre: Float64Array.from(centre),
    right: Float64Array.of(0, 1, 0),
    up: Float64Array.of(0, 0, 1),
    forward: Float64Array.of(-1, 0, 0),
    halfWidth: 0.2,
    halfHeight: 0.1,
    sides: 0,
    exponent: 1,
    edgeDrop: 0,
    distribution: null,
    ...change,
  };
}

function tracerOf(...emitters: Emitter[]): Tracer {
  const builder = new SceneBuilder();
  for (const e of emitters) builder.addEmitter(e);
  return new Tracer(builder.build());
}

/** It stands before the fronts, so that they hide nothing of the lens. */
const CAMERA = [2, 0, 0];

describe("[CT6] a flat lens is a flat mirror", () => {
  /** Seen from the camera through the mirror the front stands as far behind it: where it cuts the lens is its share. */
  function shareByHand(e: Emitter): number {
    const deep = e.centre[0];
    const scale = CAMERA[0] / (CAMERA[0] + deep);
    const overlap = (middle: number, half: number, reach: number) =>
      Math.max(0, Math.min(reach, scale * (middle + half)) - Math.max(-reach, scale * (middle - half)));
    const [w, h] = [0.025, 0.019];
    return (overlap(e.centre[1], e.halfWidth, w) * overlap(e.centre[2], e.halfHeight, h)) / (4 * w * h);
  }

  it.each([
    ["covers it", 0, 0, 2.6],
    ["a part of it", 0.24, 0.03, 2.6],
    ["a corner", -0.23, -0.12, 2.6],
    ["clear of it", 0.27, 0, 2.6],
    ["clear above", 0, 0.16, 2.6],
  ])("%s", (_, aside, upward, away) => {
    const e = front([away, aside, upward]);
    const found = new LensRays(tracerOf(e), lens(), CAMERA).all([[0, 0]]);
    const byHand = shareByHand(e);
    // one row and one column of the 24 x 16 places may fall to either side
    expect(Math.abs((found[0]?.share ?? 0) - byHand)).toBeLessThan(1 / 24 + 1 / 16);
    expect(found.length > 0).toBe(byHand > 0);
    expect(found[0]?.overPupil ?? false).toBe(aside === 0 && upward === 0);
    expect(new LensRays(tracerOf(e), lens(), CAMERA).isClearOf([0])).toBe(byHand === 0);
  });

  it("a front so small that it falls between the places is measured by its outline (3 %)", () => {
    const e = front([2.6, 0.004, 0.002], { halfWidth: 0.003, halfHeight: 0.002 });
    const [found] = new LensRays(tracerOf(e), lens(), CAMERA).all([]);
    expect(found.share / shareByHand(e)).toBeCloseTo(1, 1.5);
  });

  it("a bare bulb is found where its image is seen through the lens, and nowhere else", () => {
    const bulb = (y: number) => front([1, y, 0], { shape: "point", halfWidth: 0, halfHeight: 0 });
    // the lens's edge at 25 mm is where a bulb 37.5 mm aside shows
    for (const [y, shows] of [
      [0.037, true],
      [0.038, false],
    ] as const) {
      const found = new LensRays(tracerOf(bulb(y)), lens(), CAMERA).all([]);
      expect(found.map((f) => f.share)).toEqual(shows ? [0] : []);
    }
  });

  it("a front that shows its back, or stands behind the lens, is not mirrored", () => {
    const back = front([1, 0, 0], { forward: Float64Array.of(1, 0, 0) });
    const behind = front([-1, 0, 0], { forward: Float64Array.of(1, 0, 0) });
    for (const e of [back, behind]) expect(new LensRays(tracerOf(e), lens(), CAMERA).all([])).toEqual([]);
  });
});

describe("[CT7] a curved lens", () => {
  it.each([0.053, 0.1325, 0.53, 5.3])(
    "of radius %f m: both ways make one angle with its normal",
    (radius) => {
      const at = new Float64Array(6);
      const curved = lens({ curveRadius: radius });
      let met = 0;
      for (const to of [
        [1.2, 0.1, 0.05],
        [0.8, -0.4, 0.3],
        [0.4, 0.02, -0.01],
        [2.5, 0.9, 0.9],
      ]) {
        const place = mirrorOnLens(curved, CAMERA, to);
        // at little curve what stands far aside is mirrored far outside
        if (!place || Math.hypot(...place) > 0.04) continue;
        met++;
        writeOnLens(curved, place, at);
        const n = at.subarray(3);
        const [u, v] = [CAMERA, to].map((p) => {
          const d = [0, 1, 2].map((k) => p[k] - at[k]);
          const length = Math.hypot(...d);
          return d.map((x) => x / length);
        });
        const sum = [0, 1, 2].map((k) => u[k] + v[k]);
        const along = sum[0] * n[0] + sum[1] * n[1] + sum[2] * n[2];
        for (let k = 0; k < 3; k++) expect(Math.abs(sum[k] - along * n[k])).toBeLessThan(1e-7);
        expect(Math.hypot(n[0], n[1], n[2])).toBeCloseTo(1, 12);
      }
      expect(met).toBeGreaterThan(0);
    },
  );

  it("its share is that of a thousand times as many plain rays (one place in a hundred)", () => {
    const curved = lens({ curveRadius: 0.1325, cornerRadius: 0.012 });
    const e = front([1.1, 0.45, 0.2], { shape: "disc", halfWidth: 0.3 });
    const [found] = new LensRays(tracerOf(e), curved, CAMERA).all([]);
    expect(found.share).toBeGreaterThan(0.05);
    expect(Math.abs(found.share - plainShare(curved, e))).toBeLessThan(0.01);
  });

  /** Rays of a camera's picture that meet the sphere within the outline, mirrored, and met with the front. */
  function plainShare(curved: WorldLens, e: Emitter): number {
    const r = curved.curveRadius;
    let [all, meets] = [0, 0];
    for (let j = 0; j < 600; j++)
      for (let i = 0; i < 600; i++) {
        // a window in the plane of the vertex, wider than the lens
        const d = unit([-CAMERA[0], 0.06 * (i / 600 - 0.5), 0.05 * (j / 600 - 0.5)]);
        const m = [CAMERA[0] + r, 0, 0];
        const b = m[0] * d[0] + m[1] * d[1] + m[2] * d[2];
        const under = b * b - (m[0] * m[0] - r * r);
        if (under < 0) continue;
        const t = -b - Math.sqrt(under);
        const p = [CAMERA[0] + t * d[0], t * d[1], t * d[2]];
        const across = Math.max(0, Math.abs(p[1]) - (0.025 - 0.012));
        const upward = Math.max(0, Math.abs(p[2]) - (0.019 - 0.012));
        if (Math.hypot(across, upward) > 0.012) continue;
        all++;
        const n = unit([p[0] + r, p[1], p[2]]);
        const turn = 2 * (d[0] * n[0] + d[1] * n[1] + d[2] * n[2]);
        const s = d.map((x, k) => x - turn * n[k]);
        const far = (e.centre[0] - p[0]) / s[0];
        if (far > 0 && Math.hypot(p[1] + far * s[1] - e.centre[1], p[2] + far * s[2] - e.centre[2]) <= 0.3)
          meets++;
      }
    return meets / all;
  }

  function unit(v: number[]): number[] {
    const length = Math.hypot(...v);
    return v.map((x) => x / length);
  }
});

describe("[CT8] glasses of a plan", () => {
  const FACE = { at: [3, 3, 1.6] };
  const KEY = {
    name: "key",
    position: [3.5, 1.4, 2],
    direction: FACE,
    face: { shape: "rectangle", width: 0.8, height: 0.8 },
    output: { lumenSeconds: 2000 },
  };
  type Head = { turn?: number; tip?: number };

  const CAMERA_AT = { position: [3, 1, 1.6], direction: FACE };

  function plan(glasses: object | null, head: Head = {}, key: object = {}, camera: object = CAMERA_AT): Plan {
    const made = checkPlan({
      format: "tapemark/plan",
      version: 1,
      lights: [{ ...KEY, ...key }],
      people: [{ name: "sitter", position: [3, 3], stature: 1.7, glasses, head }],
      camera,
    });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    return made.plan;
  }

  function read(of: Plan, quality: Quality = "fine"): GlassesReading | null {
    return readGlasses(lightUp(of, quality, new Memory()), 0);
  }

  const CURVED = { curve: 8, coated: false };

  it("nobody without glasses has any", () => expect(read(plan(null))).toBeNull());

  it("the smallest turn or tip clears them, and a little less does not", () => {
    const clears = read(plan(CURVED))?.clears;
    if (!clears || clears.change === "lightHeight") throw new Error("no move of the head clears them");
    const moved = (amount: number): Head => (clears.change === "turn" ? { turn: amount } : { tip: amount });
    const lights = (head: Head) => read(plan(CURVED, head), "coarse")?.reflections ?? [];
    expect(lights({}).some((r) => r.light === "key")).toBe(true);
    expect(lights(moved(clears.amount))).toEqual([]);
    // the border is found to a quarter of a degree
    expect(lights(moved(clears.amount - Math.sign(clears.amount))).length).toBeGreaterThan(0);
    expect(read(plan(CURVED), "coarse")?.clears).toBeNull();
  });

  it("where no move of the head does, the light's height; and what lies over the pupil is told", () => {
    const wide = { name: "key", direction: FACE, face: { shape: "rectangle", width: 1.5, height: 0.6 } };
    const near = { position: [3, 2.1, 1.6], direction: FACE };
    const bulging = { curve: 10, lensHeight: 0.05, lensWidth: 0.056 };
    const at = (position: readonly number[], direction: object = FACE) =>
      plan(bulging, {}, { ...wide, position, direction }, near);
    const found = read(at([3.2, 1.9, 1.6]));
    expect(found?.reflections.map((r) => [r.eye, r.kind, r.overPupil])).toEqual([
      ["left", "light", true],
      ["right", "light", true],
    ]);
    expect(found?.clears).toMatchObject({ change: "lightHeight", light: "key" });
    // its front is kept on the bridge of the nose, 9 cm before the ears
    const bridge = { at: [3, 2.91, 1.6] };
    const height = (found?.clears?.amount ?? 0) / 100;
    expect(read(at([3.2, 1.9, 1.6 + height + 0.02], bridge), "coarse")?.reflections).toEqual([]);
    expect(read(at([3.2, 1.9, 1.6 + height - 0.1], bridge), "coarse")?.reflections).not.toEqual([]);
  });

  it("mirror the light and the lenses change places", () => {
    const here = read(plan(CURVED), "coarse");
    const there = read(plan(CURVED, {}, { position: [2.5, 1.4, 2] }), "coarse");
    const shares = (r: GlassesReading | null, eye: string) =>
      r?.reflections.filter((x) => x.eye === eye).map((x) => x.share);
    expect(shares(here, "left")?.length).toBe(1);
    expect(shares(there, "right")?.[0]).toBeCloseTo(shares(here, "left")?.[0] ?? 0, 2);
    expect(shares(there, "left")?.[0]).toBeCloseTo(shares(here, "right")?.[0] ?? 0, 2);
  });

  it("a light on one side of the camera high up clears flat lenses; a light that is off lies on none", () => {
    expect(read(plan({ curve: 0, tilt: 0, wrap: 0 }))?.reflections).toEqual([]);
    expect(read(plan(CURVED, {}, { on: false }))).toEqual({ reflections: [], clears: null });
  });
});
