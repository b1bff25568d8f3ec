/** One spectacle lens as a piece of a sphere, and its outline. Head axes, metres. */
import type { Point } from "./measures.ts";
import type { Lens } from "./types.ts";

export interface GlassesFit {
  /** metres */
  readonly lensWidth: number;
  readonly lensHeight: number;
  /** degrees: tops lean out; each lens turns round to its own side */
  readonly tilt: number;
  readonly wrap: number;
  /** base curve of the fronts, dioptres; 0 is flat */
  readonly curve: number;
}

/** Radius of a front over its base curve: tools' index 1.53, in metres times dioptres. */
const TOOL_INDEX = 0.53;
/** Rounded corners over the smaller side. */
const CORNER = 0.48;
const DEGREE = Math.PI / 180;

export function lensAt(eye: "left" | "right", centre: Point, fit: GlassesFit): Lens {
  const wrap = (eye === "left" ? 1 : -1) * fit.wrap * DEGREE;
  const [cw, sw] = [Math.cos(wrap), Math.sin(wrap)];
  const [ct, st] = [Math.cos(fit.tilt * DEGREE), Math.sin(fit.tilt * DEGREE)];
  return {
    eye,
    centre,
    ahead: [cw * ct, sw * ct, -st],
    left: [-sw, cw, 0],
    up: [cw * st, sw * st, ct],
    halfWidth: fit.lensWidth / 2,
    halfHeight: fit.lensHeight / 2,
    cornerRadius: CORNER * Math.min(fit.lensWidth, fit.lensHeight),
    curveRadius: fit.curve > 0 ? TOOL_INDEX / fit.curve : Infinity,
  };
}

/** Depth of the front's sphere behind its vertex, at a place along its width and height. */
function sag(lens: Lens, left: number, up: number): number {
  const r = lens.curveRadius;
  const off2 = left * left + up * up;
  // as good for a plane, and no difference of large numbers
  return off2 / (r + Math.sqrt(Math.max(0, r * r - off2)));
}

/** The place on the front surface at `left` and `up` of its vertex. */
export function onLens(lens: Lens, left: number, up: number): Point {
  const back = sag(lens, left, up);
  const at = (k: 0 | 1 | 2) => lens.centre[k] + left * lens.left[k] + up * lens.up[k] - back * lens.ahead[k];
  return [at(0), at(1), at(2)];
}

/** Points round the outline, evenly along it, from the middle of the side to the own left; and which way is out. */
export function lensOutline(
  lens: Lens,
  count: number,
): { left: number; up: number; outLeft: number; outUp: number }[] {
  const { halfWidth: w, halfHeight: h, cornerRadius: r } = lens;
  const [flatW, flatH] = [2 * (w - r), 2 * (h - r)];
  const quarter = (Math.PI / 2) * r;
  const whole = 2 * (flatW + flatH) + 4 * quarter;
  return Array.from({ length: count }, (_, i) => {
    let s = ((i / count) * whole + flatH / 2) % whole;
    // side by side: the straight part, then the corner after it; each turned a quarter from the one before
    for (let side = 0; ; side++) {
      const flat = side % 2 === 0 ? flatH : flatW;
      const [c, q] = [
        [1, 0],
        [0, 1],
        [-1, 0],
        [0, -1],
      ][side];
      const place = (out: number, along: number, outAngle: number) => ({
        left: c * out - q * along,
        up: q * out + c * along,
        outLeft: c * Math.cos(outAngle) - q * Math.sin(outAngle),
        outUp: q * Math.cos(outAngle) + c * Math.sin(outAngle),
      });
      const reach = side % 2 === 0 ? w : h;
      if (s <= flat) return place(reach, s - flat / 2, 0);
      s -= flat;
      if (s <= quarter || side === 3) {
        const turn = s / r;
        return place(reach - r + r * Math.cos(turn), flat / 2 + r * Math.sin(turn), turn);
      }
      s -= quarter;
    }
  });
}
