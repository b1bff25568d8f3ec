/** How the measured mask is brought to the size of a mean head, and where the ears lie. Centimetres.
 * Mask axes: x to the own left, y up, z ahead. Head axes: x ahead, y own left, z up, origin between the ear openings.
 * Sizes: ANSUR II 2012, means of women and men (published-checks section 10). */

/** Centimetres per unit of the mask, up and ahead: menton to sellion 118 mm. */
const SCALE = 0.93;
/** Across, wide near the middle and narrower outside: interpupillary distance 63 mm and bizygomatic breadth 138 mm,
 * which one factor cannot both give. */
const ACROSS = 1.0138;
const NARROWING = 0.0019;
/** Level of the ear openings in the mask: the lower rim of the orbit (Frankfurt plane). */
const EAR_LEVEL = 0.6;
/** How far they lie behind the mask's origin: half the head's length (195 mm) behind the glabella. */
const EARS_BEHIND = 4.8;
/** The mask is shallow toward its rim: its sides reach further back than drawn, from here on. */
const SIDES_FROM = 2;
const SIDES_DEEPER = 0.03;

export type Point = [number, number, number];

/** Head axes from mask axes. */
export function fromMask(x: number, y: number, z: number): Point {
  const side = Math.max(0, SIDES_FROM - z);
  return [
    SCALE * (z - SIDES_DEEPER * side * side + EARS_BEHIND),
    ACROSS * (x - NARROWING * x * x * x),
    SCALE * (y - EAR_LEVEL),
  ];
}

/** The mask's own x, y, z of a point of the face's front (z over 2) given in head axes. */
export function toMask(ahead: number, left: number, up: number): Point {
  const straight = left / ACROSS;
  let x = straight;
  for (let round = 0; round < 4; round++) x = straight + NARROWING * x * x * x;
  return [x, up / SCALE + EAR_LEVEL, ahead / SCALE - EARS_BEHIND];
}

/** Centre of the own left globe and its radius; the cornea's sphere and how far its centre lies ahead; the iris
 * and a pupil of studio light. */
export const GLOBE = { ahead: 6.86, aside: 3.14, up: 1.86, radius: 1.2 } as const;
export const CORNEA = { radius: 0.78, ahead: 0.56 } as const;
export const IRIS_RADIUS = 0.59;
export const PUPIL_RADIUS = 0.19;

/** Tragion: the ears' openings stand this far aside. */
export const EAR_ASIDE = 7.0;
