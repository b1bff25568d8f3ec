/** What a reader told of frames of known light, against what is true of them. */

import type { Pattern } from "../src/reading/index.ts";
import { angleBetween } from "../src/testframe/compare-observed.ts";
import type { PhotoFace } from "../src/testframe/index.ts";
import type { Truth, TruthFrame } from "./photo-truth.ts";

/** Of a reading, what is scored. */
export type Told = Pick<
  PhotoFace,
  | "confidence"
  | "lightFromCamera"
  | "light"
  | "uncertaintyDegrees"
  | "litSide"
  | "ratioStops"
  | "ratioUncertaintyStops"
  | "pattern"
  | "between"
  | "second"
  | "clippedSkin"
  | "head"
>;

export interface Outcome {
  readonly index: number;
  readonly person: number;
  readonly frame: Pick<TruthFrame, "kind" | "shape" | "camera">;
  readonly truth: Truth;
  /** null: no face was found */
  readonly told: Told | null;
  /** degrees between true and told; null where no direction is told */
  readonly error: number | null;
  /** told less true, degrees: to picture right as it is seen at that elevation, and up */
  readonly aside: number | null;
  readonly up: number | null;
}

/** Names whose regions share a border of ten cells or more in the printed charts (docs/pattern-charts.md). */
export const NEIGHBOURS: readonly (readonly [Pattern, Pattern])[] = [
  ["flat", "butterfly"],
  ["flat", "loop"],
  ["flat", "under"],
  ["butterfly", "loop"],
  ["butterfly", "rembrandt"],
  ["loop", "rembrandt"],
  ["loop", "split"],
  ["loop", "under"],
  ["rembrandt", "split"],
  ["rembrandt", "under"],
  ["split", "rim"],
  ["split", "under"],
  ["rim", "under"],
];

const DEGREE = Math.PI / 180;

export function outcomeOf(frame: TruthFrame, told: Told | null): Outcome {
  const { index, person, kind, shape, camera, truth } = frame;
  const light = told?.lightFromCamera ?? null;
  return {
    index,
    person,
    frame: { kind, shape, camera },
    truth,
    told,
    error: light && angleBetween(truth.fromCamera, light),
    aside: light && turned(light.azimuth - truth.fromCamera.azimuth) * cosine(truth.fromCamera.elevation),
    up: light && light.elevation - truth.fromCamera.elevation,
  };
}

function cosine(angle_deg: number): number {
  return Math.cos(angle_deg * DEGREE);
}

function turned(angle_deg: number): number {
  return ((((angle_deg + 180) % 360) + 360) % 360) - 180;
}

export interface Score {
  readonly frames: number;
  /** frames with a face found, and with a direction told */
  readonly found: number;
  readonly lights: number;
  readonly median: number;
  readonly ninetieth: number;
  readonly meanAside: number;
  readonly meanUp: number;
  /** share within two thirds of the uncertainty told: a half where it is honest; and within three times that: 0.96 or so */
  readonly withinTwoThirds: number;
  readonly withinTwice: number;
  /** share with the right sign of azimuth and of elevation from the lens, of those at least `CLEAR` off */
  readonly sideSigns: number;
  readonly heightSigns: number;
  /** of faces that are not even: told as they are; told the other way round */
  readonly sideRight: number;
  readonly sideOpposite: number;
  readonly ratioMedian: number;
  readonly ratioNinetieth: number;
  readonly ratioBias: number;
  readonly ratioWithin: number;
  /** of those, half of what it may be off holds */
  readonly ratioHonest: number;
  /** by the name alone; with the name between counted; of the confusions those between neighbours */
  readonly patternStrict: number;
  readonly patternRight: number;
  readonly patternNear: number;
  /** told with confidence "good" */
  readonly good: number;
}

/** Ratio that counts as right, stops; side and height are asked of lights so far off, degrees. */
const RATIO_STOPS = 0.3;
const CLEAR = 5;

