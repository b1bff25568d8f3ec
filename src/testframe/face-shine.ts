/** What glints do to the skin of a picture, so that the light on it can be told without them: a cheek that glints looks
 * better lit than it is, and one that is lit at a slant takes less of the light in. */
import { type LobeShares, LUMINANCE, lobeShare, lobeShares, skinLobe } from "../photometry/index.ts";
import { fitShares } from "./face-fit.ts";
import type { LinearPicture, PhotoLight, SeenFace } from "./types.ts";

/** Root mean square slope of skin's surface: the middle of what is measured on faces (as the plan's own skin). */
const SLOPE = 0.3;
/** Skin's own colour is told from points that get at least this share of their light from the main one, and at least
 * this share of what the best lit get. */
const MAINLY_LIT = 0.6;
const BRIGHT = 0.1;
/** Where the picture does not tell, half of what bare skin of a middle tone has: half a correction is off by no more than
 * half either way. */
const UNTOLD = 1.6;
/** Under this saturation, (red - blue) / luminance, glints cannot be told from skin: a grey picture. */
const COLOURED = 0.15;
const LEAST_POINTS = 60;
/** Most that glints are of skin: wet, on dark skin. */
const MOST = 40;
/** Reflectance that turns their share of skin into their share of what comes: the middle of light and tan skin. */
const TYPICAL_REFLECTANCE = 0.3;
const MOST_SHINE = 1.5;
/** Chroma is taken over so many pixels to either side: noise is coloured. */
const REACH = 1;

let shares: LobeShares | null = null;

/** Luminance shown over that of matt skin in the same light, one number a point; null where the picture cannot tell.
 * Shape   even: luminance that comes from all round, of plain skin, in the unit of `luminance`
 * Source  the dichromatic model: glints have the light's colour, the rest has skin's (Shafer 1985); lobe as skin-lobe.ts */
export function shineGain(
  seen: SeenFace,
  light: PhotoLight,
  picture: LinearPicture,
  even: number,
): Float64Array | null {
  const glint = new Float64Array(seen.count);
  const [lx, ly, lz] = light.from;
  for (let v = 0; v < seen.count; v++) {
    const [nx, ny, nz] = [seen.normals[3 * v], seen.normals[3 * v + 1], seen.normals[3 * v + 2]];
    glint[v] = Math.PI * skinLobe(SLOPE, nx, ny, nz, 0, 0, 1, lx, ly, lz);
  }
  const mainShare = (v: number) => {
    const all = seen.luminance[v] / seen.reflectance[v];
    return all > 0 ? Math.max(0, 1 - even / all) : 0;
  };
  const told = glintsOverSkin(seen, picture, glint, mainShare);
  const strength = told ?? UNTOLD;
  shares ??= lobeShares(SLOPE);
  const shine = Math.min(MOST_SHINE, strength * TYPICAL_REFLECTANCE);
  const face = 1 - shine * lobeShare(shares, 1);
  const gain = new Float64Array(seen.count).fill(1);
  for (let v = 0; v < seen.count; v++) {
    if (!(seen.weights[v] > 0)) continue;
    const n = 3 * v;
    const facing = seen.normals[n] * lx + seen.normals[n + 1] * ly + seen.normals[n + 2] * lz;
    const out = (1 - shine * lobeShare(shares, seen.normals[n + 2])) / face;
    const taken = (1 - shine * lobeShare(shares, Math.max(0, facing))) / (1 - shine * shares.mean);
    const main = mainShare(v);
    // luminance = matt x (main x gain of main + even x gain of even), solved for the shares before the gains
    const ofMain = out * taken + strength * glint[v];
    const ofEven = out + strength * TYPICAL_EVEN * lobeShare(shares, seen.normals[n + 2]);
    gain[v] = 1 / (main / ofMain + (1 - main) / ofEven);
  }
  return gain;
}

/** Of an even surround skin glints back its whole share. */
const TYPICAL_EVEN = 1;

/** Glints over skin for a lobe of 1: saturation falls as 1 / (1 + strength x glint), so its inverse is a straight line. */
function glintsOverSkin(
  seen: SeenFace,
  picture: LinearPicture,
  glint: Float64Array,
  mainShare: (v: number) => number,
): number | null {
  let most = 0;
  for (let v = 0; v < seen.count; v++)
    if (seen.weights[v] > 0.5 && seen.luminance[v] > most) most = seen.luminance[v];
  const inverse = new Float64Array(seen.count);
  const weights = new Float64Array(seen.count);
  const chroma: number[] = [];
  for (let v = 0; v < seen.count; v++) {
    if (!(seen.weights[v] > 0.5 && seen.luminance[v] > BRIGHT * most && mainShare(v) > MAINLY_LIT)) continue;
    const saturation = saturationAt(picture, seen.pixels[2 * v], seen.pixels[2 * v + 1]);
    chroma.push(saturation);
    inverse[v] = 1 / Math.max(saturation, COLOURED / 4);
    weights[v] = seen.weights[v] * seen.areas[v];
  }
  if (chroma.length < LEAST_POINTS) return null;
  chroma.sort((a, b) => a - b);
  if (chroma[chroma.length >> 1] < COLOURED) return null;
  const [plain, slope] = fitShares([new Float64Array(seen.count).fill(1), glint], inverse, weights);
  return plain > 0 ? Math.min(MOST, slope / plain) : null;
}

function saturationAt({ width, height, rgb }: LinearPicture, x: number, y: number): number {
  let [r, g, b] = [0, 0, 0];
  for (let j = Math.max(0, Math.floor(y) - REACH); j <= Math.min(height - 1, Math.floor(y) + REACH); j++)
    for (let i = Math.max(0, Math.floor(x) - REACH); i <= Math.min(width - 1, Math.floor(x) + REACH); i++) {
      const at = 3 * (j * width + i);
      r += rgb[at];
      g += rgb[at + 1];
      b += rgb[at + 2];
    }
  const luminance = LUMINANCE[0] * r + LUMINANCE[1] * g + LUMINANCE[2] * b;
  return luminance > 0 ? (r - b) / luminance : 0;
}

/** Red and blue differ by less than this share of luminance over the whole face. */
const GREY = 0.03;

/** Whether the face is shown without colour. */
export function isGreyFace(seen: SeenFace, picture: LinearPicture): boolean {
  let sum = 0;
  let count = 0;
  for (let v = 0; v < seen.count; v++) {
    if (!(seen.weights[v] > 0.5)) continue;
    sum += Math.abs(saturationAt(picture, seen.pixels[2 * v], seen.pixels[2 * v + 1]));
    count++;
  }
  return sum < GREY * count;
}
