/** How far somebody's own arm reaches: lengths of arm, hand and finger as shares of stature, with what people of one
 * stature differ by. */

/** Mean over stature and its standard deviation, subject by subject. */
interface Share {
  readonly mean: number;
  readonly sd: number;
}

/** Acromion to elbow, elbow to wrist, wrist to fingertip: means of ANSUR II 2012 (4,082 men, 1,986 women), each measure
 * over its own subject's stature; computed from the survey's public tables by others (figures of 2026). Drillis & Contini
 * 1966 have 0.186, 0.146 and 0.108. The deviation of the whole arm is that of 32 men of the same tables, kept in the
 * tests: the three parts go together, so it is more than their own deviations by chance (0.010) and less than in step
 * (0.017). */
const ARM: Share = { mean: 0.1909 + 0.1511 + 0.1104, sd: 0.012 };
/** From the same 32 men: the middle of the closed fist and the wrist before the fingertips, hand's breadth over four,
 * acromion over the floor, half of the span. */
const FIST: Share = { mean: 0.0736, sd: 0.0036 };
const HAND = 0.1104;
const FINGER = 0.0126;
const SHOULDER_HIGH: Share = { mean: 0.8208, sd: 0.0081 };
const HALF_SPAN: Share = { mean: 0.5179, sd: 0.0144 };
/** Half of biacromial breadth: ANSUR II, means of men and women together (published-checks section 10). */
const SHOULDER_ASIDE = (0.415676 + 0.365349) / (1.756215 + 1.628473) / 2;
/** Tragion under the top of the head, as the figure has it. */
const EAR_BELOW_TOP = (0.131147 + 0.126475) / (1.756215 + 1.628473);
/** An arm straight up takes its shoulder with it: overhead fingertip reach over acromion, of the 32 men. */
const OVERHEAD: Share = { mean: 0.4811, sd: 0.0214 };

/** Heel to tip of the longest toe: ANSUR II 2012, as the arm's parts. A shoe is longer by some two centimetres, by one more or
 * less (common practice, no source). */
const FOOT: Share = { mean: 0.1534, sd: 0.0055 };
const SHOE_M = 0.02;
const SHOE_SPREAD_M = 0.01;

export type Landmark = "fingertips" | "fist" | "wrist";

/** What somebody of a stature reaches with. Metres. */
export interface Reach {
  /** where the arm begins: under the middle between the ears, and to either side of it */
  readonly shoulderUnderEars: number;
  readonly shoulderAside: number;
  /** the same from the middle of the body where somebody stands side-on and holds the arm out straight */
  readonly shoulderAsideHeldOut: number;
  /** breadth of a finger: what small gaps are counted in */
  readonly finger: number;
  /** how much people of one stature differ in the height of the shoulder: one standard deviation */
  readonly shoulderSpread: number;
}

/** Shape    lengths along the body
 * Units    metres
 * Domain   stature above 0; shares of adults, for children they are somewhat off
 * Accuracy one standard deviation is given with each length that is used to measure [BY1] [BY2]
 * Source   ANSUR II 2012 (Gordon et al., NATICK/TR-15/007); Drillis & Contini 1966 beside it */
export function reachOf(stature: number): Reach {
  return {
    shoulderUnderEars: (1 - SHOULDER_HIGH.mean - EAR_BELOW_TOP) * stature,
    shoulderAside: SHOULDER_ASIDE * stature,
    shoulderAsideHeldOut: (HALF_SPAN.mean - ARM.mean) * stature,
    finger: FINGER * stature,
    shoulderSpread: SHOULDER_HIGH.sd * stature,
  };
}

/** A length of somebody's body. */
export interface BodyLength {
  readonly length: number;
  /** one standard deviation of people of that stature */
  readonly spread: number;
}

/** From the shoulder of a straight arm to a place on it. An arm that is raised takes its shoulder along: all of that straight
 * up, by the sine of the angle before (our own way between the two that were measured).
 * Shape    stature; elevation of the arm over level
 * Units    metres, degrees
 * Domain   elevation -90 to 90; below level as level
 * Accuracy one standard deviation in `spread` [BY2] */
export function armLength(stature: number, to: Landmark, elevation_deg: number): BodyLength {
  const up = Math.max(0, Math.sin((elevation_deg * Math.PI) / 180));
  const tips = ARM.mean + up * (OVERHEAD.mean - ARM.mean);
  const variance = ARM.sd ** 2 + up * (OVERHEAD.sd ** 2 - ARM.sd ** 2);
  const less = { fingertips: 0, fist: FIST.mean, wrist: HAND }[to];
  // what is cut off varies on its own; the wrist's arm, without a hand, varies less, which is left to it as a reserve
  const own = to === "fist" ? FIST.sd ** 2 : 0;
  return { length: (tips - less) * stature, spread: Math.sqrt(variance + own) * stature };
}

/** A sole, shoe and all: what a distance along the floor is walked off in, heel to toe.
 * Units    metres
 * Accuracy one standard deviation in `spread` [BY3] */
export function soleLength(stature: number): BodyLength {
  return {
    length: FOOT.mean * stature + SHOE_M,
    spread: Math.hypot(FOOT.sd * stature, SHOE_SPREAD_M),
  };
}
