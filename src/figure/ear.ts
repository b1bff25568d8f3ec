/** A plain ear: rolled rim, groove, inner ridge, bowl and lobe. Centimetres; 62 mm high (ANSUR II ear length). */
import { EAR_ASIDE, type Point } from "./measures.ts";
import type { Relief } from "./relief.ts";
import { catmullRom, skinOver, withNormals } from "./solids.ts";
import { MATERIAL, type Mesh } from "./types.ts";

const CM = 0.01;
/** Outline seen from the side, from the ear's opening: back and up. From the root of the rim over the top to the lobe. */
const OUTLINE: readonly (readonly [number, number])[] = [
  [-0.05, 1.3],
  [0.25, 2.3],
  [0.95, 3.05],
  [1.85, 3.3],
  [2.75, 2.95],
  [3.2, 2.1],
  [3.15, 1.1],
  [2.8, 0.1],
  [2.35, -0.9],
  [1.85, -1.85],
  [1.2, -2.65],
  [0.5, -2.8],
  [0.05, -2.2],
  [-0.1, -1.3],
  [-0.15, -0.5],
  [-0.2, 0.4],
];
const BOWL = [1.15, 0.35] as const;
/** From the bowl's middle out to the rim and round the back: share of the way out, how far it stands off the ear's
 * own plane on the ear proper and on the lobe. */
const PROFILE: readonly (readonly [number, number, number])[] = [
  [0.22, -0.38, -0.05],
  [0.38, -0.3, 0.02],
  [0.5, 0.0, 0.12],
  [0.6, 0.14, 0.16],
  [0.7, 0.02, 0.18],
  [0.8, -0.06, 0.18],
  [0.88, 0.1, 0.17],
  [0.95, 0.22, 0.12],
  [1.0, 0.12, 0.02],
  [0.98, -0.04, -0.1],
  [0.86, -0.2, -0.2],
  [0.66, -0.5, -0.34],
  [0.4, -1.0, -0.8],
];
/** Loops between two of the profile. */
const FINER = 2;
/** The plane stands off the head toward its back, and leans back. */
const FLARE = 0.42;
const LEAN = 0.14;
/** Loop points between two of the outline. */
const BETWEEN = 3;
/** The ear's root lies this far out from the opening. */
const EAR_OFF = 0.22;
const LOBE_FROM = -0.9;
const LOBE_FULL = -2.0;
/** Toward the cheek the ear sinks into the head, so that no edge stands free. */
const ROOT = 0.6;
const ROOT_DEEP = 1.1;

export function leftEar(): Mesh {
  const outline = rounded(OUTLINE, BETWEEN);
  const loops = finer(PROFILE, FINER).map(([share, onEar, onLobe]) =>
    outline.map(([back, up]): Point => {
      const lobe = Math.min(1, Math.max(0, (up - LOBE_FROM) / (LOBE_FULL - LOBE_FROM)));
      const root = Math.max(0, 1 - back / ROOT);
      const off = onEar + (onLobe - onEar) * lobe - ROOT_DEEP * root * share * share;
      return placed(BOWL[0] + share * (back - BOWL[0]), BOWL[1] + share * (up - BOWL[1]), off);
    }),
  );
  return skinOver(placed(...BOWL, -0.4), loops, placed(...BOWL, -1.5), () => MATERIAL.skin);
}

/** An ear vertex this little over or under the skin (metres) is laid on it: where ear and skin cross, triangles that
 * reach deep into the head would carry its darkness out. */
const LAID = { under: 0.0016, over: 0.0003, on: 0.0002 } as const;

/** The ear with its root laid on the skin that it grows from, given as how far left skin reaches. */
export function rooted(ear: Mesh, skin: Relief): Mesh {
  const positions = ear.positions.slice();
  for (let v = 0; v < positions.length; v += 3) {
    const level = skin.at(positions[v], positions[v + 2]);
    const off = positions[v + 1] - level;
    if (off > -LAID.under && off < LAID.over) positions[v + 1] = level + LAID.on;
  }
  return withNormals(positions, ear.triangles, ear.materials);
}

/** Head axes, metres, from back, up and off within the ear. */
function placed(back: number, up: number, off: number): Point {
  const leant = back * Math.cos(LEAN) + up * Math.sin(LEAN);
  const high = up * Math.cos(LEAN) - back * Math.sin(LEAN);
  const ahead = -leant * Math.cos(FLARE) + off * Math.sin(FLARE);
  const aside = leant * Math.sin(FLARE) + off * Math.cos(FLARE);
  return [(ahead + 0.1) * CM, (EAR_ASIDE + EAR_OFF + aside) * CM, high * CM];
}

/** Points between the points of a closed loop, on a Catmull-Rom curve. */
function rounded(loop: readonly (readonly [number, number])[], between: number): [number, number][] {
  const n = loop.length;
  return loop.flatMap((_, i) =>
    Array.from({ length: between }, (_, step): [number, number] => {
      const at = (k: 0 | 1) =>
        catmullRom(
          loop[(i + n - 1) % n][k],
          loop[i][k],
          loop[(i + 1) % n][k],
          loop[(i + 2) % n][k],
          step / between,
        );
      return [at(0), at(1)];
    }),
  );
}

/** The same along an open row, which keeps its ends. */
function finer(
  row: readonly (readonly [number, number, number])[],
  between: number,
): (readonly [number, number, number])[] {
  const last = row.length - 1;
  const near = (i: number) => row[Math.min(last, Math.max(0, i))];
  const inner = row.slice(0, last).flatMap((_, i) =>
    Array.from({ length: between }, (_, step): [number, number, number] => {
      const at = (k: 0 | 1 | 2) =>
        catmullRom(near(i - 1)[k], row[i][k], near(i + 1)[k], near(i + 2)[k], step / between);
      return [at(0), at(1), at(2)];
    }),
  );
  return [...inner, row[last]];
}
