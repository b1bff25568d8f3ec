import { describe, expect, it } from "vitest";
import { Pcg32 } from "../math/index.ts";
import { decodeSrgb, encodeSrgb } from "../photometry/index.ts";
import { type BracketFrame, type FittedResponse, fitResponse } from "./response.ts";
import { applyResponse, stopsOfLevel } from "./response-apply.ts";

/** Encoded level over stops from middle grey. None is of the family that is fitted. */
const CURVES: Record<string, (stops: number) => number> = {
  /** straight to one half, a shoulder to the clipping point 2.47 stops up, the sRGB curve (the plan format's picture rule) */
  shoulder: (stops) => {
    const [light, clip] = [0.1812 * 2 ** stops, 0.1812 * 2 ** 2.47];
    if (light >= clip) return 1;
    if (light <= 0.5) return encodeSrgb(light);
    const t = (light - 0.5) / (clip - 0.5);
    return encodeSrgb(0.5 + 0.5 * (1 - (1 - t) ** (2 * (clip - 0.5))));
  },
  /** an S over the logarithm: 1.06 / (1 + e^(−0.95 (stops − 0.12))), cut at 1 */
  logistic: (stops) => Math.min(1, 1.06 / (1 + Math.exp(-0.95 * (stops - 0.12)))),
  /** the sRGB curve of a file 2.7 stops under clipping, with an S of its own over the level: e + e (1 − e) (e − 0.35) / 2 */
  lifted: (stops) => {
    if (stops >= 2.7) return 1;
    const e = encodeSrgb(2 ** (stops - 2.7));
    return e + (e * (1 - e) * (e - 0.35)) / 2;
  },
};

const clippingOf = (curve: (stops: number) => number) => {
  let stops = 0;
  while (curve(stops) < 1 - 0.5 / 255) stops += 0.001;
  return stops;
};

/** A card's mean is over many pixels: its level falls between those of 8 bits. */
function bracket(curve: (stops: number) => number, step: number, noise?: Pcg32): BracketFrame[] {
  const frames: BracketFrame[] = [];
  for (let i = Math.round(-3 / step); i <= Math.round(3 / step); i++) {
    const stops = i * step;
    // flashes repeat within some hundredths of a stop
    const given =
      stops + (noise ? 0.05 * (noise.nextUint32() / 2 ** 32 + noise.nextUint32() / 2 ** 32 - 1) : 0);
    frames.push({ stops, level: decodeSrgb(Math.round(curve(given) * 255 * 8) / 255 / 8) });
  }
  return frames;
}

function fitted(result: FittedResponse) {
  if (result.kind !== "fitted") throw new Error(result.problem);
  return result;
}

/** Worst error over the bracket, clipped part left out. */
function worstError(result: FittedResponse, curve: (stops: number) => number): number {
  let worst = 0;
  const end = Math.min(3, clippingOf(curve) - 0.1);
  for (let stops = -3; stops <= end; stops += 0.05)
    worst = Math.max(worst, Math.abs(stopsOfLevel(decodeSrgb(curve(stops)), fitted(result).curve) - stops));
  return worst;
}

