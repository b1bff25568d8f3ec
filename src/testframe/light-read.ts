/** The light on a face in a picture: which way it comes from, how surely, and how much comes from all round. */
import { fitFace, isStretched } from "./light-face.ts";
import type { Fitted, LightFit } from "./light-fit.ts";
import { AT } from "./light-model.ts";
import { writeDirection } from "./light-shadows.ts";
import { TYPICAL } from "./light-shape.ts";
import type { Angles, PhotoLight, SeenFace } from "./types.ts";

const DEGREE = Math.PI / 180;
/** Beyond so many degrees the direction is no answer; nor is it where so much comes evenly from all round. */
const TOO_UNSURE = 30;
const TOO_EVEN = 0.93;
const EVEN = 0.7;
/** Degrees from the lens beyond which a face shows little but where its edge is lit. */
const FAR_OFF = 77;
/** Of the uncertainty: see `uncertaintyOf`. */
const OWN_BY = 2;
const LEAST = 4.5;
const FAR_FROM = 50;
const FAR_BY = 50;
const BEHIND_FROM = 95;
const BEHIND_BY = 20;
/** Share of the way to the mean head's depths beyond which a face is like neither shape, and degrees for all of a way more. */
const LIKE_NEITHER = 1.25;
const NEITHER_BY = 12;
const EVEN_FROM = 0.55;
const EVEN_BY = 5;
/** Degrees by which lights are read too high where faces are as the landmark model sees them, and too low where they are
 * as the mean head is. docs/decisions/0010-the-light-in-a-picture.md */
const READ_HIGH = 3;
const READ_LOW = 2;
/** Where faces are as the mean head is, they curve less up and down than the model sees: a light found on too steep slopes
 * comes out nearer level, by this share of the part of it that comes from above or below. */
const SQUEEZED = 0.15;

export function readLight(face: SeenFace): PhotoLight | null {
  const fitted = fitFace(face);
  if (!fitted) return null;
  const { numbers } = fitted.fit;
  const typical = Math.min(1, Math.max(0, numbers[AT.shape + TYPICAL]));
  const told = (d: Float64Array) =>
    raised(d, (READ_HIGH + READ_LOW) * typical - READ_HIGH, SQUEEZED * typical);
  const from = told(togetherOf(fitted));
  const second = fitted.second && told(directionOf(fitted.second.u, fitted.second.v));
  // a uniform surround meets a point from all sides, a lamp from one: four times as much for the same on a plane
  const around = 4 * Math.exp(numbers[AT.logAmbient]);
  const ambientShare = around / (1 + around);
  const offLens = Math.acos(from[2]) / DEGREE;
  const uncertaintyDegrees = uncertaintyOf(fitted.fit, offLens, ambientShare);
  if (uncertaintyDegrees > TOO_UNSURE || ambientShare > TOO_EVEN) return null;
  const r = face.cameraFromHead;
  const along = (k: number) => r[k] * from[0] + r[3 + k] * from[1] + r[6 + k] * from[2];
  const doubts: string[] = [];
  if (offLens > FAR_OFF) doubts.push("the light comes from so far off that most of the face is in shadow");
  if (ambientShare > EVEN) doubts.push("light from all round outweighs it");
  if (second) doubts.push("a second light from elsewhere shares the face");
  return {
    from: [from[0], from[1], from[2]],
    fromCamera: anglesOf(from[2], from[0], from[1]),
    inHead: anglesOf(along(0), along(1), along(2)),
    uncertaintyDegrees,
    ambientShare,
    second: second && {
      fromCamera: anglesOf(second[2], second[0], second[1]),
      shareOfMain: numbers[AT.second],
    },
    edgeMillimetres: null,
    areLevelsLight: isStretched(numbers),
    doubts,
  };
}

/** What the fit says of itself, made honest on rendered heads: it knows nothing of shapes that its ways do not hold. */
function uncertaintyOf({ numbers, spread }: LightFit, offLens: number, ambientShare: number): number {
  const own = Math.sqrt(spread[0] + spread[2]);
  const shape = numbers[AT.shape + TYPICAL];
  const unlike = Math.max(0, shape - LIKE_NEITHER, 1 - LIKE_NEITHER - shape);
  const far = Math.max(0, offLens - FAR_FROM) / FAR_BY + Math.max(0, offLens - BEHIND_FROM) / BEHIND_BY;
  const even = Math.max(0, ambientShare - EVEN_FROM) * EVEN_BY;
  return Math.hypot(OWN_BY * own, NEITHER_BY * unlike, LEAST) * (1 + far + even);
}

/** What all lights send together, weighed as found: the light vector, which is what a plan is compared by. */
function togetherOf({ fit: { numbers }, second }: Fitted): Float64Array {
  const main = directionOf(numbers[AT.u], numbers[AT.v]);
  if (!second) return main;
  const other = directionOf(second.u, second.v);
  return main.map((x, k) => x + numbers[AT.second] * other[k]);
}

function directionOf(u: number, v: number): Float64Array {
  const d = new Float64Array(3);
  writeDirection(d, u, v);
  return d;
}

/** Of length 1: turned up about the picture's level axis, then drawn apart up and down. */
function raised(d: Float64Array, degrees: number, apart: number): Float64Array {
  const [c, s] = [Math.cos(degrees * DEGREE), Math.sin(degrees * DEGREE)];
  const [x, y, z] = [d[0], (1 + apart) * (c * d[1] + s * d[2]), c * d[2] - s * d[1]];
  const long = Math.hypot(x, y, z);
  return Float64Array.of(x / long, y / long, z / long);
}

/** + azimuth to where `aside` grows. */
function anglesOf(ahead: number, aside: number, up: number): Angles {
  return {
    azimuth: Math.atan2(aside, ahead) / DEGREE,
    elevation: Math.atan2(up, Math.hypot(ahead, aside)) / DEGREE,
  };
}
