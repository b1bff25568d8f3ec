/** The head in its own axes: x ahead, y own left, z up, metres, origin between the ear openings. */
import { CANONICAL_VERTICES } from "./canonical-face.generated.ts";
import { CAGE_STRIDE, GLOBE_RADIUS, headCage, LEFT_GLOBE } from "./head-cage.ts";
import { regionOf } from "./regions.ts";
import { ball, joinMeshes, withNormals } from "./solids.ts";
import { fitCage, subdivide } from "./subdivide.ts";
import { type Eye, type Head, MATERIAL, type Mesh } from "./types.ts";

/** Metres per centimetre of the mask: brings menton-sellion to 118 mm, the mean of women and men (ANSUR II 2012). */
export const SCALE = 0.0096;
/** The ear openings in the mask's axes, cm: level with the lower rim of the orbit (Frankfurt plane), behind its rim. */
export const EARS = { up: 0.8, ahead: -3.4, aside: 7.6 } as const;
const LEVELS = 2;
/** Rounds of fitting the cage: three bring the nose within half a millimetre of the measured one. */
const FIT_ROUNDS = 3;
/** Radius of the cornea, and how far its centre lies in front of the globe's, metres (published-checks section 10). */
const CORNEA_RADIUS = 0.0078;
const CORNEA_AHEAD = 0.0056;
const IRIS_RADIUS = 0.0059;
const PUPIL_RADIUS = 0.0019;

let made: Head | null = null;

/** The one head shape there is; built on first use. */
export function buildHead(): Head {
  made ??= makeHead();
  return made;
}

export function fromMask(x: number, y: number, z: number): [number, number, number] {
  return [SCALE * (z - EARS.ahead), SCALE * x, SCALE * (y - EARS.up)];
}

function makeHead(): Head {
  let cage = fitCage(headCage(), LEVELS, FIT_ROUNDS);
  for (let i = 0; i < LEVELS; i++) cage = subdivide(cage);
  const count = cage.values.length / CAGE_STRIDE;
  const positions = new Float64Array(3 * count);
  for (let v = 0; v < count; v++) {
    const at = CAGE_STRIDE * v;
    positions.set(fromMask(cage.values[at], cage.values[at + 1], cage.values[at + 2]), 3 * v);
  }
  const skin = withNormals(positions, cage.triangles, cage.tags);
  const leftEye = eyeAt(1);
  const rightEye = eyeAt(-1);
  const mesh = joinMeshes([skin, eyeBall(leftEye), eyeBall(rightEye), ear(1), ear(-1)]);
  const regions = new Uint8Array(mesh.positions.length / 3);
  const front = new Uint8Array(regions.length);
  for (let v = 0; v < count; v++) {
    const at = CAGE_STRIDE * v;
    const mask = cage.values[at + 3] > 0.7;
    const [x, y] = [cage.values[at], cage.values[at + 1]];
    front[v] = mask && Math.abs(x) < 6.4 && y > -9.2 ? 1 : 0;
    if (front[v]) regions[v] = regionOf(x, y, cage.values[at + 2]);
  }
  const onSkin = (i: number) =>
    [positions[3 * i], positions[3 * i + 1], positions[3 * i + 2]] as [number, number, number];
  const side = SCALE * EARS.aside;
  return {
    mesh,
    regions,
    front,
    vertexAreas: areasOf(mesh),
    // the cage's own vertices come first and in the order of the canonical mesh
    landmarks: {
      noseBridge: onSkin(6),
      noseTip: onSkin(1),
      chin: onSkin(152),
      upperLip: onSkin(0),
      leftEar: [0, side, 0],
      rightEar: [0, -side, 0],
      leftCheek: onSkin(425),
      rightCheek: onSkin(205),
      forehead: onSkin(151),
      crown: fromMask(0, 14.2, -5.2),
    },
    leftEye,
    rightEye,
  };
}

