/** The family of curves that a camera's JPEG is taken to belong to, and its fit. */
import { levenbergMarquardt } from "ml-levenberg-marquardt";

/** Encoded level (0 to 1, as a file's 0 to 255) over stops. With t = 2^(stops − clipping), light as a part of the most that
 * is told:  A / (A + c (1 − t^d)^b),  A = t^a.  It rises from 0, is 1 from t = 1 on, and its foot (a), its shoulder (b, d)
 * and its contrast (c) are free of each other. a to d are kept as logarithms: all of them stay above 0, so it always rises.
 * Chosen by trial: docs/decisions/0009. */
export interface Shape {
  readonly clipping: number;
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

export interface ShapePoint {
  readonly stops: number;
  /** 0 to 1 */
  readonly encoded: number;
}

/** Level at which a file of 8 bits reads its highest. */
export const HIGHEST = 1 - 0.5 / 255;

/** From so many points on the shoulder's second number is fitted as well; fewer do not tell it from the first. */
const POINTS_FOR_ALL = 9;
const LEAST = [-3, -2, -1.6, -6, -4];
const MOST = [10, 1, 1.6, 4, 1];
/** Where searches start: the usual foot and contrast; clipping and shoulder are what has several valleys. */
const STARTS = [2.2, 2.8, 3.3].map((clipping) => [clipping, -0.5, 0.2, -1.2, -0.5]);

const USUAL = STARTS[1];
/** What curves usually are, and how far they spread, a to d: common practice, no source. It only tells where frames do not. */
const PRIOR = [-0.4, 0.2, -1.2, -0.5];
const PRIOR_SPREAD = [0.5, 0.6, 1.2, 0.8];
/** Of an encoded level: a level of 255, a fiftieth of a stop at the middle, as flashes repeat. */
const LEVEL_NOISE = 0.004;
/** Points of the prior stand so far off: no exposure does. */
const PRIOR_STOPS = 1e4;

export function encodedAt({ clipping, a, b, c, d }: Shape, stops: number): number {
  const t = 2 ** (stops - clipping);
  if (t >= 1) return 1;
  const rise = t ** Math.exp(a);
  return rise / (rise + Math.exp(c) * (1 - t ** Math.exp(d)) ** Math.exp(b));
}

/** Stops that give an encoded level; clipping for the highest. Domain 0 < encoded <= 1 */
export function stopsAt(shape: Shape, encoded: number): number {
  if (encoded >= 1) return shape.clipping;
  let [under, over] = [shape.clipping - 60, shape.clipping];
  for (let i = 0; i < 48; i++) {
    const middle = (under + over) / 2;
    if (encodedAt(shape, middle) < encoded) under = middle;
    else over = middle;
  }
  return over;
}

/** Least squares over the encoded levels: there, JPEG's rounding is the same everywhere.
 * `near`: another fit of nearly the same points, which spares most of the search */
export function fitShape(points: readonly ShapePoint[], near?: Shape): Shape {
  const hasAll = points.length >= POINTS_FOR_ALL;
  const offset = middleStops(points);
  const toShape = ([clipping, a, b, c, d = 0]: readonly number[]): Shape => ({
    clipping: clipping + offset,
    a,
    b,
    c,
    d,
  });
  const count = hasAll ? 5 : 4;
  const prior = PRIOR.slice(0, count - 1);
  const data = {
    x: [...points.map(({ stops }) => stops - offset), ...prior.map((_, i) => PRIOR_STOPS + i)],
    y: [...points.map(({ encoded }) => Math.min(1, encoded)), ...prior.map(() => 0)],
  };
  const starts = near ? [USUAL, [near.clipping - offset, near.a, near.b, near.c, near.d]] : STARTS;
  let best: { error: number; shape: Shape } | null = null;
  for (const start of starts) {
    const found = levenbergMarquardt(
      data,
      (values) => {
        const shape = toShape(values);
        return (x) => {
          const i = x - PRIOR_STOPS;
          return i < 0
            ? encodedAt(shape, x + offset)
            : (LEVEL_NOISE * (values[i + 1] - PRIOR[i])) / PRIOR_SPREAD[i];
        };
      },
      {
        initialValues: start.slice(0, count).map((value, i) => Math.min(MOST[i], Math.max(LEAST[i], value))),
        minValues: LEAST.slice(0, count),
        maxValues: MOST.slice(0, count),
        damping: 1e-2,
        maxIterations: 150,
        gradientDifference: 1e-5,
        centralDifference: true,
        errorTolerance: 1e-10,
      },
    );
    if (!best || found.parameterError < best.error)
      best = { error: found.parameterError, shape: toShape(found.parameterValues) };
  }
  return (best as { shape: Shape }).shape;
}

/** Where the points themselves pass middle grey's level (118 of 255): a bracket may be given from anywhere. */
function middleStops(points: readonly ShapePoint[]): number {
  const nearest = points.reduce((best, point) =>
    Math.abs(point.encoded - 118 / 255) < Math.abs(best.encoded - 118 / 255) ? point : best,
  );
  return nearest.stops;
}