describe("a camera's curve from a bracket of a grey card", () => {
  it("[PF14] three made-up curves come back within 0.1 stop, and clipping within 0.1", () => {
    for (const [name, curve] of Object.entries(CURVES))
      for (const step of [1 / 3, 1 / 2]) {
        const result = fitResponse(bracket(curve, step));
        expect(worstError(result, curve), name).toBeLessThan(0.1);
        expect(Math.abs(fitted(result).curve.clippingStops - clippingOf(curve)), name).toBeLessThan(0.1);
        expect(fitted(result).leftOut).toEqual([]);
        expect(fitted(result).isClippingSeen, name).toBe(clippingOf(curve) < 3);
      }
  });

  it("[PF14] with frames a whole stop apart the curve still does, clipping within 0.3", () => {
    for (const [name, curve] of Object.entries(CURVES)) {
      const result = fitResponse(bracket(curve, 1));
      expect(worstError(result, curve), name).toBeLessThan(0.1);
      expect(Math.abs(fitted(result).curve.clippingStops - clippingOf(curve)), name).toBeLessThan(0.3);
    }
  });

  it("[PF15] flashes that vary by hundredths of a stop leave the curve within 0.15 and clipping within half a frame's distance, seeds 1 and 2", () => {
    for (const seed of [1, 2])
      for (const [name, curve] of Object.entries(CURVES)) {
        const result = fitResponse(bracket(curve, 1 / 2, new Pcg32(seed)));
        expect(worstError(result, curve), `${name} ${seed}`).toBeLessThan(0.15);
        expect(Math.abs(fitted(result).curve.clippingStops - clippingOf(curve)), name).toBeLessThan(0.25);
        expect(fitted(result).curve.rmsStops).toBeLessThan(0.05);
      }
  });

  it("[PF16] one wild frame is singled out, whichever it is", () => {
    for (const [i, off] of [
      [0, 0.7],
      [6, 2],
      [12, -2],
    ] as const) {
      const frames = bracket(CURVES.logistic, 1 / 2);
      frames[i] = { ...frames[i], level: decodeSrgb(CURVES.logistic(frames[i].stops + off)) };
      const result = fitted(fitResponse(frames));
      expect(result.leftOut.map(({ index }) => index)).toEqual([i]);
      expect(Math.abs(result.leftOut[0].offStops - off), `${i}`).toBeLessThan(0.2);
      expect(worstError(result, CURVES.logistic), `${i}`).toBeLessThan(0.1);
      expect(result.curve.frames).toBe(12);
    }
  });

  it("[PF16] frames in no order at all, too few or too near each other are refused with the cure", () => {
    const frames = bracket(CURVES.shoulder, 1 / 2);
    const turned = frames.map((frame, i) => ({ ...frame, stops: frames[frames.length - 1 - i].stops }));
    expect(fitResponse(turned)).toMatchObject({ kind: "problem", problem: /do not agree/ });
    expect(fitResponse(frames.slice(0, 4))).toMatchObject({
      kind: "problem",
      problem: "4 frames tell of the curve, 5 are needed",
      cure: "take a bracket from 3 stops under to 3 over, half a stop apart",
    });
    expect(fitResponse(frames.slice(2, 8))).toMatchObject({
      problem: "the frames span 2.5 stops, 3.5 are needed",
    });
    const clipped = frames.map(({ stops }) => ({ stops, level: 1 }));
    expect(fitResponse(clipped)).toMatchObject({ problem: "0 frames tell of the curve, 5 are needed" });
    expect(fitResponse([])).toMatchObject({ kind: "problem" });
    expect(fitResponse([...frames, { stops: Number.NaN, level: 0.2 }])).toMatchObject({ kind: "problem" });
  });

  it("[PF14] a bracket counted from elsewhere gives the same curve, moved", () => {
    const frames = bracket(CURVES.lifted, 1 / 2);
    const moved = fitted(fitResponse(frames.map(({ stops, level }) => ({ stops: stops - 7, level }))));
    expect(moved.curve.clippingStops + 7).toBeCloseTo(fitted(fitResponse(frames)).curve.clippingStops, 6);
  });

  it("[PF17] a picture is brought back to the light of the scene, and always rises", () => {
    for (const [name, curve] of Object.entries(CURVES)) {
      const result = fitted(fitResponse(bracket(curve, 1 / 2)));
      const clipping = clippingOf(curve);
      const stops = Array.from({ length: 60 }, (_, i) => -3 + (i * (clipping - 0.1 + 3)) / 60);
      const rgb = Float32Array.from(stops, (value) => decodeSrgb(curve(value)));
      const light = applyResponse({ width: 20, height: 1, rgb }, result.curve).rgb;
      // against the first, as ratios are taken
      for (const [i, value] of stops.entries())
        expect(Math.abs(Math.log2(light[i] / light[0]) - (value - stops[0])), name).toBeLessThan(0.15);
      const levels = Float32Array.from({ length: 3000 }, (_, i) => -0.2 + i / 2000);
      const all = applyResponse({ width: 1000, height: 1, rgb: levels }, result.curve).rgb;
      for (let i = 1; i < all.length; i++) expect(all[i], name).toBeGreaterThan(all[i - 1]);
      expect(all.every(Number.isFinite)).toBe(true);
      expect(
        applyResponse({ width: 1, height: 1, rgb: Float32Array.of(1, 0, -1) }, result.curve).rgb,
      ).toEqual(Float32Array.of(1, 0, -1));
    }
  });

  it("[PF17] ratios on skin come back within 0.1 stop: the curve was put on each channel and is taken off each", () => {
    const luminance = ([r, g, b]: Float32Array) => 0.2126 * r + 0.7152 * g + 0.0722 * b;
    for (const curve of [CURVES.logistic, CURVES.shoulder]) {
      const { curve: known } = fitted(fitResponse(bracket(curve, 1 / 2)));
      // linear light of fair and of dark skin, relative to middle grey
      for (const skin of [
        [3.1, 1.8, 1.2],
        [1.1, 0.5, 0.28],
      ])
        for (const stops of [1, 2, 3]) {
          const shown = (under: number) =>
            Float32Array.from(skin, (part) => decodeSrgb(curve(Math.log2(part) - under)));
          const lights = [0, stops].map((under) =>
            luminance(applyResponse({ width: 1, height: 1, rgb: shown(under) }, known).rgb),
          );
          expect(Math.abs(Math.log2(lights[0] / lights[1]) - stops)).toBeLessThan(0.1);
        }
    }
  });
});
