/** Heads that the reader of photographs does not know: the mean head warped by what people differ in. Head axes,
 * centimetres inside; one number per trait, in standard deviations, none beyond two. */
import type { Warp } from "../src/figure/testing/warp.ts";
import type { Pcg32 } from "../src/math/index.ts";

const CM = 0.01;

/** One standard deviation of each trait. Width, height and length are ANSUR II's (bizygomatic breadth, menton to sellion,
 * head length: published-checks section 10), a size common to all three taken out; the others are of the order that faces
 * show, millimetres (common practice, no source). */
const SIZE = 0.032;
const WIDTH = 0.034;
const HEIGHT = 0.042;
const DEPTH = 0.03;

/** A place on the mean head, how far a trait reaches from it ahead, aside and up, and which way it moves, centimetres for
 * one standard deviation. `both`: mirrored as well; else the middle or one side alone. */
interface Bump {
  readonly trait: string;
  readonly at: readonly [number, number, number];
  readonly reach: readonly [number, number, number];
  readonly by: readonly [number, number, number];
  readonly both: boolean;
}

const bump = (trait: string, at: Bump["at"], reach: Bump["reach"], by: Bump["by"], both = true): Bump => ({
  trait,
  at,
  reach,
  by,
  both,
});

/** Nose: sellion [9.6, 0, 2.2], dorsum [10.8, 0, 0.4], tip [11.4, 0, -1.6], base [10.1, 0, -2.5], wings [9.2, 1.6, -1.9]. */
const BUMPS: readonly Bump[] = [
  // longer: tip, wings and base hang lower
  bump("nose length", [10.6, 0, -1.9], [1.6, 1.5, 1.0], [0, 0, -0.3], false),
  bump("nose projection", [11.4, 0, -1.3], [1.5, 1.0, 1.5], [0.25, 0, 0], false),
  bump("nose width", [9.4, 1.6, -1.8], [1.1, 0.7, 0.8], [0, 0.18, 0]),
  bump("nose bridge", [9.7, 0, 1.9], [1.3, 0.75, 1.1], [0.18, 0, 0], false),
  bump("nose hook", [10.9, 0, 0.3], [1.2, 0.65, 0.8], [0.12, 0, 0], false),
  bump("nose tip up", [11.5, 0, -1.6], [0.9, 0.8, 0.7], [0.03, 0, 0.2], false),
  bump("nose aside", [11.0, 0, -1.0], [1.6, 1.2, 1.4], [0, 0.13, 0], false),
  bump("brow ridge", [9.0, 2.2, 3.7], [1.2, 2.0, 0.75], [0.18, 0, 0]),
  bump("forehead slope", [8.7, 0, 7.2], [3.0, 5.0, 2.0], [-0.3, 0, 0], false),
  bump("cheekbones", [6.8, 5.3, -0.3], [1.8, 1.5, 1.3], [0.15, 0.22, 0]),
  bump("cheeks full", [6.4, 4.8, -3.9], [1.8, 1.5, 1.7], [0.12, 0.28, 0]),
  bump("jaw width", [3.6, 5.6, -6.3], [2.6, 1.8, 1.8], [0, 0.38, 0]),
  bump("chin ahead", [8.9, 0, -8.2], [1.6, 2.0, 1.2], [0.3, 0, 0], false),
  bump("chin width", [7.9, 2.3, -8.3], [1.6, 1.2, 1.2], [0, 0.25, 0]),
  bump("lips full", [9.7, 0, -4.6], [1.1, 2.0, 0.9], [0.15, 0, 0], false),
  bump("mouth width", [8.5, 2.5, -4.6], [1.2, 1.0, 0.9], [0, 0.2, 0]),
  bump("eyes deep", [7.8, 3.1, 1.9], [1.5, 1.3, 0.8], [-0.16, 0, 0]),
  bump("eyes apart", [7.6, 3.1, 1.9], [1.8, 1.6, 1.4], [0, 0.16, 0]),
  bump("fold beside the mouth", [8.6, 3.0, -3.4], [0.9, 0.55, 0.9], [-0.1, 0, 0]),
  // what differs between the two sides
  bump("left cheekbone", [6.8, 5.3, -0.3], [1.8, 1.5, 1.5], [0.1, 0.12, 0], false),
  bump("left cheek", [6.4, 4.8, -3.9], [1.8, 1.5, 1.7], [0.08, 0.15, 0], false),
  bump("left brow", [9.0, 2.6, 3.7], [1.2, 2.0, 1.0], [0.06, 0, 0.1], false),
  bump("mouth aside", [9.0, 0, -5.2], [1.5, 2.6, 1.4], [0, 0.1, 0], false),
  bump("left corner up", [8.4, 2.5, -4.6], [1.2, 1.0, 0.9], [0, 0, 0.1], false),
  bump("chin aside", [8.0, 0, -8.0], [2.4, 3.0, 1.6], [0, 0.16, 0], false),
];

