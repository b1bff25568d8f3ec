/** What skin is usually like at a place of the face, whoever it is: how light, and how far it may be trusted to show the
 * light. Places are the canonical face's, centimetres: x own left, y up, z ahead.
 *
 * The map is a typical one, made for this tool: no person's. Common practice, no source for the shares; they stand for
 * means over people with and without beard and make-up, and what is fitted to them takes them with a wide doubt. */
import { CANONICAL_VERTICES, LEFT_EYE, LOWER_LIP, RIGHT_EYE, UPPER_LIP } from "../figure/index.ts";

/** Luminance relative to the cheeks. */
const LIP = 0.66;
const BROW = 0.55;
const LASHES = 0.45;
const LID = 0.86;
const UNDER_EYE = 0.92;
const BEARD = 0.88;
const NOSTRIL = 0.5;
const NOSE = 1.02;
const BESIDE_FACE = 0.94;

type Outline = readonly (readonly [number, number])[];

const place = (v: number): [number, number] => [CANONICAL_VERTICES[3 * v], CANONICAL_VERTICES[3 * v + 1]];
const outline = (vertices: readonly number[]): Outline => vertices.map(place);

const EYES = [outline(LEFT_EYE), outline(RIGHT_EYE)];
const LIPS = outline([61, ...UPPER_LIP[0], 291, ...[...LOWER_LIP[0]].reverse()]);
const BROWS = [
  outline([70, 63, 105, 66, 107, 55, 65, 52, 53, 46]),
  outline([300, 293, 334, 296, 336, 285, 295, 282, 283, 276]),
];
/** Openings of the nose, and how far round them it is dark. */
const NOSTRILS: Outline = [
  [1.0, -2.35],
  [-1.0, -2.35],
];
const NOSTRIL_LEVEL = -1.75;

export interface TypicalSkin {
  /** luminance relative to the cheeks' mean */
  readonly reflectance: number;
  /** 0 where it is no skin or is not to be trusted, 1 on plain skin */
  readonly trust: number;
}

export function typicalSkin(x: number, y: number, z: number): TypicalSkin {
  let reflectance = 1;
  let trust = 1;
  const cover = (share: number, dark: number, kept: number) => {
    reflectance *= 1 + share * (dark - 1);
    trust *= 1 + share * (kept - 1);
  };
  const aside = Math.abs(x);
  // beard: upper lip, chin, jaw and the cheeks' lower part, whether shaved or not
  const jaw = rise(-1.6 - 0.35 * Math.max(0, aside - 2.5), -4.2, y);
  cover(jaw * (1 - rise(-1.2, -0.4, y)), BEARD, 0.8);
  cover(rise(5.2, 6.8, aside), BESIDE_FACE, 0.6);
  if (aside < 1.9 && y < 2.2 && y > -1.6) cover(rise(4.4, 5.4, z), NOSE, 0.9);
  for (const eye of EYES) {
    const off = distanceTo(eye, x, y);
    cover(rise(1.3, 0.5, off) * rise(2.4, 2.9, y), LID, 0.5);
    cover(rise(1.1, 0.4, off) * rise(2.7, 2.2, y), UNDER_EYE, 0.6);
    cover(rise(0.45, 0.1, off), LASHES, 0);
  }
  for (const brow of BROWS) cover(rise(0.55, 0.05, distanceTo(brow, x, y)), BROW, 0.05);
  cover(rise(0.35, -0.05, distanceTo(LIPS, x, y)), LIP, 0.15);
  for (const [nx, ny] of NOSTRILS)
    if (y < NOSTRIL_LEVEL) cover(rise(0.8, 0.35, Math.hypot(x - nx, y - ny)), NOSTRIL, 0);
  return { reflectance, trust };
}

/** 0 at `from`, 1 at `to`, smoothly between; either may be the larger. */
export function rise(from: number, to: number, at: number): number {
  const t = Math.min(1, Math.max(0, (at - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

/** From an outline as seen from ahead; below 0 within it. */
function distanceTo(points: Outline, x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  let within = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const [ax, ay] = points[j];
    const [bx, by] = points[i];
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) within = !within;
    const [dx, dy] = [bx - ax, by - ay];
    const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    least = Math.min(least, Math.hypot(x - ax - t * dx, y - ay - t * dy));
  }
  return within ? -least : least;
}
