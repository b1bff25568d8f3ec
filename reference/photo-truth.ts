/** Frames whose light is known: rendered by this project's own engine, on heads whose shape, skin, gloss, camera and
 * framing the reader of photographs does not know. The same index, the same frame. */
import { HIT } from "../src/engine/index.ts";
import { buildHead, MATERIAL, type PersonShape } from "../src/figure/index.ts";
import { warpedPerson } from "../src/figure/testing/warp.ts";
import { Pcg32 } from "../src/math/index.ts";
import { LUMINANCE } from "../src/photometry/index.ts";
import type { Plan } from "../src/plan/index.ts";
import { readBridge } from "../src/reading/bridge.ts";
import { project, type Viewfinder, viewfinder, writeCameraRay } from "../src/reading/camera-rays.ts";
import { strongestLight } from "../src/reading/face.ts";
import { faceExposure, faceShares } from "../src/reading/face-light.ts";
import { toWorld } from "../src/reading/head-axes.ts";
import { type Frame, Memory, type Pattern, renderFrame, SEEN } from "../src/reading/index.ts";
import { type Lighting, lightUp, type Quality, standIn } from "../src/reading/lighting.ts";
import { readPattern } from "../src/reading/pattern.ts";
import { type StagedPerson, shapeOf, stagePerson } from "../src/staging/index.ts";
import type { Angles, FoundFace, LinearPicture } from "../src/testframe/index.ts";
import { POINTS } from "../src/testframe/index.ts";
import { asRead, type CameraTraits, drawCamera, takePicture } from "./photo-truth-camera.ts";
import { drawHead, type HeadShape } from "./photo-truth-heads.ts";
import { drawSetUp, drawSitter, type Kind } from "./photo-truth-set.ts";
import { drawSkin, type SkinMap } from "./photo-truth-skin.ts";

/** own: the mean head that the reader itself goes by; other: somebody else's. */
export type Shape = "own" | "other";

export interface Truth {
  /** of all light together at the bridge of the nose, the person taken away: as the plan format's `light` */
  readonly inHead: Angles;
  readonly fromCamera: Angles;
  /** unit, camera axes */
  readonly from: readonly [number, number, number];
  /** the strongest light alone */
  readonly mainFromCamera: Angles;
  /** degrees between the lens's axis and the light (all together) */
  readonly offLens: number;
  readonly litSide: "left" | "right" | "even";
  readonly ratioStops: number | null;
  readonly pattern: Pattern;
  readonly between: Pattern | null;
  readonly vectorScalarRatio: number;
  /** the second light's share of the main one's at the face; 0 where there is one light */
  readonly secondShare: number;
  /** share of visible skin with any channel clipped */
  readonly clippedSkin: number;
  /** turn, tip, tilt from facing the lens, degrees */
  readonly head: { readonly turn: number; readonly tip: number; readonly tilt: number };
  /** 3 x 3 row-major: camera axes (x picture right, y up, z to the camera) from head axes (x ahead, y own left, z up) */
  readonly cameraFromHead: Float64Array;
}

export interface TruthFrame {
  readonly index: number;
  readonly shape: Shape;
  readonly kind: Kind;
  readonly person: number;
  /** as a reader decodes it that goes by the standard curve */
  readonly picture: LinearPicture;
  /** what the file holds: r g b, 8 bits */
  readonly levels: Uint8Array;
  readonly truth: Truth;
  /** where a perfect landmark model would see the face */
  readonly trueFace: FoundFace;
  readonly camera: CameraTraits;
  readonly plan: Plan;
}

export interface TruthOptions {
  readonly shape: Shape;
  /** of the frame; by the index when left out: every other one is a portrait */
  readonly kind?: Kind;
  /** how the file's levels stand for light, of "flash" frames; by the index when left out */
  readonly curve?: "sRGB" | "linear";
  readonly quality?: Quality;
}

/** People of a set; frame i shows person i modulo this. */
export const PEOPLE = 30;

const SEED = 20261126;
/** Streams of chance, one a purpose. */
const STREAM = { head: 1, sitter: 2, skin: 3, setUp: 4, camera: 5, noise: 6 } as const;

const mean = buildHead();
const kept = new Map<number, HeadShape>();

export function headOf(person: number): HeadShape {
  let head = kept.get(person);
  if (!head) {
    head = drawHead(new Pcg32(SEED + person, STREAM.head));
    kept.set(person, head);
  }
  return head;
}

/** How a frame is set up: its plan, and where the main light stands as seen from the bridge of the nose: degrees off the
 * lens, and above it. */
