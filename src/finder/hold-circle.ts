/** The largest circle inside an outline: its middle is the point inside that lies farthest from every side. */

export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius_m: number;
}

interface Corner {
  readonly x: number;
  readonly y: number;
}

/** Points across the outline that are looked at first, so that a second, wider part is not missed. */
const ACROSS = 24;
/** The best is then looked round, from half a step down to this, metres: tape is laid to a centimetre. */
const FINEST_M = 5e-4;

/** Along a strip many circles are nearly as large: by a hundredth of how much nearer to the mark it lies, a smaller one
 * is better. */
const NEARNESS = 0.01;

/** Nothing inside an outline without area: a circle of radius 0 at the mark.
 * Accuracy  radius within 1 mm of closed forms where one circle is the largest (tests) */
export function largestCircle(outline: readonly Corner[], mark: Corner): Circle {
  const xs = outline.map(({ x }) => x);
  const ys = outline.map(({ y }) => y);
  const [x0, y0] = [Math.min(...xs), Math.min(...ys)];
  const [width, height] = [Math.max(...xs) - x0, Math.max(...ys) - y0];
  let step = Math.max(width, height) / ACROSS;
  let best = { x: mark.x, y: mark.y, radius_m: inside(outline, mark.x, mark.y) };
  let most = best.radius_m;
  const look = (x: number, y: number) => {
    const radius_m = inside(outline, x, y);
    const worth = radius_m - NEARNESS * Math.hypot(x - mark.x, y - mark.y);
    if (radius_m > 0 && worth > most) [best, most] = [{ x, y, radius_m }, worth];
  };
  if (!(step > 0)) return best;
  for (let i = 0; i <= ACROSS; i++) for (let j = 0; j <= ACROSS; j++) look(x0 + i * step, y0 + j * step);
  while (step > FINEST_M) {
    const { x, y } = best;
    for (let k = 0; k < 8; k++)
      look(x + step * Math.cos((k * Math.PI) / 4), y + step * Math.sin((k * Math.PI) / 4));
    if (best.x === x && best.y === y) step /= 2;
  }
  return best;
}

/** Distance to the nearest side of a point inside; 0 outside. */
function inside(outline: readonly Corner[], x: number, y: number): number {
  let isIn = false;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < outline.length; i++) {
    const a = outline[i];
    const b = outline[(i + 1) % outline.length];
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) isIn = !isIn;
    least = Math.min(least, toSide(a, b, x, y));
  }
  return isIn ? least : 0;
}

function toSide(a: Corner, b: Corner, x: number, y: number): number {
  const [ux, uy] = [b.x - a.x, b.y - a.y];
  const long = ux * ux + uy * uy;
  const t = long > 0 ? Math.max(0, Math.min(1, ((x - a.x) * ux + (y - a.y) * uy) / long)) : 0;
  return Math.hypot(x - a.x - t * ux, y - a.y - t * uy);
}
