/** All directions round a point on one square grid: the octahedron, its back folded out to the corners. Ahead (+x of
 * the head) is the middle, own left (+y) runs across and up (+z) upward, so that the seams lie behind the head. */

/** Cells along a side: a step is 1.8 degrees straight ahead and 4.4 where the grid is widest. */
export const SKY_CELLS = 64;
/** Nodes along a side. Those on the rim come twice. */
export const SKY_ACROSS = SKY_CELLS + 1;
export const SKY_NODES = SKY_ACROSS * SKY_ACROSS;

interface Target {
  [index: number]: number;
}

/** Unit direction at a place on the grid, both from 0 to SKY_CELLS, into out[at..at + 2]. */
export function writeSkyDirection(out: Target, at: number, across: number, upward: number) {
  const u = (2 / SKY_CELLS) * across - 1;
  const v = (2 / SKY_CELLS) * upward - 1;
  const au = Math.abs(u);
  const av = Math.abs(v);
  const x = 1 - au - av;
  const y = x < 0 ? (1 - av) * (u < 0 ? -1 : 1) : u;
  const z = x < 0 ? (1 - au) * (v < 0 ? -1 : 1) : v;
  const scale = 1 / Math.sqrt(x * x + y * y + z * z);
  out[at] = scale * x;
  out[at + 1] = scale * y;
  out[at + 2] = scale * z;
}

/** The node (i, j) itself, or, past the rim, the one where the folded sphere goes on. */
export function skyNode(i: number, j: number): number {
  let a = i;
  let b = j;
  if (a < 0 || a > SKY_CELLS) {
    a = a < 0 ? -a : 2 * SKY_CELLS - a;
    b = SKY_CELLS - b;
  }
  if (b < 0 || b > SKY_CELLS) {
    b = b < 0 ? -b : 2 * SKY_CELLS - b;
    a = SKY_CELLS - a;
  }
  return b * SKY_ACROSS + a;
}

/** Directions of all nodes, xyz each. */
export const SKY_DIRECTIONS = allDirections();

function allDirections(): Float64Array {
  const out = new Float64Array(3 * SKY_NODES);
  for (let j = 0; j < SKY_ACROSS; j++)
    for (let i = 0; i < SKY_ACROSS; i++) writeSkyDirection(out, 3 * (j * SKY_ACROSS + i), i, j);
  return out;
}
