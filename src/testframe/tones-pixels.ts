/** A decoded file before anything is made of it: its own levels and what they stand for. */
import type { ColourSpace } from "./icc-space.ts";

/** How the stored rows lie, as Exif numbers it: 1 upright, 2 mirrored, 3 upside down, 4 both, 5 to 8 with rows and columns
 * changed over. */
export type Orientation = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

/** As stored, not yet upright. Channels alternate; one for grey, else three. */
export interface FilePixels {
  readonly data: Uint8Array | Uint16Array;
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly orientation: Orientation;
  /** the level from which a channel counts as clipped */
  readonly clipLevel: number;
  readonly space: ColourSpace;
  /** linear value of each level, per channel; the same array three times where the curves are the same */
  readonly linear: readonly [Float64Array, Float64Array, Float64Array];
}

/** Levels to linear values, 0 to 1, as tables. */
export function linearTables(space: ColourSpace, levels: 256 | 65536): FilePixels["linear"] {
  const made = new Map<unknown, Float64Array>();
  const tableOf = (curve: (encoded: number) => number) => {
    const known = made.get(curve);
    if (known) return known;
    const table = new Float64Array(levels);
    for (let i = 0; i < levels; i++) table[i] = Math.min(1, Math.max(0, curve(i / (levels - 1))));
    made.set(curve, table);
    return table;
  };
  const [red, green, blue] = space.curves;
  return [tableOf(red), tableOf(green), tableOf(blue)];
}
