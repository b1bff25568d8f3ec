/** Where a light of the world stands in the axes of a head. */
import type { Emitter } from "../engine/index.ts";
import type { StagedPerson } from "../staging/index.ts";

/** The same light with room of its own for where it stands, so that a search may move it without making another. */
export function movableEmitter(e: Emitter): Emitter {
  return {
    ...e,
    centre: e.centre.slice(),
    right: e.right.slice(),
    up: e.up.slice(),
    forward: e.forward.slice(),
  };
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
