import { beforeAll, describe, expect, it } from "vitest";
import { buildHead } from "../figure/index.ts";
import { Pcg32 } from "../math/index.ts";
import { LUMINANCE } from "../photometry/index.ts";
import { type Brightness, edgesIn } from "./eyes-edges.ts";
import { opennessOf } from "./eyes-open.ts";
import { judge, readEyes } from "./eyes-read.ts";
import { EYE_CORNERS, EYE_RINGS } from "./find-points.ts";
import type { HeadFit } from "./head-fit.ts";
import { type RenderedFace, renderedFace } from "./testing/rendered-head.ts";
import { type FoundFace, type LinearPicture, type Photograph, POINTS } from "./types.ts";

/** 10 to 90 % width of a step seen through a Gaussian of one pixel; a pixel's own square adds a twelfth to its variance. */
const OF_GAUSS = 2.5631;
const widthOf = (sigma: number) => OF_GAUSS * Math.sqrt(sigma * sigma + 1 / 12);

let face: RenderedFace;
let eye: Brightness;
let length: number;

beforeAll(() => {
  face = renderedFace({ light: [30, 30], tilt: 4, width: 210, part: "eye" });
  const { width, height, rgb } = face.picture;
  const values = new Float32Array(width * height);
  for (let i = 0; i < values.length; i++)
    for (let c = 0; c < 3; c++) values[i] += LUMINANCE[c] * rgb[3 * i + c];
  eye = { width, height, values };
  const [a, b] = EYE_CORNERS.right.map((v) => face.marks.subarray(2 * v, 2 * v + 2));
  length = Math.hypot(a[0] - b[0], a[1] - b[1]);
}, 60_000);

/** Means of the picture moved by each of the offsets, weighed. */
function spread(of: Brightness, kernel: readonly (readonly [number, number, number])[]): Brightness {
  const { width, height, values } = of;
  const out = new Float32Array(values.length);
  const at = (x: number, y: number) =>
    values[Math.min(height - 1, Math.max(0, y)) * width + Math.min(width - 1, Math.max(0, x))];
  for (const [dx, dy, weight] of kernel) {
    const [left, top] = [Math.floor(dx), Math.floor(dy)];
    const [fx, fy] = [dx - left, dy - top];
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        const upper = (1 - fx) * at(x + left, y + top) + fx * at(x + left + 1, y + top);
        const lower = (1 - fx) * at(x + left, y + top + 1) + fx * at(x + left + 1, y + top + 1);
        out[y * width + x] += weight * ((1 - fy) * upper + fy * lower);
      }
  }
  return { width, height, values: out };
}

function gauss(of: Brightness, sigma: number): Brightness {
  const reach = Math.ceil(4 * sigma);
  const steps = Array.from({ length: 2 * reach + 1 }, (_, i) => i - reach);
  const weights = steps.map((x) => Math.exp((-x * x) / (2 * sigma * sigma)));
  const total = weights.reduce((sum, w) => sum + w, 0);
  const row = spread(
    of,
    steps.map((x, i) => [x, 0, weights[i] / total]),
  );
  return spread(
    row,
    steps.map((x, i) => [0, x, weights[i] / total]),
  );
}

/** @param direction degrees, 0 level, 90 upright, up the picture */
function smeared(of: Brightness, pixels: number, direction: number): Brightness {
  const n = 2 * pixels;
  const [c, s] = [Math.cos((direction * Math.PI) / 180), -Math.sin((direction * Math.PI) / 180)];
  return spread(
    of,
    Array.from({ length: n }, (_, i) => {
      const along = ((i + 0.5) / n - 0.5) * pixels;
      return [along * c, along * s, 1 / n] as const;
    }),
  );
}

function noisy(of: Brightness, deviation: number): Brightness {
  const stream = new Pcg32(7, 1);
  const values = of.values.map(
    (v) =>
      v + deviation * Math.sqrt(-2 * Math.log(1 - stream.next())) * Math.cos(2 * Math.PI * stream.next()),
  );
  return { ...of, values };
}

describe("[LM20] edges are as wide as their blur", () => {
  /** A bright disc: edges every way. */
  const disc = (): Brightness => {
    const side = 120;
    const values = new Float32Array(side * side);
    for (let y = 0; y < side; y++)
      for (let x = 0; x < side; x++) {
        let inside = 0;
        for (let k = 0; k < 16; k++)
          if (Math.hypot(x + ((k & 3) + 0.5) / 4 - 60.3, y + ((k >> 2) + 0.5) / 4 - 59.8) < 34) inside++;
        values[y * side + x] = 0.1 + (0.6 * inside) / 16;
      }
    return { width: side, height: side, values };
  };
  for (const sigma of [1, 2, 4])
    it(`a disc through a Gaussian of ${sigma} pixels, clean and with noise`, () => {
      for (const deviation of [0, 0.01]) {
        const widths = edgesIn(noisy(gauss(disc(), sigma), deviation)).map((edge) => edge.width);
        widths.sort((a, b) => a - b);
        const middle = widths[widths.length >> 1];
        // Sobel's crest and the mean along three pixels of a curved edge widen it a little
        expect(middle / widthOf(sigma)).toBeGreaterThan(0.9);
        expect(middle / widthOf(sigma)).toBeLessThan(1.12);
      }
    });
  it("nothing but noise has none", () => {
    const plain = { width: 60, height: 60, values: new Float32Array(3600).fill(0.2) };
    expect(edgesIn(noisy(plain, 0.01))).toEqual([]);
  });
});