export function truthPlan(index: number, options: TruthOptions) {
  const { setUp } = drawn(index, options);
  return { plan: setUp.plan, ...setUp.main };
}

function drawn(index: number, { shape, kind: asked }: TruthOptions) {
  const person = index % PEOPLE;
  const kind = asked ?? ((index + Math.floor(index / PEOPLE)) % 2 === 0 ? "portrait" : "tight");
  const seed = SEED + 1000 * (1 + index) + (shape === "own" ? 1 : 0) + (kind === "flash" ? 2 : 0);
  const sitter = drawSitter(new Pcg32(SEED + person, STREAM.sitter));
  const setUp = drawSetUp(new Pcg32(seed, STREAM.setUp), kind, sitter, (draft) => {
    const staged = seated(draft, shape, person);
    const { noseBridge, upperLip } = staged.shape.head.landmarks;
    const bridge = toWorld(staged, noseBridge);
    const lip = toWorld(staged, upperLip);
    const middle = bridge.map((x, k) => x + 0.45 * (lip[k] - x));
    return { bridge: [bridge[0], bridge[1], bridge[2]], middle: [middle[0], middle[1], middle[2]] };
  });
  return { person, kind, seed, setUp };
}

export function truthFrame(index: number, options: TruthOptions): TruthFrame {
  const { shape, quality = "coarse" } = options;
  const { person, kind, seed, setUp } = drawn(index, options);
  const { plan, width, height } = setUp;
  const memory = new Memory();
  const staged = seated(plan, shape, person);
  standIn(plan, memory, [staged]);
  const lighting = lightUp(plan, quality, memory);
  const view = viewfinder(plan.camera, width);
  const frame = renderFrame(plan, { width, quality }, memory);
  if (frame.height !== height) throw new Error(`a frame of ${frame.width} x ${frame.height}`);
  const isGrey = kind !== "portrait";
  const skin = drawSkin(new Pcg32(SEED + person, STREAM.skin), person);
  const coloured = colouredFrame(frame, lighting, view, skin);
  const chance = new Pcg32(seed, STREAM.camera);
  const curve = options.curve ?? (index % 2 === 0 ? "sRGB" : "linear");
  const camera = drawCamera(chance, kind === "flash" ? curve : chance.next() < 0.3 ? "sRGB" : "S");
  const linear = exposed(coloured, frame, kind, isGrey, chance);
  const levels = takePicture(linear, width, height, camera, isGrey, new Pcg32(seed, STREAM.noise));
  return {
    index,
    shape,
    kind,
    person,
    picture: { width, height, rgb: asRead(levels) },
    levels,
    truth: truthOf(plan, lighting, staged, view, clippedShare(levels, frame.seen)),
    trueFace: trueFaceOf(staged, view),
    camera,
    plan,
  };
}

const warped = new WeakMap<PersonShape, Map<number, PersonShape>>();

function seated(plan: Plan, shape: Shape, person: number): StagedPerson {
  const who = plan.people[0];
  const own = shapeOf(who);
  if (shape === "own") return stagePerson(who, plan, own);
  let others = warped.get(own);
  if (!others) {
    others = new Map();
    warped.set(own, others);
  }
  let other = others.get(person);
  if (!other) {
    if (others.size >= WARPED_KEPT) others.clear();
    other = warpedPerson(own, headOf(person).warp);
    others.set(person, other);
  }
  return stagePerson(who, plan, other);
}

const WARPED_KEPT = 4;
const FAR = 1e6;
const CM = 100;

