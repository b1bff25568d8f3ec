/** Parts of a picture, its sixteen bits and its tenths of a stop. */
import { describe, expect, it } from "vitest";
import { focalPlaneExposure, LUMINANCE, MIDDLE_LEVEL } from "../photometry/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { viewfinder, writeCameraRay } from "./camera-rays.ts";
import { developFrame, Memory, renderFrame } from "./index.ts";

const checked = checkPlan({
  format: "tapemark/plan",
  version: 1,
  lights: [
    {
      name: "key",
      position: [0.9, -1.3, 2],
      direction: { at: [0, 0, 1.55] },
      face: { shape: "disc", width: 0.6 },
      output: { lumenSeconds: 2500 },
    },
  ],
  people: [{ name: "cellist", position: [0, 0], hair: { length: "short" } }],
  camera: {
    position: [0, -2, 1.6],
    direction: { at: [0, 0, 1.55] },
    roll: 5,
    focalLength: 105,
    headroom: 1.4,
  },
});
if (!checked.ok) throw new Error(checked.problems[0].what);
const plan: Plan = checked.plan;
const memory = new Memory();
const frame = renderFrame(plan, { width: 60, quality: "coarse" }, memory);
const picture = developFrame(frame, plan.camera, true);
const { width, height } = picture;

describe("parts of a picture", () => {
  it("[RD19] the rays of a part are those of the whole picture there", () => {
    const whole = viewfinder(plan.camera, 600);
    const part = viewfinder(plan.camera, 150, { left: 0.5, top: 0.2, right: 0.75, bottom: 0.6 });
    expect([whole.height, part.height]).toEqual([900, 360]);
    const [a, b] = [new Float64Array(3), new Float64Array(3)];
    for (const [x, y] of [
      [0, 0],
      [150, 360],
      [37.5, 211.2],
    ]) {
      writeCameraRay(whole, 300 + x, 180 + y, a);
      writeCameraRay(part, x, y, b);
      for (let k = 0; k < 3; k++) expect(b[k]).toBeCloseTo(a[k], 12);
    }
  });

  it("[RD19] a part shows what the whole picture shows there", () => {
    const region = { left: 0.25, top: 0.2, right: 0.75, bottom: 0.7 };
    const part = developFrame(
      renderFrame(plan, { width: 30, quality: "coarse", region }, memory),
      plan.camera,
    );
    expect([part.width, part.height]).toEqual([30, 45]);
    // grain differs from picture to picture: blocks of 5 x 5 pixels are compared, tone by tone
    let worst = 0;
    for (let y = 0; y < 45; y += 5) {
      for (let x = 0; x < 30; x += 5) {
        const mean = (rgba: Uint8ClampedArray, across: number, x0: number, y0: number) => {
          let sum = 0;
          for (let j = 0; j < 25; j++)
            sum += rgba[4 * ((y0 + Math.floor(j / 5)) * across + x0 + (j % 5)) + 1];
          return sum / 25;
        };
        const there = mean(picture.rgba, width, 15 + x, 18 + y);
        worst = Math.max(worst, Math.abs(mean(part.rgba, 30, x, y) - there));
      }
    }
    // measured 3.9 of 255, by the grain of coarse frames; twice that
    expect(worst).toBeLessThan(8);
  });

  it("[RD19] sixteen bits are the same picture: their upper eight agree with the eight within one", () => {
    const { deep, rgba, clipped } = picture;
    if (deep === null) throw new Error("not deep");
    let worst = 0;
    const levels = new Set<number>();
    for (let i = 0; i < width * height; i++) {
      for (let c = 0; c < 3; c++) {
        const value = deep[3 * i + c];
        worst = Math.max(worst, Math.abs(value / 257 - rgba[4 * i + c]));
        levels.add(value);
        if (rgba[4 * i + c] === 255) expect(value).toBe(65535);
        if (clipped[i] === 0) expect(value).toBeLessThan(65535);
      }
    }
    expect(worst).toBeLessThanOrEqual(1);
    expect(levels.size).toBeGreaterThan(256);
    expect(developFrame(frame, plan.camera).deep).toBe(null);
  });

  it("[RD19] tenths of a stop are those of the luminance from the middle level, whatever clips", () => {
    const { iso, fNumber } = plan.camera;
    let lit = 0;
    let over = 0;
    for (let i = 0; i < width * height; i++) {
      let luminous = 0;
      for (let c = 0; c < 3; c++) luminous += LUMINANCE[c] * frame.luminance[3 * i + c];
      const stops = Math.log2((focalPlaneExposure(luminous, fNumber) * iso) / MIDDLE_LEVEL);
      if (!(luminous > 0)) expect(picture.tenths[i]).toBe(-128);
      else if (stops > -12.7) {
        lit++;
        if (stops > plan.camera.headroom) over++;
        expect(Math.abs(picture.tenths[i] / 10 - stops)).toBeLessThanOrEqual(0.0501);
      }
    }
    expect(lit).toBeGreaterThan(500);
    expect(over).toBeGreaterThan(0);
    expect(picture.clipped.includes(1) || picture.clipped.includes(2)).toBe(true);
  });
});
