/** How a measured light spreads its energy over directions, as a table (from a photometric file). */

export interface LightDistribution {
  /** angles from the light's axis, ascending from 0 to at most pi */
  readonly vertical_rad: Float64Array;
  /** angles round the axis from the light's up, counterclockwise seen from behind it, from 0 to 2 pi both included;
   * one angle alone: the same all round.
   * Source  ANSI/IESNA LM-63-02, type C: 0 along the opening's length, counterclockwise from above a lamp that looks
   * straight down */
  readonly horizontal_rad: Float64Array;
  /** intensity per unit of energy that leaves, 1/sr: vertical.length numbers for each horizontal angle in turn */
  readonly perLumen: Float64Array;
}

/** Intensity per unit of energy along a unit direction, given as its parts along the light's axis, right and up.
 * Units   1/sr; 0 beyond the table's last vertical angle
 * Source  bilinear in the two angles, as LM-63 readers do (common practice) */
export function intensityPerLumen(d: LightDistribution, forward: number, right: number, up: number): number {
  const v = d.vertical_rad;
  const rows = v.length;
  const polar = Math.acos(Math.max(-1, Math.min(1, forward)));
  if (polar > v[rows - 1] || polar < v[0]) return 0;
  const i = below(v, polar);
  const s = rows > 1 ? (polar - v[i]) / (v[i + 1] - v[i]) : 0;
  const h = d.horizontal_rad;
  if (h.length === 1) return between(d.perLumen, i, s);
  const raw = Math.atan2(-right, up);
  const round = raw < 0 ? raw + 2 * Math.PI : raw;
  const j = below(h, round);
  const t = (round - h[j]) / (h[j + 1] - h[j]);
  return (1 - t) * between(d.perLumen, j * rows + i, s) + t * between(d.perLumen, (j + 1) * rows + i, s);
}

function between(table: Float64Array, at: number, share: number): number {
  return share === 0 ? table[at] : table[at] + share * (table[at + 1] - table[at]);
}

/** Index of the last entry at or before x, at most the last but one. */
function below(sorted: Float64Array, x: number): number {
  let low = 0;
  let high = sorted.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (sorted[middle] <= x) low = middle;
    else high = middle - 1;
  }
  return Math.max(0, low);
}
