/** Clipping and headroom on the skin of one face. */
import type { Photograph, SeenFace } from "./types.ts";

export interface SkinReading {
  readonly clippedSkin: number;
  readonly skinHeadroomStops: number | null;
}

/** As for the plan's frames: a few grains do not decide (camera.ts). */
const PERCENTILE = 0.995;
/** Lips, brows, lashes and nostrils are darker than this against the cheeks and are no skin here. */
const SKIN = 0.75;

/** Over the points that the camera sees, each counted by the area it takes in the picture. */
export function readSkin(photo: Photograph, seen: SeenFace, scene: (linear: number) => number): SkinReading {
  const { picture, clippedShare } = photo;
  const levels: { level: number; area: number }[] = [];
  let clipped = 0;
  let all = 0;
  for (let v = 0; v < seen.count; v++) {
    if (Number.isNaN(seen.luminance[v]) || seen.reflectance[v] < SKIN) continue;
    const area = seen.areas[v] * Math.max(0, seen.normals[3 * v + 2]);
    const x = Math.floor(seen.pixels[2 * v]);
    const y = Math.floor(seen.pixels[2 * v + 1]);
    if (!(area > 0 && x >= 0 && y >= 0 && x < picture.width && y < picture.height)) continue;
    const at = y * picture.width + x;
    const level = Math.max(picture.rgb[3 * at], picture.rgb[3 * at + 1], picture.rgb[3 * at + 2]);
    levels.push({ level, area });
    clipped += (area * clippedShare[at]) / 255;
    all += area;
  }
  if (!(all > 0)) return { clippedSkin: 0, skinHeadroomStops: null };
  const clippedSkin = clipped / all;
  if (clippedSkin > 1 - PERCENTILE) return { clippedSkin, skinHeadroomStops: 0 };
  levels.sort((a, b) => a.level - b.level);
  let under = 0;
  const brightest = levels.find(({ area }) => {
    under += area;
    return under >= PERCENTILE * all;
  });
  const level = scene(brightest?.level ?? 0);
  return { clippedSkin, skinHeadroomStops: level > 0 ? Math.max(0, -Math.log2(level)) : null };
}
