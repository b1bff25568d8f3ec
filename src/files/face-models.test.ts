import { beforeAll, describe, expect, it } from "vitest";
import {
  type FaceFinder,
  type FaceNets,
  type FoundFace,
  fitHead,
  type LinearPicture,
  makeFaceFinder,
} from "../testframe/index.ts";
import { type RenderedFace, renderedFace } from "../testframe/testing/rendered-head.ts";
import { openFaceNets } from "./face-models.ts";

/** What keeps its place on the skull. */
const STEADY = [1, 4, 5, 6, 9, 10, 33, 133, 151, 152, 168, 195, 234, 263, 362, 454];

let nets: FaceNets;
let finder: FaceFinder;
let frontal: RenderedFace;
let turned: RenderedFace;

beforeAll(async () => {
  nets = await openFaceNets(process.cwd());
  finder = makeFaceFinder(nets);
  frontal = renderedFace({ light: [30, 25], width: 130, part: "head" });
  turned = renderedFace({ turn: 22, tip: -6, tilt: 8, light: [-25, 30], width: 130, part: "head" });
}, 60_000);

/** Root mean square distance from the true points over that of the outer corners of the eyes. */
function missed(face: FoundFace, marks: Float64Array, left = 0, top = 0): number {
  const eyes = Math.hypot(marks[2 * 33] - marks[2 * 263], marks[2 * 33 + 1] - marks[2 * 263 + 1]);
  const sum = STEADY.reduce(
    (total, v) =>
      total +
      (face.points[3 * v] - left - marks[2 * v]) ** 2 +
      (face.points[3 * v + 1] - top - marks[2 * v + 1]) ** 2,
    0,
  );
  return Math.sqrt(sum / STEADY.length) / eyes;
}

/** A dim wall with pictures hung on it. */
function wall(width: number, height: number, hung: readonly (readonly [LinearPicture, number, number])[]) {
  const rgb = new Float32Array(3 * width * height).fill(0.02);
  for (const [picture, left, top] of hung)
    for (let y = 0; y < picture.height; y++)
      rgb.set(
        picture.rgb.subarray(3 * y * picture.width, 3 * (y + 1) * picture.width),
        3 * ((top + y) * width + left),
      );
  return { width, height, rgb };
}

/** Half as large, each pixel the mean of four. */
function halved({ picture, marks }: RenderedFace) {
  const [width, height] = [picture.width >> 1, picture.height >> 1];
  const rgb = new Float32Array(3 * width * height);
  for (let i = 0; i < rgb.length; i++) {
    const [x, y, c] = [Math.floor(i / 3) % width, Math.floor(i / 3 / width), i % 3];
    for (const [dx, dy] of [
      [0, 0],
      [1, 0],
      [0, 1],
      [1, 1],
    ])
      rgb[i] += picture.rgb[3 * ((2 * y + dy) * picture.width + 2 * x + dx) + c] / 4;
  }
  return { picture: { width, height, rgb }, marks: marks.map((x) => x / 2) };
}

/** Everywhere the same change of light. */
const changed = (picture: LinearPicture, change: (linear: number) => number): LinearPicture => ({
  ...picture,
  rgb: picture.rgb.map(change),
});

describe("[LM5] a face is found where it is", () => {
  // the median of rendered heads of many shapes is 4 %, their 90th percentile 6 % (decision 0008)
  it("from ahead and turned, points within 7 % of the distance of the eyes' outer corners", async () => {
    for (const { picture, marks } of [frontal, turned]) {
      const found = await finder.find(picture);
      expect(found).toHaveLength(1);
      expect(missed(found[0], marks)).toBeLessThan(0.07);
      expect(found[0].score).toBeGreaterThan(0.95);
      expect(found[0].isLifted).toBe(false);
    }
  });
  it("irises lie between the corners of their eyes", async () => {
    const [{ points }] = await finder.find(frontal.picture);
    for (const [iris, outer, inner] of [
      [468, 33, 133],
      [473, 263, 362],
    ]) {
      const share = (points[3 * iris] - points[3 * outer]) / (points[3 * inner] - points[3 * outer]);
      expect(share).toBeGreaterThan(0.3);
      expect(share).toBeLessThan(0.7);
    }
  });
  it("moved by a fraction of a pixel it moves by that fraction", async () => {
    const { picture } = frontal;
    const rgb = picture.rgb.map((v, i) => (i % (3 * picture.width) < 3 ? v : 0.5 * (v + picture.rgb[i - 3])));
    const [[before], [after]] = [await finder.find(picture), await finder.find({ ...picture, rgb })];
    const moved = STEADY.map((v) => after.points[3 * v] - before.points[3 * v]);
    expect(moved.reduce((sum, x) => sum + x, 0) / moved.length).toBeCloseTo(0.5, 0);
    expect(moved.every((x) => Math.abs(x - 0.5) < 0.6)).toBe(true);
  });
});

