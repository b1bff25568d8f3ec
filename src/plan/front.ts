/** Changing what shape a front has. */
import { faceArea } from "./geometry.ts";
import type { Face } from "./schema.ts";

export type FrontShape = Face["shape"];

/** What a bare point becomes when it is given a size: a small reflector's width (common practice, no source). */
const FROM_POINT_M = 0.2;
const SIDES = 8;

/** The same front in another shape: the same area, so that luminance and energy both stay and softness nearly so.
 * Lengths are whole millimetres. A polygon is an octagon until told otherwise. */
export function faceAs(face: Face, shape: FrontShape): Face {
  if (face.shape === shape) return face;
  const area = face.shape === "point" ? Math.PI * (FROM_POINT_M / 2) ** 2 : faceArea(face);
  switch (shape) {
    case "point":
      return { shape };
    case "disc":
      return { shape, width: millimetres(2 * Math.sqrt(area / Math.PI)) };
    case "rectangle": {
      const side = millimetres(Math.sqrt(area));
      return { shape, width: side, height: side };
    }
    case "polygon":
      return {
        shape,
        sides: SIDES,
        width: millimetres(2 * Math.sqrt(area / (SIDES * Math.tan(Math.PI / SIDES)))),
      };
  }
}

function millimetres(length_m: number): number {
  return Math.max(0.001, Math.round(length_m * 1000) / 1000);
}
