/** Lines out of pixels: round a region, and along its ridges; made smooth and written with few points. */

/** across, up, across, up ... millimetres */
export type PageLine = number[];

interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly across0: number;
  readonly up0: number;
  readonly step: number;
}

/** The borders of a region, each closed: last point as the first. One number a pixel, 1 inside and 0 outside. */
export function borders(grid: Grid, inside: Float64Array): PageLine[] {
  const { columns, rows } = grid;
  const soft = blurred(grid, inside);
  // a crossing lies on the edge between two pixels: numbered by the lower left one and the way it goes
  const next = new Map<number, number>();
  const place = new Map<number, [number, number]>();
  const crossing = (from: number, isUp: boolean): number => {
    const to = from + (isUp ? columns : 1);
    const id = 2 * from + (isUp ? 1 : 0);
    const share = (0.5 - soft[from]) / (soft[to] - soft[from]);
    const [column, row] = [from % columns, Math.floor(from / columns)];
    place.set(id, isUp ? [column, row + share] : [column + share, row]);
    return id;
  };
  for (let row = 0; row + 1 < rows; row++)
    for (let column = 0; column + 1 < columns; column++) {
      const at = row * columns + column;
      const corners = [at, at + 1, at + columns + 1, at + columns];
      const lit = corners.map((corner) => soft[corner] > 0.5);
      // round the square with the inside on the left: a border comes in where it goes from out to in
      const sides = [
        () => crossing(at, false),
        () => crossing(at + 1, true),
        () => crossing(at + columns, false),
        () => crossing(at, true),
      ];
      const turns = [0, 1, 2, 3].filter((k) => lit[k] !== lit[(k + 1) % 4]);
      for (const k of turns) {
        if (!lit[k] || lit[(k + 1) % 4]) continue;
        // leaves the inside here; the line runs to where it is entered again
        const back = [1, 2, 3].map((d) => (k + d) % 4).find((side) => turns.includes(side) && !lit[side]);
        if (back !== undefined) next.set(sides[k](), sides[back]());
      }
    }
  const lines: PageLine[] = [];
  while (next.size > 0) {
    const [start] = next.keys();
    const ids = [start];
    for (let id = next.get(start); id !== undefined; id = next.get(id)) {
      next.delete(ids[ids.length - 1]);
      ids.push(id);
      if (id === start) break;
    }
    next.delete(ids[ids.length - 1]);
    lines.push(
      onPaper(
        grid,
        ids.map((id) => place.get(id) as [number, number]),
      ),
    );
  }
  return lines;
}

/** Lines one pixel wide, from end to end. One number a pixel: 1 on a line. */
export function strokes(grid: Grid, on: Uint8Array): PageLine[] {
  const { columns } = grid;
  const left = thinned(grid, on);
  const around = [1, columns, -1, -columns, columns + 1, columns - 1, -columns + 1, -columns - 1];
  const neighbours = (at: number) => around.map((d) => at + d).filter((to) => left[to] === 1);
  const walk = (from: number): number[] => {
    const path = [from];
    left[from] = 0;
    for (let [to] = neighbours(from); to !== undefined; [to] = neighbours(to)) {
      path.push(to);
      left[to] = 0;
    }
    return path;
  };
  const lines: PageLine[] = [];
  const take = (at: number) => {
    const there = walk(at);
    const back = walk(at).slice(1);
    const path = [...back.reverse(), ...there];
    lines.push(
      onPaper(
        grid,
        path.map((p) => [p % columns, Math.floor(p / columns)]),
      ),
    );
  };
  // ends first, so that a line is not begun in its middle; then what is closed
  for (let at = 0; at < left.length; at++) if (left[at] === 1 && neighbours(at).length === 1) take(at);
  for (let at = 0; at < left.length; at++) if (left[at] === 1) take(at);
  return lines;
}

