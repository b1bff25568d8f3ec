/** Finds places for names: deterministic, one after the other, never over another name and never off the area. */

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export type Segment = readonly [x1: number, y1: number, x2: number, y2: number];

export interface Candidate {
  /** middle of the label */
  readonly x: number;
  readonly y: number;
  /** how far it is from where a reader looks for it */
  readonly cost: number;
  /** from the label to what it names */
  readonly leader?: readonly [x: number, y: number];
}

export interface Placed {
  readonly box: Box;
  readonly leader: Segment | null;
  /** lies over a line, and needs paper behind it */
  readonly crosses: boolean;
}

/** Air between two names, mm. */
const AIR = 0.5;
/** A name that crosses a line is as bad as one this much farther away, mm. */
const CROSSING = 5;
const MOST_CROSSINGS = 4;
/** A name between two things is as bad as one this much farther away, mm. */
const DOUBT = 6;

export class LabelPlacer {
  readonly #area: Box;
  /** names that stand already, and things that no name may hide */
  readonly #taken: Box[] = [];
  readonly #things: Box[] = [];
  readonly #lines: Segment[];
  readonly #leaders: Segment[] = [];

  constructor(area: Box, lines: readonly Segment[]) {
    this.#area = area;
    this.#lines = [...lines];
  }

  /** Nothing is written there; leaders may run across. */
  keepClear(box: Box): void {
    this.#things.push(box);
  }

  /** The best of the places, or null where all are taken. Costs must not be negative. */
  place(width: number, height: number, candidates: Iterable<Candidate>): Placed | null {
    let best: Placed | null = null;
    let least = Infinity;
    for (const c of candidates) {
      if (c.cost >= least) continue;
      const box = { x0: c.x - width / 2, y0: c.y - height / 2, x1: c.x + width / 2, y1: c.y + height / 2 };
      if (!this.#isFree(box)) continue;
      const leader = c.leader === undefined ? null : leaderTo(box, c.leader);
      if (leader !== null && this.#taken.some((b) => crosses(leader, b))) continue;
      let crossings = 0;
      for (const line of this.#lines) {
        if (crosses(line, box)) crossings++;
        if (crossings === MOST_CROSSINGS) break;
      }
      const cost = c.cost + CROSSING * crossings;
      if (cost >= least) continue;
      least = cost;
      best = { box, leader, crosses: crossings > 0 };
    }
    if (best !== null) {
      this.#taken.push(best.box);
      if (best.leader !== null) this.#leaders.push(best.leader);
    }
    return best;
  }

  #isFree(box: Box): boolean {
    const a = this.#area;
    if (box.x0 < a.x0 || box.y0 < a.y0 || box.x1 > a.x1 || box.y1 > a.y1) return false;
    const grown = { x0: box.x0 - AIR, y0: box.y0 - AIR, x1: box.x1 + AIR, y1: box.y1 + AIR };
    return (
      !this.#taken.some((t) => overlap(t, grown)) &&
      !this.#things.some((t) => overlap(t, box)) &&
      !this.#leaders.some((l) => crosses(l, grown))
    );
  }
}

/** Beside the box, then farther and farther round it; with a leader once the name has left it, or where it would
 * stand nearer to another named thing. */
export function* around(
  clear: Box,
  anchor: readonly [x: number, y: number],
  others: readonly Box[],
  width: number,
  height: number,
): Generator<Candidate> {
  const [cx, cy] = [(clear.x0 + clear.x1) / 2, (clear.y0 + clear.y1) / 2];
  const [w, h] = [(clear.x1 - clear.x0 + width) / 2, (clear.y1 - clear.y0 + height) / 2];
  for (const gap of [0.8, 2, 4, 7, 11, 16, 22, 29, 37, 46]) {
    for (let k = 0; k < 16; k++) {
      const angle = (k * Math.PI) / 8;
      // a rounded square round the object: right, left, above and below come first
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const reach = Math.max(Math.abs(c), Math.abs(s));
      const x = cx + ((w + gap) * c) / reach;
      const y = cy + ((h + gap) * s) / reach;
      const cost = gap + (k % 8 === 0 ? 0 : k % 4 === 0 ? 0.3 : 0.6) + (k > 4 && k < 12 ? 0.2 : 0);
      const box = { x0: x - width / 2, y0: y - height / 2, x1: x + width / 2, y1: y + height / 2 };
      const own = apart(box, clear);
      const isDoubtful = others.some((other) => {
        const gapTo = apart(box, other);
        return gapTo < own + 0.6 || (gapTo < own + 2.5 && fromMiddle(other, x, y) < fromMiddle(clear, x, y));
      });
      if (!isDoubtful && gap <= 3) yield { x, y, cost };
      else yield { x, y, cost: cost + (isDoubtful ? DOUBT : 0), leader: anchor };
    }
  }
}

function fromMiddle({ x0, y0, x1, y1 }: Box, x: number, y: number): number {
  return Math.hypot(x - (x0 + x1) / 2, y - (y0 + y1) / 2);
}

function apart(a: Box, b: Box): number {
  const dx = Math.max(0, a.x0 - b.x1, b.x0 - a.x1);
  const dy = Math.max(0, a.y0 - b.y1, b.y0 - a.y1);
  return Math.hypot(dx, dy);
}

/** From the side of a label that is nearest to a point. */
function leaderTo(box: Box, [x, y]: readonly [number, number]): Segment {
  const from = [Math.min(box.x1, Math.max(box.x0, x)), Math.min(box.y1, Math.max(box.y0, y))];
  return [from[0], from[1], x, y];
}

export function overlap(a: Box, b: Box): boolean {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

/** Whether a part of the line lies inside the box. */
export function crosses([x1, y1, x2, y2]: Segment, box: Box): boolean {
  let [from, to] = [0, 1];
  for (const [start, step, low, high] of [
    [x1, x2 - x1, box.x0, box.x1],
    [y1, y2 - y1, box.y0, box.y1],
  ]) {
    if (step === 0) {
      if (start <= low || start >= high) return false;
      continue;
    }
    const [a, b] = [(low - start) / step, (high - start) / step];
    from = Math.max(from, Math.min(a, b));
    to = Math.min(to, Math.max(a, b));
  }
  return from < to;
}
