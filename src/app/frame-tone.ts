/** Black and white: from the picture's colours to one tone, on linear luminance. */
import { decodeSrgb, encodeSrgb, LUMINANCE } from "../photometry/index.ts";
import type { Mono } from "./frame-look.ts";

/** The middle level as the picture rule puts it, 118 of 255. */
export const MIDDLE = 0.1812;

/** The curve from linear luminance to linear tone: black, the middle level and white stay where they are, and it always
 * rises. Shadows first: x 2^(lift (1 - x / middle)^2) under the middle raises black's neighbourhood by `lift` stops and
 * leaves the middle with its slope. Then contrast: a power of 2^contrast from the middle, mirrored above it, so that a
 * stop at the middle becomes 2^contrast stops.
 * Domain  luminance 0 to 1; contrast -1 to 1; lift 0 to 2 stops */
export function toneCurve({ contrast, shadowLift }: Pick<Mono, "contrast" | "shadowLift">) {
  const gamma = 2 ** contrast;
  return (luminance: number): number => {
    let x = Math.min(1, Math.max(0, luminance));
    if (x < MIDDLE) x *= 2 ** (shadowLift * (1 - x / MIDDLE) ** 2);
    if (x <= MIDDLE) return MIDDLE * (x / MIDDLE) ** gamma;
    return 1 - (1 - MIDDLE) * ((1 - x) / (1 - MIDDLE)) ** gamma;
  };
}

/** Steps of the root of luminance: one of them is at most 1.3 steps of sixteen-bit sRGB. */
const STEPS = 65535;

/** The curve as a table, for whole pictures of either depth.
 * Accuracy within two of 65535 of the curve itself; frame-tone.test.ts */
export class ToneTable {
  readonly #levels: Uint16Array;
  readonly #linear: Float64Array;
  readonly #most: number;

  /** `most` is 255 or 65535: of the levels that go in and of those that come out */
  constructor(mono: Mono, most: 255 | 65535) {
    const curve = toneCurve(mono);
    this.#most = most;
    this.#linear = Float64Array.from({ length: most + 1 }, (_, level) => decodeSrgb(level / most));
    this.#levels = Uint16Array.from({ length: STEPS + 1 }, (_, i) =>
      Math.round(most * encodeSrgb(curve((i / STEPS) ** 2))),
    );
  }

  /** The level that stands for three. White is left to what clips in every channel, as in colour. */
  of(red: number, green: number, blue: number): number {
    const linear = this.#linear;
    const [r, g, b] = LUMINANCE;
    const luminance =
      r * (linear[red] as number) + g * (linear[green] as number) + b * (linear[blue] as number);
    const level = this.#levels[Math.round(STEPS * Math.sqrt(Math.min(1, luminance)))] as number;
    const isWhite = red === this.#most && green === this.#most && blue === this.#most;
    return isWhite ? this.#most : Math.min(level, this.#most - 1);
  }
}
