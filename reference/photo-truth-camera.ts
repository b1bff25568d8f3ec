/** A camera that the reader does not know: lens blur, noise, a tone curve, eight bits. */

import type { Pcg32 } from "../src/math/index.ts";
import { decodeSrgb, encodeSrgb } from "../src/photometry/index.ts";
import { normal } from "./photo-truth-heads.ts";

export interface CameraTraits {
  /** standard deviation of the lens's spread, pixels */
  readonly blur: number;
  /** of the noise, as a share of clipping: what is there in the dark, and what light adds at clipping */
  readonly darkNoise: number;
  readonly lightNoise: number;
  /** "linear" writes levels as they are, with no curve at all */
  readonly curve: {
    readonly kind: "sRGB" | "linear" | "S";
    readonly contrast: number;
    readonly gamma: number;
  };
}

export function drawCamera(rng: Pcg32, kind: CameraTraits["curve"]["kind"]): CameraTraits {
  const uniform = (from: number, to: number) => from + (to - from) * rng.next();
  return {
    blur: uniform(0.3, 1.1),
    darkNoise: 2 ** uniform(-11.5, -9),
    lightNoise: 2 ** uniform(-7, -5),
    curve: {
      kind,
      contrast: kind === "S" ? uniform(0, 0.3) : 0,
      gamma: kind === "S" ? 2 ** (0.12 * normal(rng)) : 1,
    },
  };
}

/** From linear light (1: clipping) to levels 0 to 255, three a pixel; grey ones are equal. */
export function takePicture(
  linear: Float32Array,
  width: number,
  height: number,
  camera: CameraTraits,
  isGrey: boolean,
  rng: Pcg32,
): Uint8Array {
  const soft = blurred(linear, width, height, camera.blur);
  const out = new Uint8Array(3 * width * height);
  for (let i = 0; i < width * height; i++) {
    for (let c = 0; c < 3; c++) {
      if (isGrey && c > 0) {
        out[3 * i + c] = out[3 * i];
        continue;
      }
      const x = soft[3 * i + c];
      const sd = Math.sqrt(camera.darkNoise ** 2 + camera.lightNoise ** 2 * Math.max(0, x));
      const noisy = Math.min(1, Math.max(0, x + sd * normal(rng, 4)));
      out[3 * i + c] = Math.round(255 * levelOf(noisy, camera.curve));
    }
  }
  return out;
}

/** Level in the file, 0 to 1, of linear light. */
export function levelOf(x: number, { kind, contrast, gamma }: CameraTraits["curve"]): number {
  if (kind === "linear") return x;
  const level = encodeSrgb(x ** gamma);
  // steeper in the middle, a toe and a shoulder at the ends
  return (1 - contrast) * level + contrast * level * level * (3 - 2 * level);
}

const DECODED = Float32Array.from({ length: 256 }, (_, i) => decodeSrgb(i / 255));

/** Linear light as a reader takes it that knows nothing but the standard. */
export function asRead(levels: Uint8Array): Float32Array {
  return Float32Array.from(levels, (level) => DECODED[level]);
}

function blurred(from: Float32Array, width: number, height: number, sd: number): Float32Array {
  const reach = Math.ceil(3 * sd);
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, k) => Math.exp(-(((k - reach) / sd) ** 2) / 2));
  const sum = kernel.reduce((a, b) => a + b, 0);
  const pass = (source: Float32Array, isAcross: boolean) => {
    const out = new Float32Array(source.length);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++)
        for (let k = -reach; k <= reach; k++) {
          const sx = isAcross ? Math.min(width - 1, Math.max(0, x + k)) : x;
          const sy = isAcross ? y : Math.min(height - 1, Math.max(0, y + k));
          const weight = kernel[k + reach] / sum;
          for (let c = 0; c < 3; c++)
            out[3 * (y * width + x) + c] += weight * source[3 * (sy * width + sx) + c];
        }
    return out;
  };
  return pass(pass(from, true), false);
}