describe("[LM21] a rendered eye is as sharp as it was left", () => {
  it("within 15 % from a Gaussian of 0.7 to 3 pixels, in order, with noise of a hundredth", () => {
    let before = 0;
    for (const sigma of [0.7, 1.5, 2.2, 3]) {
      const read = judge(noisy(gauss(eye, sigma), 0.01), length, 1);
      expect(read, `${sigma}`).not.toBeNull();
      const off = read!.edgePixels / widthOf(sigma);
      expect(off, `${sigma} pixels`).toBeGreaterThan(0.85);
      expect(off, `${sigma} pixels`).toBeLessThan(1.15);
      expect(read!.edgePixels).toBeGreaterThan(before);
      expect(read!.motion, `${sigma} pixels`).toBeNull();
      before = read!.edgePixels;
    }
  });
});

describe("[LM22] smear along one direction", () => {
  for (const [pixels, direction] of [
    [8, 0],
    [8, 90],
    [12, 45],
    [12, 120],
  ])
    it(`${pixels} pixels at ${direction} degrees`, () => {
      const { motion } = judge(noisy(smeared(gauss(eye, 0.8), pixels, direction), 0.005), length, 1)!;
      expect(motion).not.toBeNull();
      // an eye has more edges one way than another: length to a third, direction to 25 degrees
      expect(motion!.pixels / pixels).toBeGreaterThan(0.67);
      expect(motion!.pixels / pixels).toBeLessThan(1.33);
      const off = Math.abs(motion!.direction - direction) % 180;
      expect(Math.min(off, 180 - off)).toBeLessThan(25);
    });
});

/** A found face whose lids are this share as far apart as the figure's. */
function withLids(share: number): FoundFace {
  const points = new Float32Array(3 * POINTS);
  const { positions } = buildHead().mesh;
  for (let v = 0; v < 468; v++) {
    points[3 * v] = 500 + 3000 * positions[3 * v + 1];
    points[3 * v + 1] = 500 - 3000 * positions[3 * v + 2];
  }
  for (const eye of ["left", "right"] as const) {
    const y = EYE_CORNERS[eye].reduce((sum, v) => sum + points[3 * v + 1] / 2, 0);
    for (const v of EYE_RINGS[eye])
      if (!(EYE_CORNERS[eye] as readonly number[]).includes(v))
        points[3 * v + 1] = y + share * (points[3 * v + 1] - y);
  }
  return { points, box: { left: 0, top: 0, width: 1000, height: 1000 }, score: 1, isLifted: false };
}

const AHEAD = { turn: 0, tip: 0 } as HeadFit;

describe("[LM23] how far an eye is open", () => {
  it("the figure's are, lids together are not, between it grows", () => {
    const open = [0, 0.4, 0.6, 0.8, 1].map((share) => opennessOf(withLids(share), AHEAD, "left")!);
    expect(open[0]).toBe(0);
    expect(open.at(-1)).toBeGreaterThan(0.75);
    for (let i = 1; i < open.length; i++) expect(open[i]).toBeGreaterThanOrEqual(open[i - 1]);
    expect(opennessOf(withLids(0.7), AHEAD, "right")).toBeCloseTo(
      opennessOf(withLids(0.7), AHEAD, "left")!,
      2,
    );
  });
  it("an eye that is turned away is not judged, the other is", () => {
    const turned = { turn: 60, tip: 0 } as HeadFit;
    expect(opennessOf(withLids(1), turned, "left")).toBeNull();
    expect(opennessOf(withLids(1), turned, "right")).not.toBeNull();
  });
});

describe("[LM24] eyes are read at the file's full size", () => {
  const at = (picture: LinearPicture, scale: number): Photograph =>
    ({
      width: picture.width * scale,
      height: picture.height * scale,
      picture,
      crop: ({ left, top, width, height }: { left: number; top: number; width: number; height: number }) => {
        // the file shows the working copy's pixels enlarged: so much wider is every edge
        const rgb = new Float32Array(3 * width * height);
        const of = (k: number, most: number) => Math.min(most - 1.001, Math.max(0, k / scale - 0.5));
        for (let y = 0; y < height; y++)
          for (let x = 0; x < width; x++) {
            const [px, py] = [of(left + x + 0.5, picture.width), of(top + y + 0.5, picture.height)];
            const [i, j] = [Math.floor(px), Math.floor(py)];
            for (let c = 0; c < 3; c++) {
              const v = (di: number, dj: number) => picture.rgb[3 * ((j + dj) * picture.width + i + di) + c];
              const upper = v(0, 0) + (px - i) * (v(1, 0) - v(0, 0));
              const lower = v(0, 1) + (px - i) * (v(1, 1) - v(0, 1));
              rgb[3 * (y * width + x) + c] = upper + (py - j) * (lower - upper);
            }
          }
        return { width, height, rgb };
      },
    }) as unknown as Photograph;
  const found = (): FoundFace => {
    const points = new Float32Array(3 * POINTS);
    for (let v = 0; v < 468; v++) points.set(face.marks.subarray(2 * v, 2 * v + 2), 3 * v);
    return { points, box: { left: 0, top: 0, width: 1, height: 1 }, score: 1, isLifted: false };
  };
  it("twice as large a file of the same picture has edges twice as wide", () => {
    const blurred = gauss(eye, 1.5);
    const rgb = Float32Array.from(
      { length: 3 * blurred.values.length },
      (_, i) => blurred.values[Math.floor(i / 3)],
    );
    const picture = { ...face.picture, rgb };
    const [one, two] = [1, 2].map((scale) => readEyes(at(picture, scale), found()));
    expect(one.edgePixels! / widthOf(1.5)).toBeGreaterThan(0.85);
    expect(one.edgePixels! / widthOf(1.5)).toBeLessThan(1.15);
    expect(two.edgePixels! / one.edgePixels!).toBeGreaterThan(1.8);
    expect(two.edgePixels! / one.edgePixels!).toBeLessThan(2.2);
  });
});
