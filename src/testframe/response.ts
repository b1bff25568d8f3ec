/** A camera's own tone curve, from a bracket of a grey card. */
import { encodeSrgb } from "../photometry/index.ts";
import { encodedAt, fitShape, HIGHEST, type Shape, type ShapePoint, stopsAt } from "./response-shape.ts";
import type { ResponseCurve } from "./types.ts";

export interface BracketFrame {
  /** how much more the card got than as metered */
  readonly stops: number;
  /** of the card, linear as decoded: 0 to 1 */
  readonly level: number;
}

export type FittedResponse =
  | {
      readonly kind: "fitted";
      readonly curve: ResponseCurve;
      /** frames that do not belong: by their place in the list, and how far off they lie */
      readonly leftOut: readonly { readonly index: number; readonly offStops: number }[];
      /** a frame clips; where none does, clipping is told by the curve's shape alone */
      readonly isClippingSeen: boolean;
    }
  | { readonly kind: "problem"; readonly problem: string; readonly cure: string };

/** Frames that a fit needs, clipped ones not counted, and how far they must reach. */
const FEWEST = 5;
const LEAST_SPAN = 3.5;
/** Flashes repeat within a tenth; an aperture lies within a sixth of its mark. Further off is wrong. */
const WILD_STOPS = 0.25;
/** And by more than three levels of 255: near clipping a curve is so flat that stops say little. */
const WILD_LEVEL = 3 / 255;
/** Without a wild frame the rest must fit this much better. */
const BETTER = 3;
/** Beyond this, RMS, a bracket does not say what the curve is. */
const MOST_RMS = 0.15;
const ENTRIES = 64;

/** Fits curve and clipping; one frame that is far off the others is left out and named.
 * Accuracy 0.1 stop over the bracket, clipping 0.1 with frames half a stop apart, 0.3 with a whole one; response.test.ts */
export function fitResponse(frames: readonly BracketFrame[]): FittedResponse {
  const points = frames.map(({ stops, level }) => ({ stops, encoded: encodeSrgb(Math.max(0, level)) }));
  const trouble = troubleWith(points);
  if (trouble) return trouble;
  const shape = fitShape(points);
  const rms = rmsStops(shape, points);
  const wild = wildFrame(shape, points);
  if (!wild && rms > MOST_RMS)
    return problem(
      `the frames do not agree with each other (${rms.toFixed(1)} stop RMS)`,
      "check that only exposure changed between them, and that each is listed with its own",
    );
  const kept = wild ? points.filter((_, i) => i !== wild.index) : points;
  const fitted = wild ? fitShape(kept) : shape;
  return {
    kind: "fitted",
    curve: {
      stops: Array.from({ length: ENTRIES + 1 }, (_, i) =>
        // nothing lies under the lowest level that differs from none
        stopsAt(fitted, encodeSrgb((Math.max(1, i) / ENTRIES) ** 2)),
      ),
      clippingStops: stopsAt(fitted, HIGHEST),
      frames: kept.length,
      rmsStops: rmsStops(fitted, kept),
    },
    leftOut: wild ? [wild] : [],
    isClippingSeen: kept.some(({ encoded }) => encoded >= HIGHEST),
  };
}

const isTelling = ({ encoded }: ShapePoint) => encoded > 3 / 255 && encoded < HIGHEST;
/** Levels from which on curves may be so flat that a rounding is a third of a stop. */
const FLAT = 248 / 255;

function troubleWith(points: readonly ShapePoint[]): FittedResponse | null {
  if (!points.every(({ stops, encoded }) => Number.isFinite(stops) && Number.isFinite(encoded)))
    return problem("a frame has no exposure or no level", "give the exposure of each frame");
  const telling = points.filter(isTelling).map(({ stops }) => stops);
  const span = telling.length ? Math.max(...telling) - Math.min(...telling) : 0;
  const wanted = "from 3 stops under to 3 over, half a stop apart";
  if (new Set(telling).size < FEWEST)
    return problem(
      `${telling.length} frames tell of the curve, ${FEWEST} are needed`,
      `take a bracket ${wanted}`,
    );
  if (span < LEAST_SPAN)
    return problem(
      `the frames span ${span.toFixed(1)} stops, ${LEAST_SPAN} are needed`,
      `take a bracket ${wanted}`,
    );
  return null;
}

function problem(text: string, cure: string): FittedResponse {
  return { kind: "problem", problem: text, cure };
}

/** Stops by which a frame's level says more light than its exposure does. A clipped one is off where it should not be yet. */
function offStops(shape: Shape, { stops, encoded }: ShapePoint): number {
  if (encoded >= HIGHEST) return Math.max(0, stopsAt(shape, HIGHEST) - stops);
  if (encodedAt(shape, stops) >= HIGHEST || isTelling({ stops, encoded }))
    return stopsAt(shape, encoded) - stops;
  return 0;
}

function rmsStops(shape: Shape, points: readonly ShapePoint[]): number {
  const telling = points.filter((point) => isTelling(point) && point.encoded < FLAT);
  return Math.sqrt(telling.reduce((sum, point) => sum + offStops(shape, point) ** 2, 0) / telling.length);
}

/** The one frame without which the others fit far better, and from which it is itself far off. */
function wildFrame(shape: Shape, points: readonly ShapePoint[]): { index: number; offStops: number } | null {
  const worst = Math.max(...points.map((point) => Math.abs(offStops(shape, point))));
  if (worst < WILD_STOPS / 2) return null;
  const rms = rmsStops(shape, points);
  let best: { index: number; offStops: number } | null = null;
  let bestRms = rms / BETTER;
  for (const [index, point] of points.entries()) {
    const others = points.filter((_, i) => i !== index);
    if (troubleWith(others)) continue;
    const without = fitShape(others, shape);
    const [left, off] = [rmsStops(without, others), offStops(without, point)];
    const offLevel = encodedAt(without, point.stops) - point.encoded;
    if (left >= bestRms || Math.abs(off) < WILD_STOPS || Math.abs(offLevel) < WILD_LEVEL) continue;
    best = { index, offStops: off };
    bestRms = left;
  }
  return best;
}