export function scoreOf(all: readonly Outcome[]): Score {
  const told = all.flatMap((o) => (o.told ? [{ ...o, told: o.told }] : []));
  const lit = told.filter((o) => o.error !== null);
  const errors = lit.map((o) => o.error as number);
  const sure = lit.filter((o) => o.told.uncertaintyDegrees !== null);
  const sure1 = (by: number) =>
    share(sure, (o) => (o.error as number) <= by * (o.told.uncertaintyDegrees as number));
  const sided = all.filter((o) => o.truth.litSide !== "even");
  const opposite = (o: Outcome) =>
    o.told?.litSide && o.told.litSide !== "even" && o.told.litSide !== o.truth.litSide;
  const ratios = told.flatMap((o) =>
    o.truth.ratioStops === null || o.told.ratioStops === null
      ? []
      : [{ off: o.told.ratioStops - o.truth.ratioStops, may: o.told.ratioUncertaintyStops }],
  );
  const named = told.filter((o) => o.told.pattern !== null);
  const wrong = named.filter((o) => !isPatternRight(o));
  return {
    frames: all.length,
    found: told.length,
    lights: lit.length,
    median: quantile(errors, 0.5),
    ninetieth: quantile(errors, 0.9),
    meanAside: mean(lit.map((o) => o.aside as number)),
    meanUp: mean(lit.map((o) => o.up as number)),
    withinTwoThirds: sure1(2 / 3),
    withinTwice: sure1(2),
    sideSigns: share(
      lit.filter((o) => Math.abs(o.truth.fromCamera.azimuth) > CLEAR),
      (o) => sameSign(o.truth.fromCamera.azimuth, o.told.lightFromCamera?.azimuth),
    ),
    heightSigns: share(
      lit.filter((o) => Math.abs(o.truth.fromCamera.elevation) > CLEAR),
      (o) => sameSign(o.truth.fromCamera.elevation, o.told.lightFromCamera?.elevation),
    ),
    sideRight: share(sided, (o) => o.told?.litSide === o.truth.litSide),
    sideOpposite: share(sided, (o) => opposite(o) === true),
    ratioMedian: quantile(
      ratios.map((r) => Math.abs(r.off)),
      0.5,
    ),
    ratioNinetieth: quantile(
      ratios.map((r) => Math.abs(r.off)),
      0.9,
    ),
    ratioBias: mean(ratios.map((r) => r.off)),
    ratioWithin: share(ratios, (r) => Math.abs(r.off) <= RATIO_STOPS),
    ratioHonest: share(
      ratios.filter((r) => r.may !== null),
      (r) => Math.abs(r.off) <= (r.may as number),
    ),
    patternStrict: share(named, (o) => o.told.pattern === o.truth.pattern),
    patternRight: share(named, isPatternRight),
    patternNear: wrong.length === 0 ? 1 : share(wrong, isNear),
    good: share(told, (o) => o.told.confidence === "good"),
  };
}

/** A name told as "between" two is told by either; so is one that truly lies between. */
export function isPatternRight({ truth, told }: Outcome): boolean {
  if (!told?.pattern) return false;
  const said = [told.pattern, told.between];
  return said.includes(truth.pattern) || truth.between === told.pattern;
}

function isNear({ truth, told }: Outcome): boolean {
  return NEIGHBOURS.some(
    ([a, b]) => (a === truth.pattern && b === told?.pattern) || (b === truth.pattern && a === told?.pattern),
  );
}

function sameSign(a: number, b: number | undefined): boolean {
  return b !== undefined && a * b > 0;
}

function share<T>(list: readonly T[], is: (one: T) => boolean): number {
  return list.length === 0 ? Number.NaN : list.filter(is).length / list.length;
}

function mean(list: readonly number[]): number {
  return list.reduce((a, b) => a + b, 0) / list.length;
}

/** Linear between the ranks on either side. */
export function quantile(list: readonly number[], at: number): number {
  if (list.length === 0) return Number.NaN;
  const sorted = [...list].sort((a, b) => a - b);
  const rank = at * (sorted.length - 1);
  const low = Math.floor(rank);
  return sorted[low] + (rank - low) * (sorted[Math.min(low + 1, sorted.length - 1)] - sorted[low]);
}
