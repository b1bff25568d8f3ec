/** The colour of a sitter's plain lit skin: what drifts from frame to frame where light or white balance does. */
import type { LinearPicture, PhotoFace, SeenFace } from "./types.ts";

/** Of what is seen of the face by its luminance: shadows take the colour of what fills them, glints that of the light. */
const LIT = { from: 0.5, to: 0.9 } as const;
/** Share of the face, as the points stand for it, that must be there. */
const LEAST_SHARE = 0.05;
/** Under this its colour is noise, linear. */
const DARK = 0.004;

/** Linear, the brightest channel 1; null where too little plain skin is lit. */
export function skinColour({ width, height, rgb }: LinearPicture, seen: SeenFace): PhotoFace["skinColour"] {
  const { areas, count, luminance, pixels, weights } = seen;
  const plain: number[] = [];
  for (let v = 0; v < count; v++) if (weights[v] > 0) plain.push(luminance[v]);
  plain.sort((a, b) => a - b);
  const [from, to] = [LIT.from, LIT.to].map((share) => plain[Math.floor(share * (plain.length - 1))]);
  const sum = [0, 0, 0];
  let used = 0;
  let all = 0;
  for (let v = 0; v < count; v++) {
    all += areas[v];
    if (!(weights[v] > 0 && luminance[v] >= Math.max(from, DARK) && luminance[v] <= to)) continue;
    const x = Math.min(width - 1, Math.max(0, Math.floor(pixels[2 * v])));
    const y = Math.min(height - 1, Math.max(0, Math.floor(pixels[2 * v + 1])));
    used += areas[v];
    for (let c = 0; c < 3; c++) sum[c] += areas[v] * weights[v] * rgb[3 * (y * width + x) + c];
  }
  const most = Math.max(...sum);
  if (!(used >= LEAST_SHARE * all && most > 0)) return null;
  return [sum[0] / most, sum[1] / most, sum[2] / most];
}
