/** The points of one face: the mesh network on a square round it, the square drawn round the mesh again until both agree,
 * then the mean over slightly different squares; the eyes by a network of their own. */
import { fromCrop, type Halves, type Square, type ToneLift, writeCrop } from "./find-crop.ts";
import { EYE_POINTS, type FaceNets, MESH_POINTS, NET_SIDE } from "./find-nets.ts";
import { EYE_CORNERS, EYE_RINGS, IRIS_START, MIRROR } from "./find-points.ts";
import { POINTS } from "./types.ts";

export interface Mesh {
  /** POINTS times x y z in pixels of the picture */
  readonly points: Float64Array;
  /** of the last square that it was taken from */
  readonly square: Square;
  readonly score: number;
}

/** Side of the square over the mesh's extent, as the network was trained. */
const ROUND_MESH = 1.5;
const ROUNDS = 2;
/** Side of an eye's square over the distance of its corners, as the network was trained. */
const ROUND_EYE = 2.3;

/** How the last squares differ: shares of the side, radians. */
const VARIED = [
  { side: 1, turn: 0, isMirrored: false },
  { side: 1, turn: 0, isMirrored: true },
  { side: 1.06, turn: 0.04, isMirrored: false },
  { side: 0.95, turn: -0.04, isMirrored: true },
] as const;

export async function findMesh(
  nets: FaceNets,
  halves: Halves,
  from: Square,
  lift: ToneLift,
  least: number,
): Promise<Mesh | null> {
  let square = from;
  for (let round = 0; round < ROUNDS; round++) {
    const first = await meshIn(nets, halves, [square], lift);
    if (first.score < least && round > 0) return null;
    square = squareRound(first.points);
  }
  const squares = VARIED.map(({ side, turn, isMirrored }) => ({
    x: square.x,
    y: square.y,
    side: side * square.side,
    turn: square.turn + turn,
    isMirrored,
  }));
  const mesh = await meshIn(nets, halves, squares, lift);
  if (mesh.score < least) return null;
  await addEyes(nets, halves, mesh.points, lift);
  return { ...mesh, square: squareRound(mesh.points) };
}

/** Means over the squares. */
async function meshIn(nets: FaceNets, halves: Halves, squares: readonly Square[], lift: ToneLift) {
  const side = NET_SIDE.mesh;
  const rgb = new Float32Array(squares.length * 3 * side * side);
  squares.forEach((square, k) => {
    writeCrop(rgb, k * 3 * side * side, halves, square, side, lift);
  });
  const found = await nets.mesh(rgb, squares.length);
  const points = new Float64Array(3 * POINTS);
  squares.forEach((square, k) => {
    for (let i = 0; i < MESH_POINTS; i++) {
      const at = 3 * (k * MESH_POINTS + i);
      const to = 3 * (square.isMirrored ? MIRROR[i] : i);
      const [x, y] = fromCrop(square, side, found.points[at], found.points[at + 1]);
      points[to] += x / squares.length;
      points[to + 1] += y / squares.length;
      points[to + 2] += (found.points[at + 2] * (square.side / side)) / squares.length;
    }
  });
  return { points, score: found.scores.reduce((sum, s) => sum + s, 0) / squares.length };
}

/** Level with the outer corners of the eyes, its middle that of the points. */
export function squareRound(points: ArrayLike<number>): Square {
  const [a, b] = [3 * EYE_CORNERS.right[0], 3 * EYE_CORNERS.left[0]];
  const turn = Math.atan2(points[b + 1] - points[a + 1], points[b] - points[a]);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const low = [Infinity, Infinity];
  const high = [-Infinity, -Infinity];
  for (let i = 0; i < MESH_POINTS; i++) {
    const [x, y] = [points[3 * i], points[3 * i + 1]];
    [x * cos + y * sin, y * cos - x * sin].forEach((value, k) => {
      low[k] = Math.min(low[k], value);
      high[k] = Math.max(high[k], value);
    });
  }
  const [u, v] = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  const side = ROUND_MESH * Math.max(high[0] - low[0], high[1] - low[1]);
  return { x: u * cos - v * sin, y: u * sin + v * cos, side, turn };
}

/** Puts lids and irises where the eye network sees them; depths stay the mesh's. */
async function addEyes(nets: FaceNets, halves: Halves, points: Float64Array, lift: ToneLift): Promise<void> {
  const side = NET_SIDE.eye;
  const { turn } = squareRound(points);
  const squares = (["right", "left"] as const).map((eye): Square => {
    const [a, b] = EYE_CORNERS[eye].map((corner) => 3 * corner);
    const [dx, dy] = [points[a] - points[b], points[a + 1] - points[b + 1]];
    return {
      x: (points[a] + points[b]) / 2,
      y: (points[a + 1] + points[b + 1]) / 2,
      side: ROUND_EYE * Math.sqrt(dx * dx + dy * dy),
      turn,
      isMirrored: eye === "left",
    };
  });
  const rgb = new Float32Array(2 * 3 * side * side);
  squares.forEach((square, k) => {
    writeCrop(rgb, k * 3 * side * side, halves, square, side, lift);
  });
  const found = await nets.eyes(rgb, 2);
  squares.forEach((square, k) => {
    const eye = k === 0 ? "right" : "left";
    const put = (from: number, to: number) => {
      const at = 3 * (k * EYE_POINTS + from);
      const [x, y] = fromCrop(square, side, found[at], found[at + 1]);
      points[3 * to] = x;
      points[3 * to + 1] = y;
    };
    EYE_RINGS[eye].forEach((to, from) => {
      put(from, to);
    });
    const [a, b] = EYE_CORNERS[eye];
    const depth = (points[3 * a + 2] + points[3 * b + 2]) / 2;
    for (let i = 0; i < 5; i++) {
      put(EYE_POINTS - 5 + i, IRIS_START[eye] + i);
      points[3 * (IRIS_START[eye] + i) + 2] = depth;
    }
  });
}
