/** Evens out the grain of interleaved light samples without carrying light over an outline.
 * Source  interleaved sampling, Keller and Heidrich 2001 */
import { EXTRA, type FrameSamples, POINT } from "./frame-samples.ts";

export interface SameSurface {
  readonly width: number;
  readonly height: number;
  readonly surfaceId: Uint16Array;
  /** POINT numbers a pixel, the normal last */
  readonly points: Float32Array;
  readonly depth: Float32Array;
}

/** Weights that give each of the 4 x 4 interleaved subsets the same say. */
const WEIGHTS = [0.5, 1, 1, 1, 0.5];
/** Beyond this bend (25 degrees) or relative step in depth two pixels do not share light. */
const MIN_COSINE = 0.906;
const MAX_STEP = 0.02;

export function evenOut(values: Float32Array, same: SameSurface): Float32Array {
  const { width, height } = same;
  const out = values.slice();
  const even = evenAlready(values, width, height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (even[i]) continue;
      let sum = 0;
      let weight = 0;
      for (let b = -2; b <= 2; b++) {
        const yy = y + b;
        if (yy < 0 || yy >= height) continue;
        for (let a = -2; a <= 2; a++) {
          const xx = x + a;
          if (xx < 0 || xx >= width) continue;
          const j = yy * width + xx;
          if (!isOneSurface(same, i, j)) continue;
          const w = WEIGHTS[a + 2] * WEIGHTS[b + 2];
          sum += w * values[j];
          weight += w;
        }
      }
      out[i] = weight > 0 ? sum / weight : values[i];
    }
  }
  return out;
}

/** Per sample of an outline a pixel beside it on the same piece of surface, -1 for none. */
export function pixelsBeside(s: FrameSamples): Int32Array {
  let kept = beside.get(s);
  if (!kept) {
    const pixels = s.width * s.height;
    kept = Int32Array.from({ length: s.count - pixels }, (_, k) => {
      const pixel = s.edges[Math.floor(k / EXTRA)];
      const near = [pixel, pixel - 1, pixel + 1, pixel - s.width, pixel + s.width];
      return near.find((p) => p >= 0 && p < pixels && isOneSurface(s, p, pixels + k)) ?? -1;
    });
    beside.set(s, kept);
  }
  return kept;
}

const beside = new WeakMap<FrameSamples, Int32Array>();

function isOneSurface({ surfaceId, points, depth }: SameSurface, i: number, j: number): boolean {
  if (surfaceId[j] !== surfaceId[i] || Math.abs(depth[j] - depth[i]) > MAX_STEP * depth[i]) return false;
  const cosine =
    points[POINT * i + 3] * points[POINT * j + 3] +
    points[POINT * i + 4] * points[POINT * j + 4] +
    points[POINT * i + 5] * points[POINT * j + 5];
  return cosine >= MIN_COSINE;
}

/** 1 where all values within two pixels are the same, as most are: full light or full shadow. */
function evenAlready(values: Float32Array, width: number, height: number): Uint8Array {
  const out = new Uint8Array(width * height);
  // how many equal values end at each pixel, along its row and then down its column
  const down = new Uint8Array(width);
  for (let y = 0; y < height; y++) {
    let across = 0;
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      across = x > 0 && values[i] === values[i - 1] ? Math.min(5, across + 1) : 1;
      down[x] =
        across === 5 && (y === 0 || down[x] === 0 || values[i] === values[i - width])
          ? down[x] + 1
          : +(across === 5);
      if (down[x] >= 5) {
        down[x] = 5;
        out[i - 2 * width - 2] = 1;
      }
    }
  }
  return out;
}
