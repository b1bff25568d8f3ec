/** Closed forms and one-dimensional sums for the faces of lights. */

export type FaceShape =
  | { readonly shape: "disc"; readonly width: number }
  | { readonly shape: "rectangle"; readonly width: number; readonly height: number }
  | { readonly shape: "polygon"; readonly width: number; readonly sides: number }
  | { readonly shape: "point" };

/** Mean over a face of 2^(-e (r/R)^2): the face's exitance against that of its centre.
 * Closed form; the same for every outline, since r/R cuts it into scaled copies of itself. */
export function edgeDropMean(edgeDrop_stops: number): number {
  const x = edgeDrop_stops * Math.LN2;
  return x < 1e-9 ? 1 : (1 - Math.exp(-x)) / x;
}

/** Exposure on the axis per lumen-second, lx.s, at a distance from the centre of a face, by a receptor facing it.
 * Shape   face as in the plan; exponent m of the lobe; edgeDrop in stops
 * Accuracy 1e-5 against the closed form of a lobed disc; reference/section5.checks.ts
 * Source  integral of q (m + 1) / (2 pi) cos^(m+k) / d^2 over rings of equal r/R; k = 1 flat, dome (1 + cos) / 2 */
export function axialExposure(
  face: FaceShape,
  exponent: number,
  edgeDrop_stops: number,
  distance_m: number,
  receptor: "flat" | "dome",
): number {
  const peak = (exponent + 1) / (2 * Math.PI);
  if (face.shape === "point") return peak / (distance_m * distance_m);
  const response = (c: number) => (receptor === "flat" ? c : (1 + c) / 2);
  const rings = 256;
  const directions = rimDirections(face);
  let sum = 0;
  for (let i = 0; i < rings; i++) {
    const s2 = (i + 0.5) / rings; // equal areas
    const share = 2 ** (-edgeDrop_stops * s2);
    let ring = 0;
    for (const rim of directions) {
      const r2 = s2 * rim.radius2;
      const d2 = r2 + distance_m * distance_m;
      const c = distance_m / Math.sqrt(d2);
      ring += (rim.weight * c ** exponent * response(c)) / d2;
    }
    sum += share * ring;
  }
  return (peak * sum) / (rings * edgeDropMean(edgeDrop_stops));
}

/** The rim of a face cut into pieces of equal area seen from the centre: squared radius and share of the area. */
function rimDirections(face: Exclude<FaceShape, { shape: "point" }>): { radius2: number; weight: number }[] {
  if (face.shape === "disc") return [{ radius2: (face.width / 2) ** 2, weight: 1 }];
  const pieces = 64;
  const out: { radius2: number; weight: number }[] = [];
  const addSide = (reach: number, half: number, weight: number) => {
    for (let i = 0; i < pieces; i++) {
      const along = half * ((2 * i + 1) / pieces - 1);
      out.push({ radius2: reach * reach + along * along, weight: weight / pieces });
    }
  };
  if (face.shape === "rectangle") {
    addSide(face.width / 2, face.height / 2, 0.5);
    addSide(face.height / 2, face.width / 2, 0.5);
  } else {
    addSide(face.width / 2, (face.width / 2) * Math.tan(Math.PI / face.sides), 1);
  }
  return out;
}

/** Configuration factor F = E / (pi L) of a disc, element parallel to it at height h and offset a (Howell B-12, B-14). */
export function discFactor(radius: number, height: number, offset: number): number {
  const q = height ** 2 + offset ** 2 + radius ** 2;
  const d = Math.sqrt(q * q - 4 * radius ** 2 * offset ** 2);
  return 0.5 * (1 - (height ** 2 + offset ** 2 - radius ** 2) / d);
}

/** The same for an element that faces the disc's axis from outside (offset >= radius). */
export function discFactorAcross(radius: number, height: number, offset: number): number {
  const q = height ** 2 + offset ** 2 + radius ** 2;
  const d = Math.sqrt(q * q - 4 * radius ** 2 * offset ** 2);
  return (height / (2 * offset)) * (q / d - 1);
}

/** E / (pi L0) on the axis of a disc whose luminance falls as cos^(m-1). */
export function lobedDiscFactor(radius: number, height: number, exponent: number): number {
  const cosine = height / Math.sqrt(radius ** 2 + height ** 2);
  return (2 * (1 - cosine ** (exponent + 1))) / (exponent + 1);
}

/** Corner rectangle a x b parallel to the element at distance c (Howell B-3). */
export function cornerRectangleFactor(a: number, b: number, c: number): number {
  const x = a / c;
  const y = b / c;
  const p = Math.sqrt(1 + x * x);
  const q = Math.sqrt(1 + y * y);
  return ((x / p) * Math.atan(y / p) + (y / q) * Math.atan(x / q)) / (2 * Math.PI);
}

/** Vector/scalar ratio of a uniform cone of half-angle alpha: 2 (1 + cos alpha). */
export function coneVectorScalar(halfAngle_rad: number): number {
  return 2 * (1 + Math.cos(halfAngle_rad));
}
