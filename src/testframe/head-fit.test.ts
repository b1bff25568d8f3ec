import { describe, expect, it } from "vitest";
import { buildHead, headRotation } from "../figure/index.ts";
import { MESH_POINTS } from "./find-nets.ts";
import { fitHead } from "./head-fit.ts";
import { POINTS } from "./types.ts";

const PICTURE = { width: 1200, height: 1600 };
/** Camera from the head's axes where it faces along the axis of the lens. */
const FACING = [0, 1, 0, 0, 0, 1, 1, 0, 0];

const BRIDGE = 168;

/** The mean head as a perfect network would see it: each depth along the sight, in pixels at the face.
 * @param place of the point between the eyes, camera axes, metres */
function seen(head: { turn: number; tip: number; tilt: number }, focal: number, place: number[], depths = 1) {
  const rotation = headRotation(head.turn, head.tip, head.tilt);
  const { positions } = buildHead().mesh;
  const points = new Float32Array(3 * POINTS);
  const camera = Array.from({ length: MESH_POINTS }, (_, v) => {
    const own = [0, 1, 2].map((k) => positions[3 * v + k]);
    const body = [0, 1, 2].map(
      (k) => rotation[3 * k] * own[0] + rotation[3 * k + 1] * own[1] + rotation[3 * k + 2] * own[2],
    );
    return [0, 1, 2].map(
      (k) => FACING[3 * k] * body[0] + FACING[3 * k + 1] * body[1] + FACING[3 * k + 2] * body[2],
    );
  });
  const bridge = camera[BRIDGE];
  camera.forEach((p, v) => {
    camera[v] = p.map((x, k) => x - bridge[k] + place[k]);
  });
  const middle = camera[BRIDGE];
  const far = Math.hypot(...middle);
  camera.forEach(([x, y, z], v) => {
    points[3 * v] = PICTURE.width / 2 + (focal * x) / -z;
    points[3 * v + 1] = PICTURE.height / 2 - (focal * y) / -z;
    const along = (x * middle[0] + y * middle[1] + z * middle[2]) / far;
    points[3 * v + 2] = (depths * (along - far) * focal) / far;
  });
  return {
    face: { points, box: { left: 0, top: 0, width: 1, height: 1 }, score: 1, isLifted: false },
    cameraFromHead: FACING.map((_, i) =>
      [0, 1, 2].reduce((sum, k) => sum + FACING[3 * Math.floor(i / 3) + k] * rotation[3 * k + (i % 3)], 0),
    ),
    far,
  };
}

function apart(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let trace = 0;
  for (let i = 0; i < 9; i++) trace += a[i] * b[i];
  return (Math.acos(Math.min(1, (trace - 1) / 2)) * 180) / Math.PI;
}

const POSES = [
  { turn: 0, tip: 0, tilt: 0 },
  { turn: 32, tip: -8, tilt: 5 },
  { turn: -20, tip: 14, tilt: -11 },
];

describe("[LM10] a head seen without error is turned as it is", () => {
  for (const head of POSES)
    it(`turn ${head.turn}, tip ${head.tip}, tilt ${head.tilt}, on the axis`, () => {
      const focal = 3000;
      const { face, cameraFromHead, far } = seen(head, focal, [0, 0, -1.4]);
      const fit = fitHead(face, PICTURE, focal);
      // depth along the sight stands for depth along the axis: a tenth of a degree, for a face near the axis
      expect(apart(fit.cameraFromHead, cameraFromHead)).toBeLessThan(0.3);
      expect(fit.turn).toBeCloseTo(head.turn, 0);
      expect(fit.tip).toBeCloseTo(head.tip, 0);
      expect(fit.tilt).toBeCloseTo(head.tilt, 0);
      expect(fit.pixelsPerMetre / (focal / far)).toBeCloseTo(1, 1);
      expect(fit.missMillimetres).toBeLessThan(0.5);
    });
  it("aside in the picture: in camera axes as it is, and told from facing the lens", () => {
    const focal = 2500;
    // the lens is seen 14 degrees to the own right
    const { face, cameraFromHead } = seen({ turn: 0, tip: 0, tilt: 0 }, focal, [0.35, 0, -1.4]);
    const fit = fitHead(face, PICTURE, focal);
    expect(apart(fit.cameraFromHead, cameraFromHead)).toBeLessThan(0.6);
    const away = (Math.atan2(0.35, 1.4) * 180) / Math.PI;
    expect(Math.abs(fit.turn - away)).toBeLessThan(1);
  });
});

describe("[LM11] without a focal length the lens is taken as standing where it usually does", () => {
  it("within two degrees from 1.2 m to 3 m", () => {
    for (const far of [1.2, 1.6, 3]) {
      const { face, cameraFromHead } = seen({ turn: 18, tip: 6, tilt: 0 }, 3000, [0, 0, -far]);
      expect(apart(fitHead(face, PICTURE, null).cameraFromHead, cameraFromHead)).toBeLessThan(2);
    }
  });
});

describe("[LM12] the network's depth counts little", () => {
  it("depths a quarter too shallow turn the head by less than two degrees", () => {
    const { face, cameraFromHead } = seen({ turn: 25, tip: 10, tilt: 0 }, 3000, [0, 0, -1.5], 0.75);
    expect(apart(fitHead(face, PICTURE, 3000).cameraFromHead, cameraFromHead)).toBeLessThan(2);
  });
});

describe("[LM13] the points in space are as the network saw them, perspective taken out", () => {
  it("for a head seen without error its own, in metres", () => {
    const { face, cameraFromHead } = seen({ turn: 20, tip: -5, tilt: 3 }, 3000, [0, 0, -1.5]);
    const { points } = fitHead(face, PICTURE, 3000);
    const { positions } = buildHead().mesh;
    const between = (p: ArrayLike<number>, a: number, b: number) =>
      [0, 1, 2].map((k) => p[3 * b + k] - p[3 * a + k]);
    for (const [a, b] of [
      [1, 152],
      [33, 263],
      [10, 234],
    ]) {
      const own = between(positions, a, b);
      const expected = [0, 1, 2].map(
        (k) =>
          cameraFromHead[3 * k] * own[0] +
          cameraFromHead[3 * k + 1] * own[1] +
          cameraFromHead[3 * k + 2] * own[2],
      );
      between(points, a, b).forEach((x, k) => {
        // a millimetre on a face of 18 cm: depth along the sight again
        expect(Math.abs(x - expected[k])).toBeLessThan(0.0015);
      });
    }
  });
});
