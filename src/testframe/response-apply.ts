/** From a camera's JPEG back to the light of the scene. */
import type { LinearPicture, Photograph, ResponseCurve } from "./types.ts";

const STEPS = 4096;

/** Undoes the curve in each channel: cameras put one curve on red, green and blue alike (so do the DNG reference and the
 * usual engines), so what is nearly neutral or skin comes back exactly, and colours lose the strength that the curve gave
 * them. By luminance alone, ratios on skin come out up to a sixth of a stop short.
 * Shape   same size; 1 is where the file clips, as before
 * Domain  any finite values: under the darkest known level and above clipping in proportion, below 0 mirrored
 * Accuracy that of the curve: always rises; response-apply.test.ts */
export function applyResponse(picture: LinearPicture, curve: ResponseCurve): LinearPicture {
  const table = lightTable(curve);
  const rgb = new Float32Array(picture.rgb.length);
  for (let i = 0; i < rgb.length; i++) {
    const value = picture.rgb[i];
    const root = Math.sqrt(Math.abs(value)) * STEPS;
    const place = Math.floor(root);
    const light =
      place >= STEPS
        ? table[STEPS] * (root / STEPS) ** 2
        : table[place] + (table[place + 1] - table[place]) * (root - place);
    rgb[i] = value < 0 ? -light : light;
  }
  return { width: picture.width, height: picture.height, rgb };
}

/** The photograph as if its camera had put no curve on it, parts too; its tones stay those of the file. */
export function inSceneLight(photo: Photograph, curve: ResponseCurve): Photograph {
  return {
    ...photo,
    picture: applyResponse(photo.picture, curve),
    crop: (box, longSide) => applyResponse(photo.crop(box, longSide), curve),
  };
}

/** Stops from middle grey of one level, linear as decoded. Domain level > 0 */
export function stopsOfLevel(level: number, curve: ResponseCurve): number {
  const last = curve.stops.length - 1;
  const root = Math.sqrt(level) * last;
  if (root <= 1) return curve.stops[1] + 2 * Math.log2(root);
  if (root >= last) return curve.stops[last] + 2 * Math.log2(root / last);
  const i = Math.floor(root);
  // along the logarithm, in which curves are nearly straight where they are steep
  const part = Math.log2(root / i) / Math.log2((i + 1) / i);
  return curve.stops[i] + (curve.stops[i + 1] - curve.stops[i]) * part;
}

/** Light over the root of the level, clipping at 1. */
function lightTable(curve: ResponseCurve): Float64Array {
  const table = new Float64Array(STEPS + 1);
  const clipping = curve.stops[curve.stops.length - 1];
  for (let i = 1; i <= STEPS; i++) table[i] = 2 ** (stopsOfLevel((i / STEPS) ** 2, curve) - clipping);
  return table;
}
