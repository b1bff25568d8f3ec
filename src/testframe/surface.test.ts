import { expect, test } from "vitest";
import { REGION } from "../figure/index.ts";
import { seeFace } from "./surface.ts";
import { canonicalFound, HEIGHT, lampPicture, WIDTH } from "./testing/lamp-face.ts";
import type { FoundFace } from "./types.ts";

const picture = lampPicture({ azimuth: 20, elevation: 20 });
const face = seeFace(picture, null, canonicalFound());

test("[LF1] a face that looks into the lens has the camera's axes, the mean face's size and normals that face the lens", () => {
  const r = Array.from(face.cameraFromHead, (x) => Math.round(1e4 * x) / 1e4 + 0);
  // ahead is toward the camera, own left is picture right, up is up
  expect(r).toEqual([0, 1, 0, 0, 0, 1, 1, 0, 0]);
  const [a, b] = [3 * 33, 3 * 263];
  // outer corners of the eyes: 8.9 cm on the canonical face, by 0.95
  expect(face.positions[b] - face.positions[a]).toBeCloseTo(0.0845, 3);
  expect(face.noseTip[2]).toBeGreaterThan(face.bridge[2]);
  for (let v = 0; v < face.count; v++) expect(face.normals[3 * v + 2]).toBeGreaterThan(-0.35);
  const area = face.areas.reduce((sum, x) => sum + x, 0);
  // a face is about 300 cm2
  expect(area).toBeGreaterThan(0.025);
  expect(area).toBeLessThan(0.04);
});

test("[LF2] brows, lips and eyes are darker than cheeks and count for little; cheeks count in full", () => {
  const mean = (v: number) => [face.reflectance[v], face.weights[v]];
  for (const v of [105, 334, 0, 17]) {
    const [reflectance, weight] = mean(v);
    expect(reflectance).toBeLessThan(0.85);
    expect(weight).toBeLessThan(0.35);
  }
  for (const v of [159, 386]) expect(face.weights[v]).toBeLessThan(0.1);
  for (const v of [205, 425]) expect(mean(v)).toEqual([1, expect.closeTo(1, 1)]);
  expect(face.regions[205]).toBe(REGION.rightCheek);
});

test("[LF3] what clips, lies outside the picture or is hidden from the camera does not count", () => {
  const share = new Uint8Array(WIDTH * HEIGHT);
  share.fill(255, 0, share.length / 2);
  const clipped = seeFace(picture, share, canonicalFound());
  expect(face.weights[151]).toBeGreaterThan(0.5);
  expect(clipped.weights[151]).toBe(0);
  const turned = seeFace(picture, null, turnedFound(60));
  // the far cheek lies behind the nose's side and away from the camera, the near one does not
  expect(turned.weights[234]).toBe(0);
  expect(turned.weights[425]).toBeGreaterThan(0.5);
  expect(Math.atan2(turned.cameraFromHead[0], turned.cameraFromHead[6])).toBeCloseTo(-Math.PI / 3, 1);
});

test("[LF4] with a focal length, directions are told from the camera's axis, not from the line of sight", () => {
  const aside = canonicalFound();
  const points = aside.points.map((x, i) => (i % 3 === 0 ? x + 300 : x));
  const shifted: FoundFace = { ...aside, points, box: { ...aside.box, left: aside.box.left + 300 } };
  const wide = { ...picture, width: 168 };
  const off = seeFace(wide, null, shifted, { focalLengthPixels: 1700 });
  // seen 10 degrees to the right, a face that looks along the line of sight looks 10 degrees to the left
  expect(Math.atan2(off.cameraFromHead[0], off.cameraFromHead[6]) / (Math.PI / 180)).toBeCloseTo(-10, 0);
});

function turnedFound(degrees: number): FoundFace {
  const found = canonicalFound();
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const points = found.points.slice();
  for (let v = 0; v < points.length; v += 3) {
    const x = points[v] - WIDTH / 2;
    const toCamera = -points[v + 2];
    points[v] = WIDTH / 2 + c * x - s * toCamera;
    points[v + 2] = -(s * x + c * toCamera);
  }
  return { ...found, points };
}
