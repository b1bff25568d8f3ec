/** Which points of a seen face lie at each of the samples that a pattern is read from. Both come from one mask, so that the
 * same place on two faces is the same sample, whatever their shapes. */
import { buildHead, type Head } from "../figure/index.ts";
import { type FaceMarks, type FaceSamples, faceSamples } from "../reading/index.ts";
import { smoothed } from "./surface-mesh.ts";

export interface FaceMask {
  readonly head: Head;
  readonly samples: FaceSamples;
  readonly marks: FaceMarks;
  /** points of sample s are point[first[s] .. first[s + 1]), each with the share that it has in it, unnormalised */
  readonly first: Uint32Array;
  readonly point: Uint32Array;
  readonly share: Float64Array;
}

/** As a fine reading of a plan, metres. */
const SPACING = 0.0045;
const MASK_VERTICES = 468;
/** A sample takes in the points round it as far as its own area reaches, and this much farther: tents that overlap. */
const REACH = 1.5;

let made: FaceMask | null = null;

export function faceMask(): FaceMask {
  made ??= build();
  return made;
}

function build(): FaceMask {
  const head = buildHead();
  const samples = faceSamples(head, SPACING);
  const places = smoothed(head.mesh.positions.slice(0, 3 * MASK_VERTICES)).values;
  const first = new Uint32Array(samples.count + 1);
  const point: number[] = [];
  const share: number[] = [];
  for (let s = 0; s < samples.count; s++) {
    const reach = REACH * Math.sqrt(samples.area[s] / Math.PI);
    const [x, y, z] = samples.position.subarray(3 * s, 3 * s + 3);
    for (let v = 0; v < places.length / 3; v++) {
      const dy = places[3 * v + 1] - y;
      const dz = places[3 * v + 2] - z;
      // nearly all lie far off
      if (dy > reach || dy < -reach || dz > reach || dz < -reach) continue;
      const dx = places[3 * v] - x;
      const near = 1 - Math.sqrt(dx * dx + dy * dy + dz * dz) / reach;
      if (!(near > 0)) continue;
      point.push(v);
      share.push(near);
    }
    first[s + 1] = point.length;
  }
  return {
    head,
    samples,
    marks: head.landmarks,
    first,
    point: Uint32Array.from(point),
    share: Float64Array.from(share),
  };
}
