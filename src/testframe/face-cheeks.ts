/** The two cheeks of a photographed face: which is lit, by how much more, and how far that may be off. */
import { REGION } from "../figure/index.ts";
import { readCheeks } from "../reading/index.ts";
import { curveDoubtStops } from "./face-curve.ts";
import type { FaceExposure } from "./face-exposure.ts";
import type { PhotoFace, ResponseCurve } from "./types.ts";

export interface CheekReading {
  readonly litSide: PhotoFace["litSide"];
  readonly ratioStops: number | null;
  readonly ratioUncertaintyStops: number | null;
  /** mean of the lit cheek: what plain skin shows there, 1 = clipping; null where neither is seen */
  readonly litCheek: number | null;
  readonly doubts: readonly string[];
}

/** Of a cheek so much must be seen, or be filled in by a light that fits. */
const LEAST_SEEN = 0.25;
/** Without a fitted light, so much of it must be seen. */
const LEAST_KNOWN = 0.5;
/** Half the error left where everything is seen and the curve is known: measured on rendered faces (0.07 stop in the
 * median, 0.26 at the 90th percentile). */
const LEAST_DOUBT = 0.12;
/** In grey pictures glints cannot be told from skin: they raise ratios by up to a third. */
const GLINT_SHARE = 0.15;
/** Half of what may be off where a cheek is not seen at all and stands as the fitted light gives it. */
const FILLED_DOUBT = 0.6;
/** Under this a file's levels are its black: three steps of 255 in sRGB. */
export const BLACK = 3 / 255 / 12.92;
const BLACK_DOUBT = 1;
/** Share of the lit cheek from which its clipping is worth a word. */
const CLIPPED = 0.1;
/** plan-format: closer cheeks are even. readCheeks knows dark as under a thousandth: levels are lifted well over that. */
const LIFT = 1000;

/** Means of the light on the cheek regions, as the plan's own. */
export function readFaceCheeks(e: FaceExposure, curve: Pick<ResponseCurve, "rmsStops"> | null): CheekReading {
  const left = cheek(e, REGION.leftCheek);
  const right = cheek(e, REGION.rightCheek);
  const cannot = (why: string): CheekReading => ({
    litSide: null,
    ratioStops: null,
    ratioUncertaintyStops: null,
    litCheek: null,
    doubts: [why],
  });
  const names = [...(left.mean === null ? ["left"] : []), ...(right.mean === null ? ["right"] : [])];
  if (left.mean === null || right.mean === null)
    return cannot(
      `the own ${names.join(" and the own ")} cheek is not seen, and no light is known to judge it by`,
    );
  const doubts: string[] = [];
  const lit = left.mean >= right.mean ? left : right;
  const shadow = lit === left ? right : left;
  const litMean = lit.mean ?? 0;
  if (litMean < BLACK) return cannot("both cheeks are as dark as the picture's black");
  // what lies in the picture's black may be darker still
  const isBlack = (shadow.mean ?? 0) < BLACK;
  const shadowMean = Math.max(shadow.mean ?? 0, BLACK);
  const { litSide, ratioStops } = readCheeks(
    LIFT * (lit === left ? litMean : shadowMean),
    LIFT * (lit === left ? shadowMean : litMean),
  );
  if (ratioStops === null) return cannot("the cheeks are too dark to compare");
  const filled = Math.max(lit.filled, shadow.filled);
  let doubt = LEAST_DOUBT + FILLED_DOUBT * filled + (e.isMatte ? 0 : GLINT_SHARE * ratioStops);
  if (isBlack) {
    doubt += BLACK_DOUBT;
    doubts.push("the shadow cheek is as dark as the picture's black: the ratio is at least this");
  }
  if (lit.clipped > CLIPPED) {
    doubt += lit.clipped;
    doubts.push("the lit cheek clips: the ratio is at least this");
  }
  const unseen = [left, right].find((c) => c.filled > 1 - LEAST_SEEN);
  if (unseen)
    doubts.push(
      `the own ${unseen === left ? "left" : "right"} cheek is hardly seen: it is taken as the light on the rest gives it`,
    );
  doubt = Math.hypot(doubt, curve ? curve.rmsStops * Math.SQRT2 : curveDoubtStops(litMean, shadowMean));
  const side = Math.abs(ratioStops) < doubt && filled > 1 - LEAST_SEEN ? null : litSide;
  return { litSide: side, ratioStops, ratioUncertaintyStops: doubt, litCheek: litMean, doubts };
}

interface Cheek {
  readonly mean: number | null;
  /** shares of its area */
  readonly filled: number;
  readonly clipped: number;
}

function cheek({ mask: { samples }, exposure, measured, atLeast }: FaceExposure, region: number): Cheek {
  let sum = 0;
  let area = 0;
  let seen = 0;
  let known = 0;
  let clipped = 0;
  for (let s = 0; s < samples.count; s++) {
    if (samples.region[s] !== region) continue;
    const a = samples.area[s];
    area += a;
    if (measured[s] > 0 || atLeast[s] > 0) seen += a;
    if (atLeast[s] > 0 && !(measured[s] > 0.5)) clipped += a;
    if (Number.isNaN(exposure[s])) continue;
    sum += a * exposure[s];
    known += a;
  }
  const mean = known >= LEAST_KNOWN * area ? sum / known : null;
  return { mean, filled: 1 - seen / area, clipped: clipped / area };
}