/** Small unevenness that no trait names: so many bumps on the front, this wide, standard deviation of each, centimetres. */
const UNNAMED = 26;
const UNNAMED_REACH = 2.1;
const UNNAMED_SD = 0.11;
/** What the traits' spreads are taken times, so that a face lies as far from the mean one as faces do: 2 to 3 mm. */
const SPREAD = 1.2;

const MOST = 2;
const BRIDGE_UP = 1.76;

/** A normal draw, drawn again beyond two standard deviations. */
export function normal(rng: Pcg32, most = MOST): number {
  for (;;) {
    const radius = Math.sqrt(-2 * Math.log(1 - rng.next()));
    const x = radius * Math.cos(2 * Math.PI * rng.next());
    if (Math.abs(x) <= most) return x;
  }
}

export interface HeadShape {
  readonly warp: Warp;
  /** by trait, standard deviations */
  readonly traits: Readonly<Record<string, number>>;
}

export function drawHead(rng: Pcg32): HeadShape {
  const traits: Record<string, number> = {};
  const trait = (name: string) => {
    traits[name] = normal(rng);
    return traits[name];
  };
  const size = 1 + SIZE * trait("size");
  const scale = [
    size * (1 + DEPTH * trait("depth")),
    size * (1 + WIDTH * trait("width")),
    size * (1 + HEIGHT * trait("height")),
  ];
  const reaching: { at: Bump["at"]; reach: Bump["reach"]; by: number[] }[] = [];
  for (const { trait: name, at, reach, by, both } of BUMPS) {
    const amount = SPREAD * trait(name);
    reaching.push({ at, reach, by: by.map((b) => amount * b) });
    const mirror = (p: readonly number[]) => [p[0], -p[1], p[2]] as [number, number, number];
    if (both) reaching.push({ at: mirror(at), reach, by: mirror(by).map((b) => amount * b) });
  }
  for (let i = 0; i < UNNAMED; i++) {
    // over the front: aside by an angle round the head, up and down from brow to chin
    const round = (rng.next() - 0.5) * 2.4;
    const up = -9 + 16 * rng.next();
    const at = [2 + 7.5 * Math.cos(round), 7 * Math.sin(round), up] as const;
    const by = [Math.cos(round), Math.sin(round), 0.3 * normal(rng)].map((x) => x * UNNAMED_SD * normal(rng));
    reaching.push({ at, reach: [UNNAMED_REACH, UNNAMED_REACH, UNNAMED_REACH], by });
  }
  return { traits, warp: warpOf(size, scale, reaching) };
}

function warpOf(
  size: number,
  scale: readonly number[],
  bumps: readonly { at: readonly number[]; reach: readonly number[]; by: readonly number[] }[],
): Warp {
  const count = bumps.length;
  const at = Float64Array.from(bumps.flatMap((b) => b.at));
  const by = Float64Array.from(bumps.flatMap((b) => b.by));
  const tight = Float64Array.from(bumps.flatMap((b) => b.reach.map((r) => 1 / r)));
  return (x_m, y_m, z_m, out) => {
    const x = x_m / CM;
    const y = y_m / CM;
    const z = z_m / CM;
    let dx = (scale[0] - 1) * x;
    let dy = (scale[1] - 1) * y;
    let dz = (scale[2] - 1) * (z - BRIDGE_UP) + (size - 1) * BRIDGE_UP;
    for (let i = 0; i < 3 * count; i += 3) {
      const a = (x - at[i]) * tight[i];
      const b = (y - at[i + 1]) * tight[i + 1];
      const c = (z - at[i + 2]) * tight[i + 2];
      const square = a * a + b * b + c * c;
      if (square > 12) continue;
      const share = Math.exp(-0.5 * square);
      dx += share * by[i];
      dy += share * by[i + 1];
      dz += share * by[i + 2];
    }
    out[0] = CM * dx;
    out[1] = CM * dy;
    out[2] = CM * dz;
  };
}
