/** Where a light of the world stands in the axes of a head. */
import type { Emitter } from "../engine/index.ts";
import type { StagedPerson } from "../staging/index.ts";

/** A light that may become another: each of its parts can be written anew. */
export type MovableEmitter = { -readonly [K in keyof Emitter]: Emitter[K] };

/** What a light is before one is given. */
export const NO_LIGHT: Emitter = {
  shape: "point",
  centre: new Float64Array(3),
  right: new Float64Array(3),
  up: new Float64Array(3),
  forward: new Float64Array(3),
  halfWidth: 0,
  halfHeight: 0,
  sides: 0,
  exponent: 0,
  edgeDrop: 0,
  distribution: null,
};

/** The same light with room of its own for where it stands, so that a search may move it without making another. */
export function movableEmitter(e: Emitter): MovableEmitter {
  return {
    ...e,
    centre: e.centre.slice(),
    right: e.right.slice(),
    up: e.up.slice(),
    forward: e.forward.slice(),
  };
}

/** Shape, size and beam of another light; where it stands is left. */
export function takeForm(out: MovableEmitter, e: Emitter) {
  out.shape = e.shape;
  out.halfWidth = e.halfWidth;
  out.halfHeight = e.halfHeight;
  out.sides = e.sides;
  out.exponent = e.exponent;
  out.edgeDrop = e.edgeDrop;
  out.distribution = e.distribution;
}

/** Writes where a light of the world stands, in a person's head axes, into the vectors of `out`, which may be `e`. */
export function writeHeadEmitter(
  out: Emitter,
  e: Emitter,
  head: Pick<StagedPerson, "headRotation" | "headOffset">,
) {
  for (let k = 0; k < 3; k++) out.centre[k] = e.centre[k] - head.headOffset[k];
  turnBack(head.headRotation, out.centre, out.centre);
  turnBack(head.headRotation, e.right, out.right);
  turnBack(head.headRotation, e.up, out.up);
  turnBack(head.headRotation, e.forward, out.forward);
}

/** By the inverse of a rotation; `out` may be `v`. */
export function turnBack(m: Float64Array, v: Float64Array, out: Float64Array) {
  const x = v[0];
  const y = v[1];
  const z = v[2];
  out[0] = m[0] * x + m[3] * y + m[6] * z;
  out[1] = m[1] * x + m[4] * y + m[7] * z;
  out[2] = m[2] * x + m[5] * y + m[8] * z;
}
