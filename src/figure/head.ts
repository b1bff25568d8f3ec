/** The head in its own axes: x ahead, y own left, z up, metres, origin between the ear openings. */
import { leftEar, rooted } from "./ear.ts";
import { eyeBall, eyeOn } from "./eye.ts";
import { CAGE_STRIDE, headCage, LID } from "./head-cage.ts";
import { CORNEA, EAR_ASIDE, GLOBE, type Point, toMask } from "./measures.ts";
import { headScale } from "./percentile.ts";
import { regionOf } from "./regions.ts";
import { Relief } from "./relief.ts";
import { resized } from "./resize.ts";
import { joinMeshes, mirrored, vertexAreas, withNormals } from "./solids.ts";
import { fitCage, subdivide } from "./subdivide.ts";
import type { Head } from "./types.ts";

const CM = 0.01;
const LEVELS = 2;
/** Rounds of fitting the cage: with six the face lies within half a millimetre of the measured one (test FG1). */
const FIT_ROUNDS = 6;
/** A vertex is the mask's own from this share on; the outermost of it, by the ears and under the chin, is no front. */
const MASK_SHARE = 0.7;
const FRONT_ASIDE = 6.4;
const FRONT_FROM = -9.2;

/** Skin that ears may grow from begins here, ahead. */
const BEHIND_EARS = -0.06;
const MEAN = 50;
const KEPT = 8;
const made = new Map<number, Head>();

/** The head of that percentile of size among adults; built on first use and shared, since others keep what they
 * derive from a head by the head itself.
 * Domain  1 to 99
 * Accuracy scale by `headScale`; globes, corneas, irises and the lids round them keep their size [FG12] */
export function buildHead(percentile = MEAN): Head {
  let head = made.get(percentile);
  if (!head) {
    if (percentile === MEAN) head = makeHead();
    else head = resized(buildHead(), headScale(percentile));
    // the mean head is what all others are made from
    if (made.size >= KEPT) for (const size of made.keys()) if (size !== MEAN) made.delete(size);
    made.set(percentile, head);
  }
  return head;
}

function makeHead(): Head {
  let cage = fitCage(headCage(), FIT_ROUNDS);
  for (let i = 0; i < LEVELS; i++) cage = subdivide(cage);
  clearOfEyes(cage.values);
  const { values } = cage;
  const count = values.length / CAGE_STRIDE;
  const positions = new Float64Array(3 * count);
  for (let v = 0; v < count; v++)
    for (let k = 0; k < 3; k++) positions[3 * v + k] = CM * values[CAGE_STRIDE * v + k];
  const skin = withNormals(positions, cage.triangles, cage.tags);
  const leftEye = eyeOn(1);
  const rightEye = eyeOn(-1);
  const ear = rooted(leftEar(), new Relief(skin, 1, BEHIND_EARS));
  const mesh = joinMeshes([skin, eyeBall(leftEye), eyeBall(rightEye), ear, mirrored(ear)]);
  const regions = new Uint8Array(mesh.positions.length / 3);
  const front = new Uint8Array(regions.length);
  let crown = 0;
  for (let v = 0; v < count; v++) {
    const at = CAGE_STRIDE * v;
    if (positions[3 * v + 2] > positions[3 * crown + 2]) crown = v;
    if (values[at + 3] <= MASK_SHARE) continue;
    const [x, y, z] = toMask(values[at], values[at + 1], values[at + 2]);
    if (Math.abs(x) >= FRONT_ASIDE || y <= FRONT_FROM) continue;
    front[v] = 1;
    regions[v] = regionOf(x, y, z);
  }
  const onSkin = (v: number): Point => [positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]];
  return {
    mesh,
    scale: 1,
    regions,
    front,
    vertexAreas: vertexAreas(mesh),
    // the mask's own vertices come first and keep their numbers
    landmarks: {
      noseBridge: onSkin(6),
      noseTip: onSkin(1),
      chin: onSkin(152),
      upperLip: onSkin(0),
      leftEar: [0, EAR_ASIDE * CM, 0],
      rightEar: [0, -EAR_ASIDE * CM, 0],
      leftCheek: onSkin(425),
      rightCheek: onSkin(205),
      forehead: onSkin(151),
      crown: onSkin(crown),
    },
    leftEye,
    rightEye,
  };
}

/** How far the skirts behind the lids' edges may lie inside the globe, where the lids proper lie outside it. */
const SKIRT_INSIDE = 0.1;

/** Smoothing draws the lids in here and there: moves them out of the globe and the cornea again. */
function clearOfEyes(values: Float64Array) {
  for (let at = 0; at < values.length; at += CAGE_STRIDE) {
    if (values[at] < GLOBE.ahead) continue;
    const off = LID - SKIRT_INSIDE * (1 - values[at + 3]);
    pushOut(values, at, GLOBE.ahead, GLOBE.radius + off);
    pushOut(values, at, GLOBE.ahead + CORNEA.ahead, CORNEA.radius + off);
  }
}

/** Moves a point out of a sphere round an eye's line of sight, on its own side of the face. */
function pushOut(values: Float64Array, at: number, ahead: number, radius: number) {
  const dx = values[at] - ahead;
  const dy = values[at + 1] - (values[at + 1] > 0 ? GLOBE.aside : -GLOBE.aside);
  const dz = values[at + 2] - GLOBE.up;
  const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
  if (dx < 0 || length >= radius) return;
  const scale = radius / length - 1;
  values[at] += scale * dx;
  values[at + 1] += scale * dy;
  values[at + 2] += scale * dz;
}
