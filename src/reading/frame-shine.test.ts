/** Skin in frames: furnace, brute force, neutrality, what is traced. */
import { describe, expect, it } from "vitest";
import { cast, cutFace, directFlat } from "../engine/index.ts";
import { lobeShares, skinLobe } from "../photometry/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { viewfinder } from "./camera-rays.ts";
import { renderFrame } from "./frame.ts";
import { SEEN } from "./frame-samples.ts";
import { Glints } from "./frame-shine.ts";
import { lightUp } from "./lighting.ts";
import { Memory } from "./memory.ts";

type Given = Record<string, unknown>;

function plan(skin: Given, more: Given = {}): Plan {
  const at = [3, 3.6, 1.55];
  const light = (name: string, position: number[], face: Given) => ({
    name,
    position,
    direction: { at },
    face,
    output: { lumenSeconds: 500 },
  });
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 6, depth: 7, height: 3 },
    lights: [
      light("key", [4, 2.6, 2.3], { shape: "disc", width: 0.6 }),
      light("fill", [1.8, 2.5, 1.7], { shape: "rectangle", width: 0.9, height: 1.2 }),
    ],
    people: [{ name: "sitter", position: [3, 3.6], stature: 1.7, facing: 180, skin }],
    camera: { position: [3, 1, 1.55], direction: { at }, focalLength: 180, fNumber: 8 },
    ...more,
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

const frameOf = (p: Plan, memory = new Memory(), width = 60) =>
  renderFrame(p, { width, quality: "coarse" }, memory);

describe("[RD9] skin in even light", () => {
  it("shows face on the reflectance given within 1 %, at the rim more, and never more than comes", () => {
    for (const shine of [0, 1, 2])
      for (const reflectance of [0.1, 0.36, 0.9]) {
        const { luminance, seen } = frameOf(
          plan({ reflectance, shine }, { lights: [], room: null, ambient: { lux: 1000 } }),
        );
        const arriving = 1000 * 0.00625;
        const shown = insideSkin(luminance, seen, 60).map((v) => (v * Math.PI) / arriving / reflectance);
        expect(shown.length).toBeGreaterThan(300);
        // the darkest is the one that is seen most nearly face on
        expect(Math.abs(Math.min(...shown) - 1)).toBeLessThan(0.01);
        expect(Math.max(...shown) * reflectance).toBeLessThanOrEqual(1);
        if (shine === 0) expect(Math.max(...shown)).toBeCloseTo(1, 5);
        else expect(Math.max(...shown)).toBeGreaterThan(1.01);
      }
  });
});

/** Green of the pixels that have skin all round: on outlines skin mixes with what is beside. */
function insideSkin(luminance: Float32Array, seen: Uint8Array, width: number): number[] {
  const out: number[] = [];
  for (let i = width + 1; i < seen.length - width - 1; i++) {
    const around = [-width - 1, -width, -width + 1, -1, 0, 1, width - 1, width, width + 1];
    if (around.every((d) => seen[i + d] === SEEN.skin)) out.push(luminance[3 * i + 1]);
  }
  return out;
}

describe("[RD10] glints of a face", () => {
  it("agree with a sum over 10,000 parts within 2 % of it, or 1 % of the brightest where it is dim", () => {
    for (const face of [
      { shape: "point" },
      { shape: "disc", width: 0.2 },
      { shape: "disc", width: 1.5 },
      { shape: "rectangle", width: 0.3, height: 1.8 },
      { shape: "polygon", sides: 8, width: 1.2 },
    ]) {
      const p = plan({}, { room: null });
      const light = { ...p.lights[0], face } as Plan["lights"][number];
      const lighting = lightUp({ ...p, lights: [light] }, "fine", new Memory());
      const { tracer, scene } = lighting.stage;
      const view = viewfinder(p.camera, 60);
      const glints = new Glints(lighting, view, 0);
      const many = cutFace(scene.emitters[0], 50);
      for (const slope of [0.1, 0.2, 0.3, 0.6]) {
        const rows: [number, number][] = [];
        for (let k = 0; k < 40; k++) {
          // normals all about the way to the camera
          const polar = (1.5 * (k + 0.5)) / 40;
          const turn = 2.4 * k;
          const n = [Math.sin(polar) * Math.cos(turn), -Math.cos(polar), Math.sin(polar) * Math.sin(turn)];
          const points = Float32Array.of(3, 3.5, 1.55, n[0], n[1], n[2]);
          const open = directFlat(tracer, 0, many, 0, 1, 3, 3.5, 1.55, n[0], n[1], n[2], false);
          if (!(open > 0)) continue;
          glints.look(points, 0, 1, lobeShares(slope));
          const away = [0, 1, 2].map((c) => view.position[c] - points[c]);
          const d = Math.hypot(...away);
          const [vx, vy, vz] = away.map((v) => v / d);
          let sum = 0;
          for (let i = 0; i < many.count; i++) {
            const l = [0, 1, 2].map((c) => many.data[4 * i + c] - points[c]);
            const r = Math.hypot(...l);
            const brings =
              many.data[4 * i + 3] *
              directFlat(tracer, 0, many, i, many.count, 3, 3.5, 1.55, n[0], n[1], n[2], false);
            if (brings > 0)
              sum +=
                brings *
                skinLobe(slope, points[3], points[4], points[5], vx, vy, vz, l[0] / r, l[1] / r, l[2] / r);
          }
          rows.push([Math.PI * sum, glints.off * open]);
        }
        const peak = Math.max(...rows.map(([sum]) => sum));
        for (const [sum, ours] of rows)
          expect(Math.abs(ours - sum), `${face.shape} ${slope}: ${sum} ${ours}`).toBeLessThanOrEqual(
            0.02 * Math.max(sum, 0.5 * peak),
          );
      }
    }
  });
});

describe("[RD11] neutral", () => {
  it("a grey plan is grey in every pixel, to the bit", () => {
    const { luminance } = frameOf(plan({ reflectance: 0.3, shine: 1.5 }));
    for (let i = 0; i < luminance.length; i += 3) {
      if (luminance[i] !== luminance[i + 1] || luminance[i] !== luminance[i + 2])
        expect([...luminance.subarray(i, i + 3)]).toEqual([luminance[i], luminance[i], luminance[i]]);
    }
  });
  it("coloured skin is not", () => {
    const { luminance, seen } = frameOf(plan({ reflectance: [0.5, 0.3, 0.2] }));
    const i = seen.indexOf(SEEN.skin);
    expect(luminance[3 * i]).toBeGreaterThan(luminance[3 * i + 2]);
  });
});

describe("[RD12] shine, roughness and power", () => {
  it("trace nothing", () => {
    const memory = new Memory();
    frameOf(plan({}), memory);
    const traced = (p: Plan) => {
      const before = cast.rays;
      frameOf(p, memory);
      return cast.rays - before;
    };
    expect(traced(plan({ shine: 0.2 }))).toBe(0);
    expect(traced(plan({ roughness: 0.15, shine: 2 }))).toBe(0);
    const brighter = plan({});
    Object.assign(brighter.lights[0].output, { lumenSeconds: 900 });
    expect(traced(brighter)).toBe(0);
  });

  it("a light of twice the power glints twice as bright", () => {
    const memory = new Memory();
    const alone = (lumenSeconds: number) => {
      const p = plan({ shine: 2 });
      p.lights[1].on = false;
      Object.assign(p.lights[0].output, { lumenSeconds });
      return frameOf(p, memory).luminance;
    };
    const once = alone(400);
    alone(800).forEach((v, i) => {
      expect(v).toBeCloseTo(2 * once[i], 4);
    });
  });
});
