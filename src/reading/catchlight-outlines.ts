/** The outline of a reflection in one eye, from the rim of what is mirrored. */
import { cross, dot, subtract } from "../math/index.ts";
import type { Rim } from "./catchlight-sources.ts";
import { onIris, sphereEdge, writeMirrorNormal } from "./cornea.ts";
import { clipConvex, type Polygon, signedArea } from "./cornea-polygons.ts";
import type { EyeRays } from "./eye-rays.ts";

/** In iris radii round the middle of the iris. */
export interface Outlines {
  /** on the whole sphere, on the cornea, and what lids and all else before the eye leave of that */
  readonly whole: Polygon;
  readonly onCornea: Polygon;
  readonly outline: Polygon;
}

/** The rim's reflection on the sphere, cut off where the cornea and where the lids end. */
export function outlinesOf({ cornea: c, edge }: EyeRays, opening: Polygon, rim: Rim): Outlines {
  const n = new Float64Array(3);
  const p = [0, 0, 0];
  const image = rim.map((q) => {
    writeMirrorNormal(c.centre, c.radius, c.camera, q, n);
    for (let k = 0; k < 3; k++) p[k] = c.centre[k] + c.radius * n[k];
    return onIris(c, p);
  });
  let whole = image;
  // A mirror turns rims round. One that keeps its turn has the point straight behind the eye inside it, which is mirrored
  // all round the sphere's edge: its reflection lies outside the rim's.
  if (signedArea(image) * turnSeen(rim, c.centre) > 0) {
    const round = sphereEdge(c);
    const inner = signedArea(image) > 0 ? image.slice().reverse() : image;
    whole = [...round, round[0], ...inner, inner[0]];
  }
  const onCornea = clipConvex(whole, edge);
  return { whole, onCornea, outline: opening.length > 0 ? clipConvex(onCornea, opening) : [] };
}

/** Above 0 where a rim runs counter-clockwise as seen from the eye, below 0 clockwise.
 * Source  Newell's normal of the rim against the way to the eye */
function turnSeen(rim: Rim, eye: readonly number[]): number {
  const middle = [0, 1, 2].map((k) => rim.reduce((sum, p) => sum + p[k], 0) / rim.length);
  const toEye = subtract(eye, middle);
  let turn = 0;
  rim.forEach((p, i) => {
    turn += dot(cross(subtract(p, middle), subtract(rim[(i + 1) % rim.length], middle)), toEye);
  });
  return turn;
}