/** Zhang and Suen 1984: peels a region until its lines are one pixel wide. */
function thinned({ columns, rows }: Grid, on: Uint8Array): Uint8Array {
  const out = on.slice();
  const ring = [columns, columns + 1, 1, -columns + 1, -columns, -columns - 1, -1, columns - 1];
  for (let changed = true; changed; ) {
    changed = false;
    for (const half of [0, 1]) {
      const gone: number[] = [];
      for (let row = 1; row + 1 < rows; row++)
        for (let column = 1; column + 1 < columns; column++) {
          const at = row * columns + column;
          if (out[at] === 0) continue;
          const p = ring.map((d) => out[at + d]);
          const count = p.reduce((sum, one) => sum + one, 0);
          if (count < 2 || count > 6) continue;
          if (p.filter((one, k) => one === 0 && p[(k + 1) % 8] === 1).length !== 1) continue;
          const [north, , east, , south, , west] = p;
          if (
            half === 0
              ? north * east * south || east * south * west
              : north * east * west || north * south * west
          )
            continue;
          gone.push(at);
        }
      for (const at of gone) out[at] = 0;
      changed ||= gone.length > 0;
    }
  }
  return out;
}

function blurred({ columns, rows }: Grid, values: Float64Array): Float64Array {
  const weights = [1, 2, 1];
  const along = (from: Float64Array, d: number) => {
    const out = new Float64Array(from.length);
    for (let row = 1; row + 1 < rows; row++)
      for (let column = 1; column + 1 < columns; column++) {
        const at = row * columns + column;
        for (let k = -1; k <= 1; k++) out[at] += (weights[k + 1] / 4) * from[at + k * d];
      }
    return out;
  };
  return along(along(values, 1), columns);
}

function onPaper(grid: Grid, pixels: readonly (readonly [number, number])[]): PageLine {
  return pixels.flatMap(([column, row]) => [grid.across0 + column * grid.step, grid.up0 + row * grid.step]);
}

export function lengthOf(line: PageLine): number {
  let sum = 0;
  for (let i = 2; i < line.length; i += 2)
    sum += Math.hypot(line[i] - line[i - 2], line[i + 1] - line[i - 1]);
  return sum;
}

/** Each point the mean of itself and its neighbours, `rounds` times; ends stay, closed lines go round. */
export function smoothed(line: PageLine, rounds: number): PageLine {
  const count = line.length / 2;
  const isClosed = isRing(line);
  let now = line;
  for (let round = 0; round < rounds; round++) {
    const out = now.slice();
    for (let i = 0; i < count; i++) {
      if (!isClosed && (i === 0 || i === count - 1)) continue;
      const before = i === 0 ? count - 2 : i - 1;
      const after = i === count - 1 ? 1 : i + 1;
      for (let k = 0; k < 2; k++)
        out[2 * i + k] = (now[2 * before + k] + 2 * now[2 * i + k] + now[2 * after + k]) / 4;
    }
    now = out;
  }
  return now;
}

function isRing(line: PageLine): boolean {
  const n = line.length;
  return n > 6 && line[0] === line[n - 2] && line[1] === line[n - 1];
}

/** Douglas and Peucker 1973: no point of the line lies farther than `off` from what is kept. */
export function simplified(line: PageLine, off: number): PageLine {
  const count = line.length / 2;
  const kept = new Uint8Array(count);
  kept[0] = 1;
  kept[count - 1] = 1;
  const between = (first: number, last: number) => {
    const [ax, ay] = [line[2 * first], line[2 * first + 1]];
    const [dx, dy] = [line[2 * last] - ax, line[2 * last + 1] - ay];
    const length = Math.hypot(dx, dy);
    let [far, most] = [-1, off];
    for (let i = first + 1; i < last; i++) {
      const [x, y] = [line[2 * i] - ax, line[2 * i + 1] - ay];
      const away = length > 0 ? Math.abs(x * dy - y * dx) / length : Math.hypot(x, y);
      if (away > most) [far, most] = [i, away];
    }
    if (far < 0) return;
    kept[far] = 1;
    between(first, far);
    between(far, last);
  };
  between(0, count - 1);
  return line.filter((_, i) => kept[i >> 1] === 1);
}
