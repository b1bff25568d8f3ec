/** Evens out light that few rays have gathered, from cell to cell of a map. */

/** Numbers a cell: sum, x, y, z of the light that arrives, lx.s. */
export const FIELD = 4;

/** Cells row by row. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
}

/** A quarter each of both neighbours and half of the cell itself, along rows and then up columns, so many rounds. A cell
 * with a way to one side only leaves that out: in the end it is half itself and half where the next two lead. What
 * rises or falls evenly stays what it is. */
export function evenOut(values: Float64Array, { columns, rows }: Grid, open: Uint8Array, rounds: number) {
  const count = columns * rows;
  const axes = [
    [1, 1],
    [columns, 2],
  ] as const;
  const isOpen = (from: number, bit: number) => from >= 0 && from < count && (open[from] & bit) !== 0;
  for (let round = 0; round < rounds; round++) {
    for (const [next, bit] of axes) {
      const before = values.slice();
      for (let at = next; at + next < count; at++)
        if (isOpen(at, bit) && isOpen(at - next, bit))
          mix(values, before, at, [at, at - next, at + next], [0.5, 0.25, 0.25]);
    }
  }
  for (const [next, bit] of axes) {
    const before = values.slice();
    for (let at = 0; at < count; at++) {
      const [on, back] = [isOpen(at, bit), isOpen(at - next, bit)];
      if (on && !back && isOpen(at + next, bit))
        mix(values, before, at, [at, at + next, at + 2 * next], [0.5, 1, -0.5]);
      if (back && !on && isOpen(at - 2 * next, bit))
        mix(values, before, at, [at, at - next, at - 2 * next], [0.5, 1, -0.5]);
    }
  }
}

function mix(
  out: Float64Array,
  from: Float64Array,
  at: number,
  cells: readonly [number, number, number],
  shares: readonly [number, number, number],
) {
  for (let k = 0; k < FIELD; k++)
    out[FIELD * at + k] =
      shares[0] * from[FIELD * cells[0] + k] +
      shares[1] * from[FIELD * cells[1] + k] +
      shares[2] * from[FIELD * cells[2] + k];
}
