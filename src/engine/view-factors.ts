/** How much the patches of a scene see of each other. */
import type { Gather } from "./gather.ts";
import { type Patches, TILE_BITS } from "./scene.ts";

/** Rows of view factors, compressed: patch i sees patch `column[k]` with `factor[k]`, k from offset[i] to offset[i + 1]. */
export interface ViewFactors {
  readonly offset: Int32Array;
  readonly column: Int32Array;
  readonly factor: Float64Array;
  /** per ray of the gather: the entry of its row that it belongs to, -1 where it sees nothing */
  readonly entryOfRay: Int32Array;
  /** per patch: the sum of its row, what it sees of surfaces at all */
  readonly met: Float64Array;
}

/** Rounds of scaling: the row sums then stand to a few parts in ten thousand (measured in the test). */
const ROUNDS = 12;

/** View factors from what the patches' rays meet. Shares of rays alone lose or make energy, because what i counts of
 * j and what j counts of i are two guesses; here both guesses of the exchange A_i F_ij = A_j F_ji are made one, and the
 * rows are scaled until each again adds up to the share of its rays that meet anything.
 * Source  reciprocity and closure of view factors; symmetric scaling after Sinkhorn and Knopp 1967 */
export function viewFactors(gather: Gather, visible: Int32Array, patches: Patches): ViewFactors {
  const n = patches.count;
  const { raysEach } = gather;
  const { area } = patches;
  // rays counted per pair, both ways: what i counts goes into (i, j) and into (j, i)
  const pairs: Map<number, number>[] = Array.from({ length: n }, () => new Map());
  const met = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const weight = area[i] / raysEach / 2;
    for (let k = i * raysEach; k < (i + 1) * raysEach; k++) {
      if (visible[k] < 0) continue;
      const j = visible[k] >> TILE_BITS;
      met[i] += 1 / raysEach;
      pairs[i].set(j, (pairs[i].get(j) ?? 0) + weight);
      pairs[j].set(i, (pairs[j].get(i) ?? 0) + weight);
    }
  }
  const offset = new Int32Array(n + 1);
  for (let i = 0; i < n; i++) offset[i + 1] = offset[i] + pairs[i].size;
  const column = new Int32Array(offset[n]);
  const exchange = new Float64Array(offset[n]);
  const entryOfRay = new Int32Array(visible.length).fill(-1);
  const place = new Int32Array(n);
  for (let i = 0; i < n; i++) {
    let k = offset[i];
    for (const [j, value] of pairs[i]) {
      column[k] = j;
      exchange[k] = value;
      place[j] = k++;
    }
    for (let r = i * raysEach; r < (i + 1) * raysEach; r++)
      if (visible[r] >= 0) entryOfRay[r] = place[visible[r] >> TILE_BITS];
  }
  const scale = new Float64Array(n).fill(1);
  for (let round = 0; round < ROUNDS; round++) {
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let k = offset[i]; k < offset[i + 1]; k++) sum += exchange[k] * scale[column[k]];
      // half a step each round keeps the scaling the same both ways
      if (sum > 0 && met[i] > 0) scale[i] = Math.sqrt((scale[i] * met[i] * area[i]) / sum);
    }
  }
  const factor = exchange;
  for (let i = 0; i < n; i++)
    for (let k = offset[i]; k < offset[i + 1]; k++) factor[k] *= (scale[i] * scale[column[k]]) / area[i];
  for (let i = 0; i < n; i++) {
    met[i] = 0;
    for (let k = offset[i]; k < offset[i + 1]; k++) met[i] += factor[k];
  }
  return { offset, column, factor, entryOfRay, met };
}
