/** Runs of frames: what moves, and what keeps still. */
import { describe, expect, it } from "vitest";
import { lightColour } from "../photometry/index.ts";
import { findBand } from "./band.ts";
import { driftOf } from "./drift.ts";
import { lookFrom } from "./look.ts";
import type { LinearPicture, PhotoFace, PhotoReading } from "./types.ts";

const FACE = {
  box: { left: 400, top: 600, width: 300, height: 400 },
  confidence: "good",
  light: { azimuth: 35, elevation: 30 },
  lightFromCamera: { azimuth: 35, elevation: 30 },
  uncertaintyDegrees: 5,
  second: null,
  head: { turn: 0, tip: 0, tilt: 0 },
  litSide: "left",
  ratioStops: 1.6,
  ratioUncertaintyStops: 0.4,
  pattern: "loop",
  between: null,
  edgeMillimetres: 12,
  catchlights: [{ eye: "left", clock: 10.5, shape: "round", widthDegrees: 30 }],
  clippedSkin: 0,
  skinHeadroomStops: 1,
  litCheekStops: 1.5,
  skinColour: [1, 0.7, 0.5],
  backgroundStops: -2,
  eyes: { open: { left: 0.9, right: 0.9 }, edgePixels: 3, motion: null },
  doubts: [],
} as const satisfies PhotoFace;

function frame(name: string, face: Partial<PhotoFace> | null, width = 2000): PhotoReading {
  return {
    image: { name, width, height: 1.5 * width, response: null } as PhotoReading["image"],
    faces: face === null ? [] : [{ ...FACE, ...face }],
    warnings: [],
  };
}

describe("drift of a run", () => {
  it("[CP10] the same frame again does not drift, also at half the size", () => {
    const half = { left: 200, top: 300, width: 150, height: 200 };
    const [, same, small] = driftOf([frame("a", {}), frame("b", {}), frame("c", { box: half }, 1000)]);
    for (const drift of [same, small]) {
      expect(drift?.flags).toEqual([]);
      expect(drift?.exposureStops).toBeCloseTo(0, 12);
      expect(drift?.size).toBeCloseTo(0, 12);
      expect(drift?.aside).toBeCloseTo(0, 12);
    }
  });
  it("[CP10] half a stop darker, a head to the right and larger are flagged, each in words", () => {
    const box = { left: 550, top: 600, width: 330, height: 440 };
    const [, drift] = driftOf([frame("a", {}), frame("b", { litCheekStops: 2, box })]);
    expect(drift?.flags).toEqual(["0.5 stop darker", "head to picture right", "head 10 % larger"]);
  });
  it("[CP11] skin under light of 4800 K in place of 5500 K is 26.5 mired warmer, within 2", () => {
    const [r, g, b] = lightColour(4800, 5500);
    const skinColour = [1 * r, 0.7 * g, 0.5 * b] as const;
    const [, drift] = driftOf([frame("a", {}), frame("b", { skinColour })]);
    expect(Math.abs((drift?.colourMireds ?? 0) - (1e6 / 4800 - 1e6 / 5500))).toBeLessThan(2);
    expect(drift?.flags).toEqual(["27 mired warmer"]);
  });
  it("[CP10] a frame without a face says so; none to compare with is no drift", () => {
    const [first, second] = driftOf([frame("a", null), frame("b", {})]);
    expect(first?.flags).toEqual(["no face found"]);
    expect(second?.flags).toEqual([]);
    expect(driftOf([])).toEqual([]);
  });
});

describe("a dark band", () => {
  /** A face-like blob on a graded ground; the lines from `from` down get `share` of the light, over a soft edge. */
  function picture(from: number, share: number, soft = 6): LinearPicture {
    const [width, height] = [240, 360];
    const rgb = new Float32Array(3 * width * height);
    for (let y = 0; y < height; y++) {
      const t = Math.max(0, Math.min(1, (y - from) / soft));
      const light = 1 + t * (share - 1);
      for (let x = 0; x < width; x++) {
        const blob = Math.exp(-(((x - 120) / 40) ** 2) - ((y - 160) / 60) ** 2);
        const grain = 1 + 0.05 * Math.sin(12.9898 * x + 78.233 * y);
        const value = light * (0.05 + 0.05 * (x / width) + 0.5 * blob) * grain;
        for (let c = 0; c < 3; c++) rgb[3 * (y * width + x) + c] = value;
      }
    }
    return { width, height, rgb };
  }
  it("[CP12] the lower fifth two stops down is a band along the bottom", () => {
    const band = findBand(picture(288, 0.25));
    expect(band?.edge).toBe("bottom");
    expect(Math.abs((band?.share ?? 0) - 0.2)).toBeLessThan(0.03);
    expect(Math.abs((band?.stops ?? 0) - 2)).toBeLessThan(0.3);
  });
  it("[CP12] the same picture without it, dark ground below the sitter, and a black frame have none", () => {
    expect(findBand(picture(400, 1))).toBeNull();
    const coat = picture(400, 1);
    for (let y = 250; y < 360; y++)
      for (let x = 50; x < 190; x++) coat.rgb.fill(0.01, 3 * (y * 240 + x), 3 * (y * 240 + x) + 3);
    expect(findBand(coat)).toBeNull();
    expect(findBand({ width: 240, height: 360, rgb: new Float32Array(3 * 240 * 360) })).toBeNull();
  });
  it("[CP12] ten pictures that fade evenly to one edge have none", () => {
    for (let k = 1; k <= 10; k++) {
      const { width, height, rgb } = picture(400, 1);
      for (let y = 0; y < height; y++)
        for (let i = 3 * y * width; i < 3 * (y + 1) * width; i++) rgb[i] *= 2 ** ((-k / 3) * (y / height));
      expect(findBand({ width, height, rgb })).toBeNull();
    }
  });
});

describe("a look as a brief", () => {
  const { want, notes, unseen } = lookFrom(frame("reference.jpg", {}), FACE);
  it("[CP13] every number is a range about what was seen, at least as wide as it is known", () => {
    expect(want).toMatchObject({
      pattern: "loop",
      litSide: "left",
      ratioStops: { from: 1.2, to: 2 },
      backgroundStops: { from: -2.5, to: -1.5 },
      azimuth: { from: 27, to: 43 },
      elevation: { from: 22, to: 38 },
      shadowEdgeMillimetres: { from: 8, to: 18 },
      catchlight: { clock: 10.5, within: 0.5 },
    });
  });
  it("[CP14] what a still cannot show is said plainly", () => {
    expect(unseen.join(" ")).toMatch(/how strong .* how far/);
    expect(notes.join(" ")).toMatch(/tones are taken as the file's standard says/);
    const blind = lookFrom(frame("x", {}), {
      ...FACE,
      light: null,
      ratioStops: null,
      between: "rembrandt",
      catchlights: [],
    });
    expect(blind.want).toMatchObject({ pattern: null, ratioStops: null, azimuth: null, catchlight: null });
    expect(blind.notes.join("; ")).toMatch(
      /where the light comes from: cannot be told.*between loop and Rembrandt/,
    );
  });
});
