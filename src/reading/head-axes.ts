/** From a head's own axes into the world. */
import { rotate } from "../engine/index.ts";
import type { StagedPerson } from "../staging/index.ts";

type Posed = Pick<StagedPerson, "headRotation" | "headOffset">;

/** A point of the head in the world's axes. */
export function toWorld(person: Posed, p: ArrayLike<number>): number[] {
  const out = alongHead(person, p);
  return [out[0] + person.headOffset[0], out[1] + person.headOffset[1], out[2] + person.headOffset[2]];
}

/** A direction of the head in the world's axes. */
export function alongHead(person: Posed, d: ArrayLike<number>): number[] {
  const out = new Float64Array(3);
  rotate(person.headRotation, Float64Array.from(d), 0, out, 0);
  return [out[0], out[1], out[2]];
}
