/** Reading a picture at the points of a surface: what falls on which pixels, and which points the camera sees. */
import { luminanceAt } from "../photometry/index.ts";
import type { LinearPicture } from "./types.ts";

/** Mean luminance of the pixels within `radius` of each point (a tent, at least one pixel wide), NaN outside the picture.
 * `clipped` gets the share of them that clips, 0 where that is not known. */
export function writeLuminance(
  luminance: Float64Array,
  clipped: Float64Array,
  picture: LinearPicture,
  share: Uint8Array | null,
  pixels: ArrayLike<number>,
  radius: number,
): void {
  const { width, height, rgb } = picture;
  const reach = Math.max(1, radius);
  for (let v = 0; v < luminance.length; v++) {
    const x = pixels[2 * v] - 0.5;
    const y = pixels[2 * v + 1] - 0.5;
    luminance[v] = Number.NaN;
    clipped[v] = 0;
    if (!(x > -0.5 && y > -0.5 && x < width - 0.5 && y < height - 0.5)) continue;
    let sum = 0;
    let over = 0;
    let weights = 0;
    const i1 = Math.min(width - 1, Math.ceil(x + reach));
    const j1 = Math.min(height - 1, Math.ceil(y + reach));
    for (let j = Math.max(0, Math.floor(y - reach)); j <= j1; j++) {
      const down = 1 - Math.abs(j - y) / reach;
      if (!(down > 0)) continue;
      for (let i = Math.max(0, Math.floor(x - reach)); i <= i1; i++) {
        const weight = down * (1 - Math.abs(i - x) / reach);
        if (!(weight > 0)) continue;
        const at = j * width + i;
        sum += weight * luminanceAt(rgb, 3 * at);
        if (share) over += (weight * share[at]) / 255;
        weights += weight;
      }
    }
    if (!(weights > 0)) continue;
    luminance[v] = sum / weights;
    clipped[v] = over / weights;
  }
}

/** Cells along the longer side of the depth map. */
const CELLS = 160;

/** 1 for points that nothing of the surface hides from the camera (looking along −z), else 0.
 * Shape   xyz per point; `slack` in the same unit: so far behind the foremost still counts as seen */
export function writeSeen(
  seen: Uint8Array,
  p: ArrayLike<number>,
  triangles: Uint32Array,
  slack: number,
): void {
  const count = seen.length;
  let [left, right, low, high] = [p[0], p[0], p[1], p[1]];
  for (let v = 1; v < count; v++) {
    left = Math.min(left, p[3 * v]);
    right = Math.max(right, p[3 * v]);
    low = Math.min(low, p[3 * v + 1]);
    high = Math.max(high, p[3 * v + 1]);
  }
  const cell = Math.max(right - left, high - low) / CELLS;
  const across = Math.ceil((right - left) / cell) + 1;
  const up = Math.ceil((high - low) / cell) + 1;
  const nearest = new Float64Array(across * up).fill(Number.NEGATIVE_INFINITY);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t];
    const b = 3 * triangles[t + 1];
    const c = 3 * triangles[t + 2];
    const ax = (p[a] - left) / cell;
    const ay = (p[a + 1] - low) / cell;
    const bx = (p[b] - left) / cell - ax;
    const by = (p[b + 1] - low) / cell - ay;
    const cx = (p[c] - left) / cell - ax;
    const cy = (p[c + 1] - low) / cell - ay;
    const twice = bx * cy - by * cx;
    // turned away from the camera: what lies behind it is hidden by what faces it
    if (!(twice > 1e-9)) continue;
    const i1 = Math.floor(ax + Math.max(0, bx, cx));
    const j1 = Math.floor(ay + Math.max(0, by, cy));
    for (let j = Math.ceil(ay + Math.min(0, by, cy)); j <= j1; j++)
      for (let i = Math.ceil(ax + Math.min(0, bx, cx)); i <= i1; i++) {
        const u = ((i - ax) * cy - (j - ay) * cx) / twice;
        const w = (bx * (j - ay) - by * (i - ax)) / twice;
        if (u < 0 || w < 0 || u + w > 1) continue;
        const z = p[a + 2] + u * (p[b + 2] - p[a + 2]) + w * (p[c + 2] - p[a + 2]);
        const at = j * across + i;
        if (z > nearest[at]) nearest[at] = z;
      }
  }
  for (let v = 0; v < count; v++) {
    const at = Math.round((p[3 * v + 1] - low) / cell) * across + Math.round((p[3 * v] - left) / cell);
    seen[v] = p[3 * v + 2] > nearest[at] - slack ? 1 : 0;
  }
}