function eyeAt(side: 1 | -1): Eye {
  const centre = fromMask(side * LEFT_GLOBE[0], LEFT_GLOBE[1], LEFT_GLOBE[2]);
  return {
    centre,
    globeRadius: SCALE * GLOBE_RADIUS,
    corneaCentre: [centre[0] + CORNEA_AHEAD, centre[1], centre[2]],
    corneaRadius: CORNEA_RADIUS,
    irisRadius: IRIS_RADIUS,
  };
}

/** Globe with the cornea's bulge: along each way out, the farther of the two spheres. */
function eyeBall(eye: Eye): Mesh {
  const { centre, globeRadius, corneaRadius } = eye;
  const out = (c: number) => {
    const inside = corneaRadius ** 2 - CORNEA_AHEAD ** 2 * (1 - c * c);
    return Math.max(globeRadius, inside > 0 ? c * CORNEA_AHEAD + Math.sqrt(inside) : 0);
  };
  return ball(
    32,
    40,
    (x, y, z) => {
      const r = out(x);
      return [centre[0] + r * x, centre[1] + r * y, centre[2] + r * z];
    },
    (x) => {
      const aside = out(x) * Math.sqrt(Math.max(0, 1 - x * x));
      if (x < 0 || aside > eye.irisRadius) return MATERIAL.sclera;
      return aside > PUPIL_RADIUS ? MATERIAL.iris : MATERIAL.pupil;
    },
  );
}

/** Half-height and half-width of an ear: the mean length of women and men is 62 mm (ANSUR II). */
const EAR = { high: 0.031, wide: 0.018, thick: 0.006, flare: 0.45 } as const;

/** A plain ear: a shallow bowl with a rolled rim and a lobe, standing off the head. */
function ear(side: 1 | -1): Mesh {
  const shaped = ball(
    24,
    16,
    // the ball's poles lie out of the bowl (x > 0) and behind it
    (x, y, z) => {
      const narrow = z < 0 ? 1 + 0.35 * z : 1;
      const along = EAR.wide * narrow * y;
      const hollow = x > 0 ? 0.9 * (1 - (y * y + z * z)) : 0;
      const out = EAR.thick * (x - hollow);
      const ahead = along * Math.cos(EAR.flare) + out * Math.sin(EAR.flare);
      const aside = out * Math.cos(EAR.flare) + (EAR.wide - along) * Math.sin(EAR.flare);
      return [ahead - 0.016, SCALE * EARS.aside - 0.008 + aside, EAR.high * z + 0.004];
    },
    () => MATERIAL.skin,
  );
  return side > 0 ? outward(shaped) : outward(mirrored(shaped));
}

function mirrored(m: Mesh): Mesh {
  return { ...m, positions: m.positions.map((x, i) => (i % 3 === 1 ? -x : x)) };
}

/** Turns a closed mesh so that its triangles face out (its signed volume is positive). */
function outward(m: Mesh): Mesh {
  const { positions: p, triangles: t } = m;
  let volume = 0;
  for (let i = 0; i < t.length; i += 3) {
    const [a, b, c] = [3 * t[i], 3 * t[i + 1], 3 * t[i + 2]];
    volume +=
      p[a] * (p[b + 1] * p[c + 2] - p[b + 2] * p[c + 1]) -
      p[a + 1] * (p[b] * p[c + 2] - p[b + 2] * p[c]) +
      p[a + 2] * (p[b] * p[c + 1] - p[b + 1] * p[c]);
  }
  const turned = volume < 0 ? t.map((_, i) => t[i - (i % 3) + [0, 2, 1][i % 3]]) : t;
  return withNormals(p, turned, m.materials);
}

function areasOf(mesh: Mesh): Float64Array {
  const { positions: p, triangles } = mesh;
  const out = new Float64Array(p.length / 3);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const u = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]];
    const w = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]];
    const third =
      Math.hypot(u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]) / 6;
    for (const v of [a, b, c]) out[v / 3] += third;
  }
  return out;
}

/** Number of vertices of the measured mask. */
export const MASK_VERTICES = CANONICAL_VERTICES.length / 3;