/** The frame with the person's own colours on skin and eyes; what glints off the skin's surface is left as it is. */
function colouredFrame(frame: Frame, lighting: Lighting, view: Viewfinder, map: SkinMap): Float32Array {
  const out = frame.luminance.slice();
  const shine = new Float32Array(out.length);
  frame.shine.pixels.forEach((pixel, k) => {
    for (let c = 0; c < 3; c++) shine[3 * pixel + c] = frame.shine.luminance[3 * k + c];
  });
  const { tracer, owners, looks } = lighting.stage;
  const p = mean.mesh.positions;
  const { triangles, materials } = mean.mesh;
  const ray = new Float64Array(3);
  const factor = new Float64Array(3);
  const [ox, oy, oz] = view.position;
  for (let i = 0; i < frame.width * frame.height; i++) {
    if (frame.seen[i] !== SEEN.skin && frame.seen[i] !== SEEN.person) continue;
    writeCameraRay(view, (i % frame.width) + 0.5, Math.floor(i / frame.width) + 0.5, ray);
    if (!tracer.closest(ox, oy, oz, ray[0], ray[1], ray[2], FAR, true)) continue;
    if (tracer.kind !== HIT.mesh || owners[tracer.index].kind !== "head") continue;
    const t = tracer.triangle;
    const material = materials[t];
    if (material === MATERIAL.sclera) for (let k = 0; k < 3; k++) out[3 * i + k] *= map.sclera;
    if (material !== MATERIAL.skin && material !== MATERIAL.lip) continue;
    const [a, b, c] = [3 * triangles[3 * t], 3 * triangles[3 * t + 1], 3 * triangles[3 * t + 2]];
    const { u, v } = tracer;
    const at = (k: number) => CM * ((1 - u - v) * p[a + k] + u * p[b + k] + v * p[c + k]);
    map.write(at(0), at(1), at(2), factor);
    // the map has its own lips, with soft edges
    const look = looks[tracer.index];
    for (let k = 0; k < 3; k++) {
      const gloss = Math.max(0, shine[3 * i + k]);
      const bare = (out[3 * i + k] - gloss) * (look[MATERIAL.skin][k] / look[material][k]);
      out[3 * i + k] = bare * factor[k] + gloss;
    }
  }
  return out;
}

/** A flash on a fixed meter: skin that faces it at so much of clipping; others are exposed for the brightest skin. */
const FLASH_LEVEL = [0.5, 1.1] as const;

function exposed(
  luminance: Float32Array,
  frame: Frame,
  kind: Kind,
  isGrey: boolean,
  chance: Pcg32,
): Float32Array {
  const skin: number[] = [];
  for (let i = 0; i < frame.seen.length; i++) {
    if (frame.seen[i] !== SEEN.skin) continue;
    const l = luminance.subarray(3 * i, 3 * i + 3);
    skin.push(LUMINANCE[0] * l[0] + LUMINANCE[1] * l[1] + LUMINANCE[2] * l[2]);
  }
  skin.sort((a, b) => a - b);
  const bright = skin[Math.floor(0.98 * (skin.length - 1))];
  const draw = chance.next();
  // most are well exposed, some dark, some burnt
  let level = 0.35 * 2 ** (1.3 * draw);
  const odd = chance.next();
  if (odd < 0.12) level = 1 + 0.6 * draw;
  else if (odd < 0.27) level = 0.08 * 2 ** (1.8 * draw);
  if (kind === "flash") level = FLASH_LEVEL[0] + (FLASH_LEVEL[1] - FLASH_LEVEL[0]) * draw;
  const gain = level / bright;
  const out = new Float32Array(luminance.length);
  for (let i = 0; i < out.length; i += 3) {
    const l = luminance.subarray(i, i + 3);
    const grey = LUMINANCE[0] * l[0] + LUMINANCE[1] * l[1] + LUMINANCE[2] * l[2];
    for (let c = 0; c < 3; c++) out[i + c] = gain * (isGrey ? grey : l[c]);
  }
  return out;
}

function clippedShare(levels: Uint8Array, seen: Uint8Array): number {
  let all = 0;
  let clipped = 0;
  for (let i = 0; i < seen.length; i++) {
    if (seen[i] !== SEEN.skin) continue;
    all++;
    if (Math.max(levels[3 * i], levels[3 * i + 1], levels[3 * i + 2]) === 255) clipped++;
  }
  return all > 0 ? clipped / all : 0;
}

const DEGREE = Math.PI / 180;

