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
  // every ray stands in two rows: what i counts of j goes into (i, j) and into (j, i)
  const met = new Float64Array(n);
  const start = new Int32Array(n + 1);
  for (let r = 0; r < visible.length; r++) {
    if (visible[r] < 0) continue;
    const i = Math.floor(r / raysEach);
    met[i] += 1 / raysEach;
    start[i + 1]++;
    start[(visible[r] >> TILE_BITS) + 1]++;
  }
  for (let i = 0; i < n; i++) start[i + 1] += start[i];
  const seenBy = new Int32Array(start[n]);
  const counts = new Float64Array(start[n]);
  const next = start.slice(0, n);
  for (let r = 0; r < visible.length; r++) {
    if (visible[r] < 0) continue;
    const i = Math.floor(r / raysEach);
    const j = visible[r] >> TILE_BITS;
    const weight = area[i] / raysEach / 2;
    seenBy[next[i]] = j;
    counts[next[i]++] = weight;
    seenBy[next[j]] = i;
    counts[next[j]++] = weight;
  }
  // rays of one row to the same patch become one entry
  const offset = new Int32Array(n + 1);
  const columns = new Int32Array(start[n]);
  const sums = new Float64Array(start[n]);
  const entryOfRay = new Int32Array(visible.length).fill(-1);
  const place = new Int32Array(n).fill(-1);
  let entries = 0;
  for (let i = 0; i < n; i++) {
    for (let k = start[i]; k < start[i + 1]; k++) {
      const j = seenBy[k];
      if (place[j] < offset[i]) {
        place[j] = entries;
        columns[entries] = j;
        sums[entries++] = 0;
      }
      sums[place[j]] += counts[k];
    }
    for (let r = i * raysEach; r < (i + 1) * raysEach; r++)
      if (visible[r] >= 0) entryOfRay[r] = place[visible[r] >> TILE_BITS];
    offset[i + 1] = entries;
  }
  const column = columns.slice(0, entries);
  const exchange = sums.slice(0, entries);
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
