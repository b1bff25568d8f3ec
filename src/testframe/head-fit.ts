/** How a found head is turned, and its points in space. docs/decisions/0008-finding-faces.md has what it was measured on. */
import { buildHead, CANONICAL_VERTICES } from "../figure/index.ts";
import { MESH_POINTS } from "./find-nets.ts";
import { EYE_CORNERS } from "./find-points.ts";
import { layOn, middleOf, product, turnPoints } from "./head-fit-solve.ts";
import type { FoundFace } from "./types.ts";

export interface HeadFit {
  /** 3 x 3 row-major: head axes (x ahead, y own left, z up) to camera axes */
  readonly cameraFromHead: Float64Array;
  /** pixels of the picture a metre at the face, as if it were as large as the mean one */
  readonly pixelsPerMetre: number;
  /** degrees, from facing the lens: turn + to own left, tip + chin up, tilt + to own left shoulder */
  readonly turn: number;
  readonly tip: number;
  readonly tilt: number;
  /** the first MESH_POINTS points of the face, xyz each, camera axes, metres, from the middle of those fitted: as the network
   * saw them, with perspective taken out */
  readonly points: Float64Array;
  /** what the mean face does not explain across the sight, root mean square, millimetres */
  readonly missMillimetres: number;
}

/** Weight of the network's depth against what is seen across. 0 leaves turn and tip to noses of unusual length, 1 to the
 * network, which shading misleads: 0.15 errs least over rendered heads. */
const DEPTH_WEIGHT = 0.15;
/** Where the lens stands when nothing says so, metres. Common practice, no source. */
const USUAL_DISTANCE = 1.6;
/** Level of the nose's base in the canonical face, centimetres: what lies lower moves with lips and jaw. */
const NOSE_BASE = -2.6;
const DEGREES = 180 / Math.PI;
/** Between the eyes: what faces the lens when somebody does. */
const BRIDGE = 168;

export function fitHead(
  face: FoundFace,
  picture: { readonly width: number; readonly height: number },
  focalPixels: number | null,
): HeadFit {
  const { own, weights } = meanFace();
  const sight = sightOf(face, picture, focalPixels);
  // once to learn how large it is, since that tells how much nearer its nearer parts are
  let seen = alongSight(face, sight, focalPixels ?? Number.POSITIVE_INFINITY);
  const start = roughTurn(seen);
  const first = layOn(own, seen, weights, DEPTH_WEIGHT, start);
  if (focalPixels === null) seen = alongSight(face, sight, USUAL_DISTANCE * first.scale);
  const laid = layOn(own, seen, weights, DEPTH_WEIGHT, first.rotation);
  const points = inMetres(seen, weights, laid.scale);
  turnPoints(points, sight.cameraFromSight, points);
  return {
    cameraFromHead: product(sight.cameraFromSight, laid.rotation),
    pixelsPerMetre: laid.scale,
    ...anglesOf(laid.rotation),
    points,
    missMillimetres: 1000 * laid.miss,
  };
}

interface MeanFace {
  readonly own: Float64Array;
  readonly weights: Float64Array;
}

let mean: MeanFace | null = null;

/** The figure's own points: its sizes are measured ones. */
function meanFace(): MeanFace {
  if (mean) return mean;
  const own = buildHead().mesh.positions.slice(0, 3 * MESH_POINTS);
  const weights = Float64Array.from({ length: MESH_POINTS }, (_, v) =>
    CANONICAL_VERTICES[3 * v + 1] > NOSE_BASE ? 1 : 0,
  );
  mean = { own, weights };
  return mean;
}

interface Sight {
  /** pixels: where the line of sight to the face meets the picture */
  readonly x: number;
  readonly y: number;
  /** the picture's own middle */
  readonly middle: readonly [number, number];
  /** 3 x 3 row-major; the sight's z runs from the face to the lens */
  readonly cameraFromSight: Float64Array;
}

function sightOf(
  { points }: FoundFace,
  { width, height }: { readonly width: number; readonly height: number },
  focal: number | null,
): Sight {
  const [x, y] = [points[3 * BRIDGE], points[3 * BRIDGE + 1]];
  const middle = [width / 2, height / 2] as const;
  if (focal === null) return { x, y, middle, cameraFromSight: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1) };
  const [bx, by] = [middle[0] - x, y - middle[1]];
  const length = Math.sqrt(bx * bx + by * by + focal * focal);
  const [ux, uy, uz] = [bx / length, by / length, focal / length];
  // the smallest turn from the camera's axis to where the lens is seen from the face
  const k = 1 / (1 + uz);
  return {
    x,
    y,
    middle,
    cameraFromSight: Float64Array.of(
      ...[1 - k * ux * ux, -k * ux * uy, ux],
      ...[-k * ux * uy, 1 - k * uy * uy, uy],
      ...[-ux, -uy, uz],
    ),
  };
}

/** The points as seen from the face's own middle far away, y up, z to the lens, pixels at the face's distance.
 * @param focal pixels; Infinity where perspective is left out */
function alongSight({ points }: FoundFace, sight: Sight, focal: number): Float64Array {
  const { cameraFromSight: m, middle } = sight;
  const isTurned = m[8] !== 1;
  const out = new Float64Array(3 * MESH_POINTS);
  for (let v = 0; v < MESH_POINTS; v++) {
    let x = points[3 * v] - sight.x;
    let y = sight.y - points[3 * v + 1];
    const depth = points[3 * v + 2];
    if (isTurned) {
      // the pixel's ray in the axes of the sight, where it meets the plane square to it
      const ray = [points[3 * v] - middle[0], middle[1] - points[3 * v + 1], -focal];
      const [a, b, c] = [0, 1, 2].map((k) => m[k] * ray[0] + m[3 + k] * ray[1] + m[6 + k] * ray[2]);
      x = (-a / c) * focal;
      y = (-b / c) * focal;
    }
    const nearer = 1 + depth / focal;
    out.set([x * nearer, y * nearer, -depth], 3 * v);
  }
  return out;
}

/** From the line of the eyes and the line from chin to forehead. */
function roughTurn(seen: Float64Array): Float64Array {
  const along = (from: number, to: number) => [0, 1, 2].map((k) => seen[3 * to + k] - seen[3 * from + k]);
  const left = unit(along(EYE_CORNERS.right[0], EYE_CORNERS.left[0]));
  const up = along(152, 10);
  const lean = up[0] * left[0] + up[1] * left[1] + up[2] * left[2];
  const upright = unit(up.map((x, k) => x - lean * left[k]));
  const ahead = [
    left[1] * upright[2] - left[2] * upright[1],
    left[2] * upright[0] - left[0] * upright[2],
    left[0] * upright[1] - left[1] * upright[0],
  ];
  return Float64Array.from([0, 1, 2].flatMap((k) => [ahead[k], left[k], upright[k]]));
}

function unit(v: readonly number[]): number[] {
  const length = Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
  return v.map((x) => x / length);
}

function inMetres(seen: Float64Array, weights: Float64Array, scale: number): Float64Array {
  const middle = middleOf(seen, weights);
  return seen.map((x, i) => (x - middle[i % 3]) / scale);
}

/** Against a head that faces the lens: x to the lens, own left to picture right. Undoes the figure's `headRotation`. */
function anglesOf(r: Float64Array): { turn: number; tip: number; tilt: number } {
  return {
    turn: DEGREES * Math.atan2(r[0], r[6]),
    tip: DEGREES * Math.asin(Math.max(-1, Math.min(1, r[3]))),
    tilt: -DEGREES * Math.atan2(r[4], r[5]),
  };
}
