/** Where faces may be: what the detecting network's rows say. */
import { fromCrop, type Square } from "./find-crop.ts";
import { FACE_ROW, NET_SIDE } from "./find-nets.ts";

export interface FoundBox {
  /** turned so that its eyes are level, a quarter of the face's box beside it on each side */
  readonly square: Square;
  readonly score: number;
}

/** Anchors as the network was trained: two on each of 16 x 16 middles, then six on each of 8 x 8; here finest grid first. */
const GRIDS = [
  { cells: 16, each: 2 },
  { cells: 8, each: 6 },
] as const;
const SCORE_LIMIT = 100;
/** Two whose middles are nearer than this share of the larger one's side are one face: heads cannot stand closer. */
const SAME_FACE = 0.3;
/** Side of the square over that of the box, as the mesh network was trained. */
export const ROUND_BOX = 1.5;

/** Shape   rows: 896 rows of FACE_ROW numbers as the network gives them for `looked` */
export function readBoxes(rows: Float32Array, looked: Square, least: number): FoundBox[] {
  const found: FoundBox[] = [];
  let row = 0;
  for (const { cells, each } of GRIDS)
    for (let cell = 0; cell < cells * cells; cell++)
      for (let k = 0; k < each; k++, row++) {
        const at = row * FACE_ROW;
        const score = 1 / (1 + Math.exp(-Math.min(SCORE_LIMIT, Math.max(-SCORE_LIMIT, rows[at]))));
        if (score < least) continue;
        const x = ((cell % cells) + 0.5) / cells;
        const y = (Math.floor(cell / cells) + 0.5) / cells;
        found.push({ square: boxSquare(rows, at, x * NET_SIDE.faces, y * NET_SIDE.faces, looked), score });
      }
  return oneEach(found);
}

function boxSquare(rows: Float32Array, at: number, ax: number, ay: number, looked: Square): Square {
  const place = (k: number) => fromCrop(looked, NET_SIDE.faces, ax + rows[at + k], ay + rows[at + k + 1]);
  const [x, y] = place(1);
  const [right, left] = [place(5), place(7)];
  const size = Math.max(rows[at + 3], rows[at + 4]) * (looked.side / NET_SIDE.faces);
  return { x, y, side: ROUND_BOX * size, turn: Math.atan2(left[1] - right[1], left[0] - right[0]) };
}

/** The best of those that lie on each other, in falling order. */
export function oneEach<T extends FoundBox>(boxes: readonly T[]): T[] {
  const kept: T[] = [];
  for (const box of boxes.toSorted((a, b) => b.score - a.score))
    if (kept.every((other) => !isSameFace(other, box))) kept.push(box);
  return kept;
}

type Placed = Pick<FoundBox, "square">;

export function isSameFace({ square: a }: Placed, { square: b }: Placed): boolean {
  const [dx, dy] = [a.x - b.x, a.y - b.y];
  return Math.sqrt(dx * dx + dy * dy) < SAME_FACE * Math.max(a.side, b.side);
}
