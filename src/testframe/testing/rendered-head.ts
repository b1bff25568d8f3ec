/** A face whose every point is known: the figure, lit by one lamp and rendered. */
import { checkPlan } from "../../plan/index.ts";
import { Memory, renderFrame, viewfinder, WHOLE_PICTURE } from "../../reading/index.ts";
import { stagePerson } from "../../staging/index.ts";
import { MESH_POINTS } from "../find-nets.ts";
import { EYE_CORNERS } from "../find-points.ts";
import type { LinearPicture } from "../types.ts";

export interface FaceWish {
  readonly turn?: number;
  readonly tip?: number;
  readonly tilt?: number;
  /** degrees, + to picture right and + up */
  readonly light: readonly [number, number];
  readonly width: number;
  /** from mid-forehead to chin, the head with air, or the own right eye */
  readonly part: "face" | "head" | "eye";
}

export interface RenderedFace {
  readonly picture: LinearPicture;
  /** x y of each point of the mesh, pixels */
  readonly marks: Float64Array;
  /** 3 x 3 row-major */
  readonly cameraFromHead: Float64Array;
  readonly focalPixels: number;
  /** of the whole picture, in pixels of the part */
  readonly middle: readonly [number, number];
}

const EYES = 1.55;
const DISTANCE = 1.8;
const RADIANS = Math.PI / 180;
/** Level that the brightest hundredth is brought to. */
const BRIGHT = 0.85;

export function renderedFace(wish: FaceWish): RenderedFace {
  const [azimuth, elevation] = wish.light.map((angle) => angle * RADIANS);
  const at = [0, 0, EYES];
  const aside = 1.5 * Math.cos(elevation) * Math.sin(azimuth);
  const toward = 1.5 * Math.cos(elevation) * Math.cos(azimuth);
  const made = checkPlan({
    format: "tapemark/plan",
    version: 1,
    lights: [
      {
        position: [aside, -toward, EYES + 1.5 * Math.sin(elevation)],
        direction: { at },
        face: { shape: "disc", width: 0.2 },
        output: { lumenSeconds: 1000 },
      },
    ],
    people: [
      {
        position: [0, 0.08],
        eyeHeight: EYES,
        head: { turn: wish.turn ?? 0, tip: wish.tip ?? 0, tilt: wish.tilt ?? 0 },
        hair: { length: "short" },
      },
    ],
    camera: { position: [0, -DISTANCE, EYES], direction: { at } },
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const { plan } = made;
  const person = stagePerson(plan.people[0], plan);
  const whole = viewfinder(plan.camera, 1, WHOLE_PICTURE);
  const aspect = whole.tanY / whole.tanX;
  const along = (axis: readonly number[], p: readonly number[]) =>
    axis[0] * p[0] + axis[1] * p[1] + axis[2] * p[2];
  const r = person.headRotation;
  const turned = (p: readonly number[]) =>
    [0, 1, 2].map((k) => r[3 * k] * p[0] + r[3 * k + 1] * p[1] + r[3 * k + 2] * p[2]);
  // shares of the whole picture's width, from its top left
  const shares = Array.from({ length: MESH_POINTS }, (_, v) => {
    const own = Array.from(person.shape.head.mesh.positions.subarray(3 * v, 3 * v + 3));
    const p = turned(own).map((x, k) => x + person.headOffset[k] - whole.position[k]);
    const depth = along(whole.forward, p);
    return [
      (1 + along(whole.right, p) / depth / whole.tanX) / 2,
      (aspect - along(whole.up, p) / depth / whole.tanX) / 2,
    ];
  });
  const box = partOf(shares, wish.part);
  const region = {
    left: box.left,
    right: box.right,
    top: box.top / aspect,
    bottom: box.bottom / aspect,
  };
  const frame = renderFrame(plan, { width: wish.width, quality: "coarse", region }, new Memory());
  const scale = [frame.width / (box.right - box.left), frame.height / (box.bottom - box.top)];
  const bright = frame.luminance.toSorted()[Math.floor(0.99 * frame.luminance.length)];
  const axes = [whole.right, whole.up, whole.forward.map((x) => -x)];
  return {
    picture: {
      width: frame.width,
      height: frame.height,
      rgb: frame.luminance.map((x) => Math.min(1, (BRIGHT * x) / bright)),
    },
    marks: Float64Array.from(
      shares.flatMap(([x, y]) => [(x - box.left) * scale[0], (y - box.top) * scale[1]]),
    ),
    cameraFromHead: Float64Array.from(
      axes.flatMap((axis) =>
        [
          [1, 0, 0],
          [0, 1, 0],
          [0, 0, 1],
        ].map((own) => along(axis, turned(own))),
      ),
    ),
    focalPixels: scale[0] / (2 * whole.tanX),
    middle: [(0.5 - box.left) * scale[0], (aspect / 2 - box.top) * scale[1]],
  };
}

function partOf(shares: readonly (readonly number[])[], part: FaceWish["part"]) {
  const points = part === "eye" ? EYE_CORNERS.right.map((v) => shares[v]) : shares;
  const [xs, ys] = [0, 1].map((k) => points.map((p) => p[k]));
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
  const [w, h] = [right - left, bottom - top];
  const x = (left + right) / 2;
  if (part === "eye") {
    const y = (top + bottom) / 2;
    return { left: x - 0.75 * w, right: x + 0.75 * w, top: y - 0.5 * w, bottom: y + 0.5 * w };
  }
  const [from, to] =
    part === "face" ? [top + 0.12 * h, bottom + 0.02 * h] : [top - 0.45 * h, bottom + 0.35 * h];
  const half = ((to - from) * (part === "face" ? 168 / 192 : 0.8)) / 2;
  return { left: x - half, right: x + half, top: from, bottom: to };
}
