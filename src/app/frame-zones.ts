/** Tones as colours: one for each whole stop from the middle level, half a stop to either side of it. */

/** From six stops under the middle level, and all below, to three above.
 * Source  cividis, made to read the same with and without colour-blindness: Nunez, Anderton, Renslow 2018, PLoS ONE
 *         13(7): e0199239; ten even steps of it as d3-scale-chromatic 3.1.1 gives them (see NOTICE) */
export const ZONES: readonly { readonly stops: number; readonly rgb: readonly [number, number, number] }[] = [
  { stops: -6, rgb: [0, 32, 81] },
  { stops: -5, rgb: [13, 52, 107] },
  { stops: -4, rgb: [51, 72, 110] },
  { stops: -3, rgb: [87, 92, 110] },
  { stops: -2, rgb: [115, 113, 114] },
  { stops: -1, rgb: [139, 134, 119] },
  { stops: 0, rgb: [164, 157, 120] },
  { stops: 1, rgb: [195, 181, 109] },
  { stops: 2, rgb: [230, 207, 89] },
  { stops: 3, rgb: [253, 234, 69] },
];

/** Number in `ZONES` of a tone in tenths of a stop from the middle level; a half goes to the lighter one. */
export function zoneOf(tenths: number): number {
  return Math.min(ZONES.length - 1, Math.max(0, Math.round(tenths / 10) + 6));
}

/** The zones that a camera can show before it clips. */
export function zonesBelow(headroom_stops: number): typeof ZONES {
  return ZONES.filter(({ stops }) => stops - 0.5 < headroom_stops);
}
