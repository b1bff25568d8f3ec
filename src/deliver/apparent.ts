/** A part of the picture as large on a screen as the print will look from where people stand. */
import { smearedTogether, unseenFrom } from "../photometry/index.ts";
import type { PictureRegion } from "../reading/index.ts";
import type { FinalUse, Smear } from "./types.ts";

/** A bank card, to lay on the screen. Source  ISO/IEC 7810, ID-1 */
export const CARD_MM = { width: 85.6, height: 53.98 } as const;

/** The screen that is looked at, and from where. */
export interface Screen {
  /** of a web page's pixels, one millimetre */
  readonly pxPerMm: number;
  /** of the screen's own pixels, for each of a page's */
  readonly density: number;
  readonly away_m: number;
}

export interface Apparent {
  /** what of the whole picture is shown */
  readonly region: PictureRegion;
  /** how large on the page, in its pixels */
  readonly width_px: number;
  readonly height_px: number;
  /** how much of the print that is, across */
  readonly print_mm: number;
  /** pixels of the file across it; null where they are not known */
  readonly filePixels: number | null;
  /** from here on the screen's own pixels are not told apart; nearer, it shows less than the print would */
  readonly screenFrom_m: number;
}

/** The part of the picture round a point that fills a box on the screen, of the print's own apparent size: an angle there is
 * the angle here. Where the whole print is smaller than the box, all of it.
 * Shape   at: shares of the whole picture; box: the most room there is, in the page's pixels
 * @example a print 1.2 m wide seen from 1.5 m, a box of 200 mm seen from 0.5 m -> half of its width */
export function apparentPart(
  use: FinalUse,
  screen: Screen,
  at: readonly [number, number],
  box: { readonly width: number; readonly height: number },
): Apparent {
  const printMmPerPx = use.away_m / screen.away_m / screen.pxPerMm;
  const { used, print } = use;
  const [wide, high] = [1000 * print.width_m, 1000 * print.height_m];
  const [x, y] = [
    Math.min(1, (box.width * printMmPerPx) / wide),
    Math.min(1, (box.height * printMmPerPx) / high),
  ];
  const across = span(used.left, used.right, at[0], x);
  const down = span(used.top, used.bottom, at[1], y);
  return {
    region: { left: across[0], right: across[1], top: down[0], bottom: down[1] },
    width_px: (x * wide) / printMmPerPx,
    height_px: (y * high) / printMmPerPx,
    print_mm: x * wide,
    filePixels: use.pixels === null ? null : x * use.pixels.width,
    screenFrom_m: unseenFrom(1 / (screen.pxPerMm * screen.density)) / 1000,
  };
}

/** A share of what is used, round a point, kept within it. */
function span(from: number, to: number, middle: number, share: number): [number, number] {
  const length = (to - from) * share;
  const start = Math.min(Math.max(middle - length / 2, from), to - length);
  return [start, start + length];
}

/** How wide a point is at a place of the picture in focus, or with that place's own blur, the file's grid left out, mm: what
 * has to be done to a picture that has the grid already. */
export function smearWidth({ smears }: FinalUse, focus: Smear | null): number {
  const of = (kind: Smear["kind"]) => smears.filter((smear) => smear.kind === kind).map(({ mm }) => mm);
  return smearedTogether(focus?.mm ?? 0, Math.max(0, ...of("motion")), ...of("diffraction"));
}
