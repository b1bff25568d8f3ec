/** How large a head is among those of adults. */

/** Coefficients of the normal quantile. Source: Wichura 1988, algorithm AS 241, PPND7. */
const A = [3.3871327179, 50.434271938, 159.29113202, 59.10937472] as const;
const B = [1, 17.895169469, 78.757757664, 67.1875636] as const;
const C = [1.4234372777, 2.75681539, 1.3067284816, 0.17023821103] as const;
const D = [1, 0.7370016425, 0.12021132975, 0] as const;
const CENTRAL = 0.425;

/** How many standard deviations over the mean the share `p` of a normal population lies below.
 * Shape   one number
 * Units   share in, standard deviations out
 * Domain  1e-10 to 1 - 1e-10
 * Errors  none; outside its domain the result is not a number or too inexact to use
 * Accuracy 1e-6 against printed tables; exactly 0 at a half
 * Source  Wichura 1988, The percentage points of the normal distribution, Applied Statistics 37, AS 241 (PPND7) */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= CENTRAL) {
    const r = CENTRAL * CENTRAL - q * q;
    return (q * cubic(A, r)) / cubic(B, r);
  }
  const r = Math.sqrt(-Math.log(Math.min(p, 1 - p))) - 1.6;
  return (Math.sign(q) * cubic(C, r)) / cubic(D, r);
}

function cubic([a, b, c, d]: readonly [number, number, number, number], r: number): number {
  return ((d * r + c) * r + b) * r + a;
}

/** Mean and standard deviation of men and of women, millimetres: ANSUR II 2012 (published-checks section 10). */
const CIRCUMFERENCE = [574.373, 16.049, 561.12, 19.361] as const;
const LENGTH = [199.505, 7.025, 189.82, 7.449] as const;

/** The standard deviation over the mean of a population that is half men, half women. */
function spreadOf([men, menSd, women, womenSd]: readonly [number, number, number, number]): number {
  const variance = (menSd ** 2 + womenSd ** 2) / 2 + ((men - women) / 2) ** 2;
  return Math.sqrt(variance) / ((men + women) / 2);
}

/** Of circumference and length, half each. */
const SPREAD = (spreadOf(CIRCUMFERENCE) + spreadOf(LENGTH)) / 2;

/** Size of a head over that of the mean head.
 * Domain  percentile 1 to 99: 0.909 to 1.091
 * Accuracy one factor stands for all sizes of a head: circumference and length come within 2 % of their own percentile [FG12]
 * Source  ANSUR II 2012, head circumference and head length, women and men in equal parts */
export function headScale(percentile: number): number {
  return 1 + normalQuantile(percentile / 100) * SPREAD;
}
