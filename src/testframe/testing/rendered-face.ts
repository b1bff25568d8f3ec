/** A photograph of our own figure, and what landmark model and light fit would say of it were they never wrong: truth
 * for tests of what is read off a face. */

import { dot, Pcg32, subtract, type Vec3 } from "../../math/index.ts";
import { clippingExposure, decodeSrgb, encodeSrgb, focalPlaneExposure } from "../../photometry/index.ts";
import type { Plan } from "../../plan/index.ts";
import { project, type Viewfinder, viewfinder } from "../../reading/camera-rays.ts";
import { alongHead, toWorld } from "../../reading/head-axes.ts";
import {
  type FaceReading,
  Memory,
  type PictureRegion,
  readPlan,
  renderFrame,
  WHOLE_PICTURE,
} from "../../reading/index.ts";
import { type StagedPerson, stagePerson } from "../../staging/index.ts";
import { seeFace } from "../surface.ts";
import type { FoundFace, LinearPicture, Photograph, PhotoLight, PixelBox, SeenFace } from "../types.ts";
import { POINTS } from "../types.ts";
import { NO_EXIF } from "./no-exif.ts";

export interface Rendered {
  readonly photo: Photograph;
  readonly face: FoundFace;
  readonly seen: SeenFace;
  readonly light: PhotoLight;
  readonly truth: FaceReading;
  /** as the plan's camera reads it */
  readonly backgroundStops: number | null;
}

export interface Making {
  readonly width: number;
  readonly region?: PictureRegion;
  /** of file levels, before quantising; standard deviation at clipping, linear */
  readonly noise?: number;
  readonly isEightBit?: boolean;
  /** file's linear level from the scene's, both 1 at clipping */
  readonly curve?: (linear: number) => number;
}

const DEGREE = Math.PI / 180;

export function renderFace(plan: Plan, making: Making, memory = new Memory()): Rendered {
  const region = making.region ?? WHOLE_PICTURE;
  const view = viewfinder(plan.camera, making.width, region);
  const person = stagePerson(plan.people[0], plan);
  const frame = renderFrame(plan, { width: making.width, quality: "coarse", region }, memory);
  const limit = clippingExposure(plan.camera.iso, plan.camera.headroom);
  const linear = Float32Array.from(
    frame.luminance,
    (l) => focalPlaneExposure(l, plan.camera.fNumber) / limit,
  );
  const picture = { width: frame.width, height: frame.height, rgb: written(linear, making) };
  const reading = readPlan(plan, "coarse", memory);
  const truth = reading.people[0].face;
  const points = landmarks(person, view);
  const face: FoundFace = { points, box: boxOf(points), score: 1, isLifted: false };
  const light = lightOf(truth, person, view);
  const photo = photograph(picture);
  const focalLengthPixels = view.width / (2 * view.tanX);
  return {
    photo,
    face,
    seen: seeFace(picture, photo.clippedShare, face, { focalLengthPixels }),
    light,
    truth,
    backgroundStops: reading.camera.backgroundStops,
  };
}

function written(linear: Float32Array, { noise = 0, isEightBit = false, curve = (x) => x }: Making) {
  const stream = new Pcg32(1, 7);
  return linear.map((x) => {
    // photon noise: as the root of what arrives
    const grain = noise * Math.sqrt(Math.max(x, 1e-4)) * gaussian(stream);
    const level = Math.min(1, Math.max(0, curve(Math.max(0, x + grain))));
    return isEightBit ? decodeSrgb(Math.round(255 * encodeSrgb(level)) / 255) : level;
  });
}

function gaussian(stream: Pcg32): number {
  let sum = -6;
  for (let i = 0; i < 12; i++) sum += stream.next();
  return sum;
}

function photograph(picture: LinearPicture): Photograph {
  const n = picture.width * picture.height;
  const clippedShare = new Uint8Array(n);
  for (let i = 0; i < n; i++) if ([0, 1, 2].some((c) => picture.rgb[3 * i + c] >= 1)) clippedShare[i] = 255;
  const none = { red: 0, green: 0, blue: 0 };
  return {
    name: "made",
    kind: "jpeg",
    width: picture.width,
    height: picture.height,
    picture,
    clippedShare,
    tones: { clipped: { ...none, any: 0 }, near: { ...none, any: 0 }, headroomStops: none, histogram: [] },
    colour: { profile: "sRGB", isAssumed: true, bits: 8, isGrey: false },
    exif: NO_EXIF,
    notes: [],
    crop: (box, longSide) => cropped(picture, box, longSide),
  };
}

