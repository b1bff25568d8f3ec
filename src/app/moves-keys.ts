/** Walking among things by their places on the screen. */

export interface Place {
  readonly x: number;
  readonly y: number;
}

const WAYS: Readonly<Record<string, readonly [x: number, y: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** A step aside counts this much against a step along: what lies straight on comes first. */
const ASIDE = 2;

/** Which of `places` a key leads to: the nearest in the arrow's direction; the first and the last for Home and End.
 * Null for other keys and where nothing lies that way. */
export function placeToward(places: readonly Place[], from: number, key: string): number | null {
  if (key === "Home") return 0;
  if (key === "End") return places.length - 1;
  const way = WAYS[key];
  const here = places[from];
  if (way === undefined || here === undefined) return null;
  let best: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  places.forEach((place, i) => {
    const [dx, dy] = [place.x - here.x, place.y - here.y];
    const along = dx * way[0] + dy * way[1];
    const aside = Math.abs(dx * way[1] + dy * way[0]);
    // what is farther aside than along lies beside, not that way
    if (along <= 0 || aside > along) return;
    const far = along + ASIDE * aside;
    if (far >= least) return;
    least = far;
    best = i;
  });
  return best;
}
