/** Hair as one smooth closed solid over the head, as a good mannequin has it: broad locks, no strands, the same on
 * both sides. Fields in centimetres of the mean head, head axes. */
import { headField } from "./cranium.ts";
import { blend, bothSides, type Field } from "./fields.ts";
import { behindHairline } from "./hairline.ts";
import { scaleAt } from "./resize.ts";
import { withNormals } from "./solids.ts";
import { type Box, skinOfField } from "./surface-nets.ts";
import { MATERIAL, type Mesh } from "./types.ts";

export type HairLength = "none" | "short" | "shoulder";

const CM = 0.01;
const CELLS = { short: 0.55, shoulder: 0.66 } as const;
const BOXES: Record<keyof typeof CELLS, Box> = {
  short: { x: [-13.5, 11], y: 10.5, z: [-10, 16.5] },
  shoulder: { x: [-14, 11], y: 11.5, z: [-22, 16.5] },
};

const made = new Map<string, Mesh>();
const KEPT = 8;

/** The hair of a head of that scale, in its axes; long hair hangs as over level shoulders.
 * Shape   one closed mesh of under 15,000 triangles, mirrored exactly
 * Accuracy 8 to 20 mm off the skull away from its edges; covers no vertex of the face's front [FG10]
 * Source  common practice, no source: drawn by eye on the measured head */
export function buildHair(length: Exclude<HairLength, "none">, scale: number): Mesh {
  const key = `${length} ${scale}`;
  let mesh = made.get(key);
  if (!mesh) {
    mesh = onHead(grown(length), scale);
    if (made.size >= KEPT) made.clear();
    made.set(key, mesh);
  }
  return mesh;
}

const means = new Map<string, Mesh>();

function grown(length: Exclude<HairLength, "none">): Mesh {
  let mesh = means.get(length);
  if (!mesh) {
    mesh = skinOfField(length === "short" ? short : shoulder, BOXES[length], CELLS[length], MATERIAL.hair);
    means.set(length, mesh);
  }
  return mesh;
}

/** From the mean head's centimetres: the hair grows with the head, and what lies on the shoulders stays there. */
function onHead(mean: Mesh, scale: number): Mesh {
  const positions = mean.positions.map((x) => CM * x);
  if (scale === 1) return { ...mean, positions };
  for (let v = 0; v < positions.length; v += 3) {
    const k = scaleAt(positions[v], positions[v + 2], scale);
    for (let axis = 0; axis < 3; axis++) positions[v + axis] *= k;
  }
  return withNormals(positions, mean.triangles, mean.materials);
}

/** Offsets change along the surface, so that blends of them are steeper than distances: kept below by this. */
const TAMED = 0.6;
/** Inside the head the solid ends this far beyond the hairline. */
const UNDER_SKIN = 1.3;

const step = (from: number, to: number, x: number) => {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
};

/** How hair rises from the hairline: at a slant, to its full height `most` after `width`; beyond the line it dives. */
function rise(behind: number, most: number, width: number): number {
  if (behind < 0) return ((2 * most) / width) * behind;
  const rest = 1 - Math.min(1, behind / width);
  return most * (1 - rest * rest);
}

/** A hairline is not drawn with a ruler: back and forth by a millimetre or two before the ears, hardly elsewhere. */
function wander(x: number, side: number, z: number): number {
  const free = (1 - 0.6 * step(5, 7, z)) * step(-1, 2, x);
  return free * (0.12 * Math.sin(2.2 * side + 0.9 * z) + 0.06 * Math.sin(3.6 * z - 1.4 * side + 1));
}

/** In the middle of the forehead the hairline runs a little higher than seen from the side. */
function arch(x: number, y: number): number {
  return 0.55 * Math.exp(-((y / 2.6) ** 2)) * step(4, 7, x);
}