/** By whole pixels: enough for what is asked here. */
function cropped(p: LinearPicture, box: PixelBox, longSide: number): LinearPicture {
  const factor = Math.max(1, Math.ceil(Math.max(box.width, box.height) / longSide));
  const width = Math.max(1, Math.floor(box.width / factor));
  const height = Math.max(1, Math.floor(box.height / factor));
  const rgb = new Float32Array(3 * width * height);
  for (let y = 0; y < height * factor; y++)
    for (let x = 0; x < width * factor; x++)
      for (let c = 0; c < 3; c++) {
        const sx = Math.min(p.width - 1, Math.max(0, Math.round(box.left) + x));
        const sy = Math.min(p.height - 1, Math.max(0, Math.round(box.top) + y));
        const at = 3 * (Math.floor(y / factor) * width + Math.floor(x / factor)) + c;
        rgb[at] += p.rgb[3 * (sy * p.width + sx) + c] / factor ** 2;
      }
  return { width, height, rgb };
}

function landmarks(person: StagedPerson, view: Viewfinder): Float32Array {
  const out = new Float32Array(3 * POINTS);
  const depth = (world: readonly number[]) => dot(subtract(world, view.position), view.forward);
  const middle = depth(toWorld(person, [0.04, 0, 0]));
  const put = (i: number, p: ArrayLike<number>) => {
    const world = toWorld(person, p);
    const at = project(view, world) ?? [0, 0];
    out[3 * i] = at[0];
    out[3 * i + 1] = at[1];
    out[3 * i + 2] = ((depth(world) - middle) * view.width) / (2 * view.tanX * middle);
  };
  const { head } = person.shape;
  for (let v = 0; v < 468; v++) put(v, head.mesh.positions.subarray(3 * v, 3 * v + 3));
  [head.rightEye, head.leftEye].forEach((eye, e) => {
    const deep = Math.sqrt(eye.corneaRadius ** 2 - eye.irisRadius ** 2);
    const [x, y, z] = eye.corneaCentre;
    put(468 + 5 * e, [x + deep, y, z]);
    for (let k = 0; k < 4; k++) {
      const turn = (k * Math.PI) / 2;
      const r = eye.irisRadius;
      put(469 + 5 * e + k, [x + deep, y + r * Math.cos(turn), z + r * Math.sin(turn)]);
    }
  });
  return out;
}

function boxOf(points: Float32Array): PixelBox {
  const xs = Array.from({ length: 468 }, (_, i) => points[3 * i]);
  const ys = Array.from({ length: 468 }, (_, i) => points[3 * i + 1]);
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return { left, top, width: Math.max(...xs) - left, height: Math.max(...ys) - top };
}

function toCamera(view: Viewfinder, d: ArrayLike<number>): [number, number, number] {
  return [dot(d, view.right), dot(d, view.up), -dot(d, view.forward)];
}

function lightOf(truth: FaceReading, person: StagedPerson, view: Viewfinder): PhotoLight {
  const azimuth = truth.light.azimuth ?? 0;
  const elevation = truth.light.elevation ?? 0;
  const flat = Math.cos(elevation * DEGREE);
  const inHead = [
    flat * Math.cos(azimuth * DEGREE),
    flat * Math.sin(azimuth * DEGREE),
    Math.sin(elevation * DEGREE),
  ];
  const from: Vec3 = toCamera(view, alongHead(person, inHead));
  return {
    from,
    fromCamera: { azimuth: Math.atan2(from[0], from[2]) / DEGREE, elevation: Math.asin(from[1]) / DEGREE },
    inHead: { azimuth, elevation },
    uncertaintyDegrees: 2,
    ambientShare: 1 - (truth.vectorScalarRatio ?? 0) / 4,
    second: null,
    edgeMillimetres: null,
    areLevelsLight: false,
    doubts: [],
  };
}