describe("[LM6] cut tightly and mostly in shadow it is still found", () => {
  for (const [name, light] of [
    ["half of it lit", [70, 0]],
    ["a rim alone", [-105, 20]],
  ] as const)
    it(name, async () => {
      const { picture, marks } = renderedFace({ light, width: 126, part: "face" });
      // as written, and with its levels taken for sRGB though they are linear light
      for (const change of [(v: number) => v, (v: number) => ((v + 0.055) / 1.055) ** 2.4]) {
        const found = await finder.find(changed(picture, change));
        expect(found).toHaveLength(1);
        expect(missed(found[0], marks)).toBeLessThan(0.12);
      }
    });
  it("twelve stops under, it says that its shadows were lifted", async () => {
    const found = await finder.find(changed(frontal.picture, (v) => v / 4096));
    expect(found).toHaveLength(1);
    expect(found[0].isLifted).toBe(true);
    expect(missed(found[0], frontal.marks)).toBeLessThan(0.09);
  });
});

describe("[LM7] several, one, none", () => {
  it("two people, the larger first, each in its place", async () => {
    const small = halved(frontal);
    const found = await finder.find(
      wall(420, 220, [
        [small.picture, 10, 60],
        [turned.picture, 250, 30],
      ]),
    );
    expect(found).toHaveLength(2);
    expect(missed(found[0], turned.marks, 250, 30)).toBeLessThan(0.08);
    expect(missed(found[1], small.marks, 10, 60)).toBeLessThan(0.09);
  });
  it("a face of 33 pixels in a picture of 1600", async () => {
    const small = halved(frontal);
    const found = await finder.find(wall(1600, 1067, [[small.picture, 1100, 300]]));
    expect(found).toHaveLength(1);
    expect(missed(found[0], small.marks, 1100, 300)).toBeLessThan(0.09);
  });
  it("a ramp, noise, one pixel: none", async () => {
    const ramp = wall(300, 200, []);
    for (let i = 0; i < ramp.rgb.length; i++) ramp.rgb[i] = (i % 900) / 900;
    let state = 1;
    const noise = wall(200, 200, []);
    for (let i = 0; i < noise.rgb.length; i++) {
      state = (1664525 * state + 1013904223) % 2 ** 32;
      noise.rgb[i] = state / 2 ** 32;
    }
    for (const picture of [
      wall(400, 300, []),
      ramp,
      noise,
      { width: 1, height: 1, rgb: new Float32Array(3) },
    ])
      expect(await finder.find(picture)).toEqual([]);
  });
});

describe("[LM8] the same picture gives the same bits", () => {
  it("asked twice, and of networks opened anew", async () => {
    const [first] = await finder.find(turned.picture);
    const [second] = await finder.find(turned.picture);
    const [third] = await makeFaceFinder(await openFaceNets(process.cwd())).find(turned.picture);
    expect(second.points).toEqual(first.points);
    expect(third.points).toEqual(first.points);
  });
});

describe("[LM14] a rendered head is turned as it is", () => {
  it("within 6 degrees, from ahead and turned", async () => {
    for (const { picture, cameraFromHead, focalPixels } of [frontal, turned]) {
      const [face] = await finder.find(picture);
      // the head stands in the middle of the whole picture, of which this part was cut: its focal length alone is kept
      const fit = fitHead(
        face,
        { width: 2 * face.points[3 * 168], height: 2 * face.points[3 * 168 + 1] },
        focalPixels,
      );
      let trace = 0;
      for (let i = 0; i < 9; i++) trace += fit.cameraFromHead[i] * cameraFromHead[i];
      expect((Math.acos((trace - 1) / 2) * 180) / Math.PI).toBeLessThan(6);
    }
  });
});
