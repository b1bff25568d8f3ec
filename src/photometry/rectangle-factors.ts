/** Configuration factors F = E / (pi L) of a uniform rectangle.
 * Source  Howell, A Catalog of Radiation Configuration Factors, section B */

/** Corner rectangle a x b parallel to the element, one corner straight ahead of it at distance c.
 * Units   m, m, m -> 1
 * Domain  a, b from 0; c above 0
 * Accuracy 1e-5 of the printed table; reference/section5-factors */
export function cornerRectangleFactor(a: number, b: number, c: number): number {
  const x = a / c;
  const y = b / c;
  const p = Math.sqrt(1 + x * x);
  const q = Math.sqrt(1 + y * y);
  return ((x / p) * Math.atan(y / p) + (y / q) * Math.atan(x / q)) / (2 * Math.PI);
}

/** Rectangle a high and b wide that stands with its foot on the element's plane, one foot corner at distance c.
 * Domain  a, b from 0; c above 0
 * Accuracy 1e-5 of the printed table; reference/section5-factors */
export function cornerRectangleFactorAcross(a: number, b: number, c: number): number {
  const far = Math.hypot(c, a);
  return (Math.atan(b / c) - (c / far) * Math.atan(b / far)) / (2 * Math.PI);
}

/** Rectangle that faces the element, centred ahead of it: four corner rectangles.
 * @example 1 m square at 1 m -> 0.239456 */
export function centredRectangleFactor(width: number, height: number, distance: number): number {
  return 4 * cornerRectangleFactor(width / 2, height / 2, distance);
}
