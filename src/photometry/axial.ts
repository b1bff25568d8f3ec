/** What a meter reads on the axis of a light's front, for a front of any outline, lobe and edge. */
import { integrate } from "../math/index.ts";
import { nonNegative, positive } from "../units/index.ts";

export type FaceShape =
  | { readonly shape: "disc"; readonly width: number }
  | { readonly shape: "rectangle"; readonly width: number; readonly height: number }
  | { readonly shape: "polygon"; readonly width: number; readonly sides: number }
  | { readonly shape: "point" };

/** Points along a ray from the centre to the rim, and along half a side: enough for the accuracy stated below. */
const ALONG_RAY = 64;
const ALONG_SIDE = 32;

/** Mean over a front of 2^(-e (r/R)^2): its exitance against that of its centre.
 * Units   stops -> 1
 * Domain  e from 0; 1 at 0
 * Source  (1 - 2^-e) / (e ln 2), by integration; the same for every outline, since r/R cuts it into scaled copies of
 *         itself */
export function edgeDropMean(edgeDrop_stops: number): number {
  const x = edgeDrop_stops * Math.LN2;
  return x > 0 ? -Math.expm1(-x) / x : 1;
}

/** Exposure on the axis per lumen-second, at a distance from the centre of a front, by a receptor facing it.
 * Shape   face as in the plan; exponent m of the lobe; edgeDrop in stops
 * Units   m -> lx.s per lm.s
 * Domain  m from 0, edgeDrop from 0, distance and sizes above 0; a point has no edge
 * Errors  QuantityError otherwise; never NaN
 * Accuracy 1e-6 against plain sums and closed forms; axial.test.ts, reference/section5-factors
 * Source  integral of q (m + 1) / (2 pi) cos^m response / d^2 over the front; with u the cosine off the axis,
 *         dA / d^2 = du / u dphi, so that a ray to the rim adds the integral of q u^(m - 1) response(u) */
export function axialExposure(
  face: FaceShape,
  exponent: number,
  edgeDrop_stops: number,
  distance_m: number,
  receptor: "flat" | "dome",
): number {
  const distance = positive("distance", distance_m, "m");
  const peak = (nonNegative("exponent", exponent, "") + 1) / (2 * Math.PI);
  if (face.shape === "point") return peak / distance ** 2;
  const drop = nonNegative("edge drop", edgeDrop_stops, "stops");
  const ray = (rim_m: number) => rayShare(rim_m / distance, exponent, drop, receptor);
  const { area, sum } = overOutline(face, ray);
  return (peak * sum) / (area * edgeDropMean(drop));
}

/** What one ray from the centre to the rim adds, the rim seen under this tangent. */
function rayShare(tangent: number, exponent: number, drop: number, receptor: "flat" | "dome"): number {
  const t2 = tangent * tangent;
  const secant = Math.sqrt(1 + t2);
  // v = 1 - u, so that a small front far away keeps its digits
  const rim = t2 / (secant * (1 + secant));
  return integrate(
    (v) => {
      const u = 1 - v;
      const share = 2 ** ((-drop * v * (1 + u)) / (u * u * t2));
      return share * u ** (exponent - 1) * (receptor === "flat" ? u : (1 + u) / 2);
    },
    0,
    rim,
    ALONG_RAY,
  );
}

/** Area of a front, and the integral over the directions from its centre of a function of the rim's distance. */
function overOutline(
  face: Exclude<FaceShape, { shape: "point" }>,
  f: (rim_m: number) => number,
): { area: number; sum: number } {
  const half = positive("width", face.width, "m") / 2;
  if (face.shape === "disc") return { area: Math.PI * half * half, sum: 2 * Math.PI * f(half) };
  if (face.shape === "rectangle") {
    const other = positive("height", face.height, "m") / 2;
    return { area: 4 * half * other, sum: 4 * (halfSide(half, other, f) + halfSide(other, half, f)) };
  }
  const tangent = Math.tan(Math.PI / face.sides);
  return {
    area: face.sides * half * half * tangent,
    sum: 2 * face.sides * halfSide(half, half * tangent, f),
  };
}

/** Half a side at this reach from the centre, from its middle to its end: dphi = ds / cosh s with s = asinh(t / reach)
 * keeps long thin fronts smooth. */
function halfSide(reach: number, length: number, f: (rim_m: number) => number): number {
  return integrate((s) => f(reach * Math.cosh(s)) / Math.cosh(s), 0, Math.asinh(length / reach), ALONG_SIDE);
}
