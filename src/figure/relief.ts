/** How far a head's skin reaches in one direction, as a grid: for fitting things to it. Metres. */
import type { Mesh } from "./types.ts";

const CELL = 0.0008;
const SIZE = 330;
const MIDDLE = SIZE / 2;

/** Largest coordinate `along` (0 ahead, 1 left) over the other one and up; -Infinity where there is no skin. */
export class Relief {
  private readonly reach = new Float64Array(SIZE * SIZE).fill(-Infinity);
  private readonly other: number;

  /** Only triangles whose corners all lie beyond `from` in the direction ahead are looked at. */
  constructor(mesh: Mesh, along: 0 | 1, from: number) {
    this.other = 1 - along;
    const { positions: p, triangles } = mesh;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
      if (p[a] > from && p[b] > from && p[c] > from) this.draw(p, a, b, c, along);
    }
  }

  /** The farthest of the four nodes around: never too little by more than a cell's slope. */
  at(other: number, up: number): number {
    const i = Math.floor(other / CELL + MIDDLE);
    const j = Math.floor(up / CELL + MIDDLE);
    if (i < 0 || j < 0 || i + 1 >= SIZE || j + 1 >= SIZE) return -Infinity;
    const n = j * SIZE + i;
    const { reach } = this;
    return Math.max(reach[n], reach[n + 1], reach[n + SIZE], reach[n + SIZE + 1]);
  }

  private draw(p: Float64Array, a: number, b: number, c: number, along: number) {
    const o = this.other;
    const [ax, ay] = [p[a + o] / CELL + MIDDLE, p[a + 2] / CELL + MIDDLE];
    const [bx, by] = [p[b + o] / CELL + MIDDLE, p[b + 2] / CELL + MIDDLE];
    const [cx, cy] = [p[c + o] / CELL + MIDDLE, p[c + 2] / CELL + MIDDLE];
    const area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
    if (area === 0) return;
    const clamp = (x: number) => Math.min(SIZE - 1, Math.max(0, x));
    for (let j = clamp(Math.ceil(Math.min(ay, by, cy))); j <= clamp(Math.max(ay, by, cy)); j++)
      for (let i = clamp(Math.ceil(Math.min(ax, bx, cx))); i <= clamp(Math.max(ax, bx, cx)); i++) {
        const v = ((i - ax) * (cy - ay) - (cx - ax) * (j - ay)) / area;
        const w = ((bx - ax) * (j - ay) - (i - ax) * (by - ay)) / area;
        if (v < 0 || w < 0 || v + w > 1) continue;
        const reach = (1 - v - w) * p[a + along] + v * p[b + along] + w * p[c + along];
        if (reach > this.reach[j * SIZE + i]) this.reach[j * SIZE + i] = reach;
      }
  }
}