/** Swept back, fuller on top than at the sides, cropped toward the nape. */
const short: Field = (x, y, z) => {
  const side = bothSides(y, 0.4);
  const behind = behindHairline(x, z) + wander(x, side, z) - arch(x, y);
  const top = step(5, 11, z);
  const most = 0.85 + 0.7 * top + 0.25 * top * step(0, 7, x) - 0.25 * step(2, -6, z);
  // locks run back over the head, drifting down toward the back, where they would meet they fade
  const round = Math.atan2(side, z - 2.5);
  const along = round - 0.035 * x + 0.12 * Math.sin(0.42 * x + 1.3 * round);
  const locks = 0.07 * Math.sin(19 * along + 0.6) + 0.05 * Math.sin(33 * along + 0.36 * x);
  const shown =
    step(3, 8.5, Math.hypot(side, z - 2.5)) * (0.5 + 0.7 * top) * step(0.3, 3, behind) * step(-4, 2, z);
  const height = rise(behind, most, 2.6 + 2.2 * top) + locks * shown;
  return TAMED * Math.max(headField(x, y, z) - height, -behind - UNDER_SKIN);
};

/** Parted in the middle and drawn behind the ears, falling on shoulders and back. */
const shoulder: Field = (x, y, z) => {
  const side = bothSides(y, 0.4);
  const behind = behindHairline(x, z) + 0.5 * wander(x, side, z) - 1.4 * arch(x, y);
  const most = 1.1 + 0.35 * step(4, 10, z);
  const parting = 0.2 * Math.exp(-((y / 0.55) ** 2)) * step(-5, 0, x);
  const locks = lockRelief(x, side, z);
  const height = rise(behind, most, 4.2) - parting * step(0.2, 1.5, behind) + locks * step(0.2, 2, behind);
  const cap = Math.max(headField(x, y, z) - height, -behind - UNDER_SKIN);
  return TAMED * blend(cap, fall(x, y, z, locks), 2.4);
};

/** Height of the whorl at the back of the crown, from which locks part. */
const WHORL = 7;

/** Locks run down from the parting, drawn back over the temple, then hang. */
function lockRelief(x: number, side: number, z: number): number {
  const over = Math.log1p(Math.exp(1.2 * (z - WHORL))) / 1.2;
  const reach = Math.hypot(side, over);
  const round = Math.atan2(reach, -(x + 1.5));
  const drawn = 0.05 * Math.log1p(Math.exp(z - 1));
  const across = round + drawn + 0.05 * Math.sin(0.45 * z + 3 * round);
  const locks = 0.1 * Math.sin(13 * across + 0.4) + 0.05 * Math.sin(20.5 * across + 0.25 * z);
  return locks * step(0.4, 3.5, reach) * (1 - 0.35 * step(8, 12, z));
}

/** The hanging part at heights from its ends up: half-breadth, how far it reaches back, and its front edge. */
const LOWEST = -19;
const SPACING = 4;
const BREADTH = [9.2, 9.9, 10.1, 9.8, 9.2, 8.5, 8.2] as const;
const BACK = [-10.5, -10.9, -10.9, -10.8, -11.1, -11.2, -10.8] as const;
const FRONT = [1.8, 2.2, 1.8, 0.3, -2.0, -3.5, -3.8] as const;
/** Widest here; ahead of it the outline closes in toward the throat, which is left free to so far aside. */
const WIDEST = -3.4;
const AHEAD = 7.5;
const THROAT = [3.5, 7] as const;
const THROAT_BACK = 4;
/** Ends hang longer at the back. */
const ENDS = -16.8;
const LONGER = 0.2;
const UNEVEN = 2.5;
const UP_TO = 5;

function fall(x: number, y: number, z: number, locks: number): number {
  const front = level(FRONT, z);
  const breadth = level(BREADTH, z);
  const reach = x < WIDEST ? WIDEST - level(BACK, z) : AHEAD;
  const k = Math.sqrt(((x - WIDEST) / reach) ** 2 + (y / breadth) ** 2);
  const column = (k - 1) * Math.min(reach, breadth) - locks;
  const throat = THROAT_BACK * (1 - step(THROAT[0], THROAT[1], Math.abs(y)));
  const open = both(column, x - front + throat, 1.8);
  const hung = both(open, ENDS + LONGER * (x + 3) - UNEVEN * locks - z, 2);
  return both(hung, z - UP_TO, 3);
}

/** What lies in both, rounded as `blend` is. */
function both(a: number, b: number, k: number): number {
  return -blend(-a, -b, k);
}

function level(values: readonly number[], z: number): number {
  const t = Math.min(values.length - 1.001, Math.max(0, (z - LOWEST) / SPACING));
  const i = Math.floor(t);
  const f = t - i;
  // a smooth step between the two, so that no crease shows
  const s = f * f * (3 - 2 * f);
  return values[i] * (1 - s) + values[i + 1] * s;
}