function truthOf(
  plan: Plan,
  lighting: Lighting,
  staged: StagedPerson,
  view: Viewfinder,
  clippedSkin: number,
): Truth {
  const shares = faceShares(lighting, 0);
  const exposure = faceExposure(lighting, shares);
  const bridge = readBridge(plan, lighting, 0);
  const found = readPattern(shares.samples, exposure, staged.shape.head.landmarks, bridge.arriving);
  if (bridge.azimuth === null || bridge.elevation === null) throw new Error("no light");
  const az = bridge.azimuth * DEGREE;
  const el = bridge.elevation * DEGREE;
  const inHead = [Math.cos(el) * Math.cos(az), Math.cos(el) * Math.sin(az), Math.sin(el)];
  const cameraFromHead = cameraRows(view, staged.headRotation);
  const from = [0, 1, 2].map((k) => inHead.reduce((sum, x, j) => sum + cameraFromHead[3 * k + j] * x, 0)) as [
    number,
    number,
    number,
  ];
  const main = Math.max(0, strongestLight(lighting, shares.direct));
  const at = toWorld(staged, staged.shape.head.landmarks.noseBridge);
  const toMain = plan.lights[main].position.map((x, k) => x - at[k]);
  const size = Math.hypot(...toMain);
  const mainFrom = [view.right, view.up, view.forward].map(
    (axis, k) => ((k === 2 ? -1 : 1) * axis.reduce((sum, x, j) => sum + x * toMain[j], 0)) / size,
  );
  return {
    inHead: { azimuth: bridge.azimuth, elevation: bridge.elevation },
    from,
    fromCamera: anglesOf(from),
    mainFromCamera: anglesOf(mainFrom),
    offLens: Math.acos(Math.min(1, Math.max(-1, from[2]))) / DEGREE,
    litSide: found.litSide,
    ratioStops: found.ratioStops,
    pattern: found.pattern,
    between: found.between,
    vectorScalarRatio: bridge.vectorScalarRatio ?? 0,
    secondShare: secondShareOf(plan),
    clippedSkin,
    head: poseOf(cameraFromHead),
    cameraFromHead,
  };
}

function anglesOf(from: readonly number[]): Angles {
  return {
    azimuth: Math.atan2(from[0], from[2]) / DEGREE,
    elevation: Math.asin(Math.max(-1, Math.min(1, from[1]))) / DEGREE,
  };
}

/** As metered at the face, each light straight at it. What a wall gives back is no second light. */
function secondShareOf(plan: Plan): number {
  const metered = (name: string) => {
    const output = plan.lights.find((light) => light.name === name)?.output;
    return output && "meter" in output ? output.meter.fNumber ** 2 : 0;
  };
  return metered("second") / metered("main");
}

function cameraRows(view: Viewfinder, r: Float64Array): Float64Array {
  const out = new Float64Array(9);
  [view.right, view.up, view.forward.map((x) => -x)].forEach((axis, row) => {
    for (let j = 0; j < 3; j++) for (let k = 0; k < 3; k++) out[3 * row + j] += axis[k] * r[3 * k + j];
  });
  return out;
}

/** Turn, tip and tilt that give this rotation, from facing the lens: columns are ahead, own left and up in camera axes. */
function poseOf(m: Float64Array): Truth["head"] {
  // axes of the reference pose: ahead to the camera (z), own left to picture right (x), up (y): Rz(turn) Ry(-tip) Rx(-tilt)
  const ahead = [m[6], m[0], m[3]];
  const left = [m[7], m[1], m[4]];
  const up = [m[8], m[2], m[5]];
  return {
    turn: Math.atan2(ahead[1], ahead[0]) / DEGREE,
    tip: Math.asin(Math.max(-1, Math.min(1, ahead[2]))) / DEGREE,
    tilt: -Math.atan2(left[2], up[2]) / DEGREE,
  };
}

const MASK_POINTS = 468;
/** Round each iris's centre, as a landmark model numbers them: own right side, top, own left side, bottom. */
const IRIS_RIM = [
  [0, 0],
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;

/** The mask's points and the irises of this very head, projected; z behind the head's middle depth. */
function trueFaceOf(staged: StagedPerson, view: Viewfinder): FoundFace {
  const { mesh, leftEye, rightEye } = staged.shape.head;
  const points = new Float32Array(3 * POINTS);
  const heads: number[][] = [];
  for (let v = 0; v < MASK_POINTS; v++) heads.push(Array.from(mesh.positions.subarray(3 * v, 3 * v + 3)));
  for (const eye of [rightEye, leftEye])
    for (const [aside, up] of IRIS_RIM) {
      const [x, y, z] = eye.corneaCentre;
      const r = eye.irisRadius;
      heads.push([
        x + Math.sqrt(eye.corneaRadius ** 2 - (aside || up ? r * r : 0)),
        y + aside * r,
        z + up * r,
      ]);
    }
  const middle = depthOf(view, toWorld(staged, [0.08, 0, 0]));
  const scale = view.width / (2 * view.tanX * middle);
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  heads.forEach((p, i) => {
    const world = toWorld(staged, p);
    const [x, y] = project(view, world) ?? [0, 0];
    points.set([x, y, scale * (depthOf(view, world) - middle)], 3 * i);
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  });
  const box = { left, top, width: right - left, height: bottom - top };
  return { points, box, score: 1, isLifted: false };
}

function depthOf(view: Viewfinder, world: readonly number[]): number {
  return [0, 1, 2].reduce((sum, k) => sum + (world[k] - view.position[k]) * view.forward[k], 0);
}
