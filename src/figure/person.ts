/** A person of a given stature, standing or seated, and how a head is turned. */
import { buildBody } from "./body.ts";
import { buildHead } from "./head.ts";
import type { Head, PersonShape } from "./types.ts";

export interface PersonOptions {
  readonly stature: number;
  readonly pose: "standing" | "seated";
  readonly seatHeight: number;
  readonly eyeHeight?: number;
}

/** Tragion to top of head over stature, and sitting height over stature: ANSUR II means of women and men together. */
const EAR_BELOW_TOP = (0.131147 + 0.126475) / (1.756215 + 1.628473);
const SITTING_SHARE = (0.91829 + 0.856626) / (1.756215 + 1.628473);

const made = new Map<string, PersonShape>();
const SHAPES_KEPT = 32;

/** Shapes are shared: two people alike are one mesh. */
export function buildPerson(options: PersonOptions): PersonShape {
  const key = JSON.stringify([options.stature, options.pose, options.seatHeight, options.eyeHeight ?? 0]);
  let shape = made.get(key);
  if (!shape) {
    const head = buildHead();
    const seated = options.pose === "seated";
    const top = seated ? options.seatHeight + SITTING_SHARE * options.stature : options.stature;
    const earHeight =
      options.eyeHeight === undefined
        ? top - EAR_BELOW_TOP * options.stature
        : options.eyeHeight - head.leftEye.centre[2];
    shape = {
      head,
      earHeight,
      body: buildBody(earHeight, options.stature, seated ? options.seatHeight : null),
    };
    if (made.size >= SHAPES_KEPT) made.clear();
    made.set(key, shape);
  }
  return shape;
}

/** Turn (+ to own left), tip (+ chin up) and tilt (+ toward own left shoulder), in that order, each about the head's
 * own axes: the 3 x 3 row-major matrix Rz(turn) Ry(-tip) Rx(-tilt). Degrees. */
export function headRotation(turn_deg: number, tip_deg: number, tilt_deg: number): Float64Array {
  const d = Math.PI / 180;
  const [c, s] = [Math.cos(turn_deg * d), Math.sin(turn_deg * d)];
  const [cp, sp] = [Math.cos(-tip_deg * d), Math.sin(-tip_deg * d)];
  const [ct, st] = [Math.cos(-tilt_deg * d), Math.sin(-tilt_deg * d)];
  return Float64Array.of(
    c * cp,
    c * sp * st - s * ct,
    c * sp * ct + s * st,
    s * cp,
    s * sp * st + c * ct,
    s * sp * ct - c * st,
    -sp,
    cp * st,
    cp * ct,
  );
}

export interface Neighbours {
  readonly offsets: Uint32Array;
  readonly neighbours: Uint32Array;
}

/** Which front vertices of the head are joined by an edge: neighbours of v are [offsets[v], offsets[v + 1]). */
export function frontNeighbours(head: Head): Neighbours {
  const { triangles } = head.mesh;
  const n = head.front.length;
  const pairs = new Set<number>();
  for (let i = 0; i < triangles.length; i++) {
    const a = triangles[i];
    const b = triangles[i - (i % 3) + ((i + 1) % 3)];
    if (head.front[a] && head.front[b]) {
      pairs.add(a * n + b);
      pairs.add(b * n + a);
    }
  }
  const sorted = Float64Array.from(pairs).sort();
  const offsets = new Uint32Array(n + 1);
  for (const pair of sorted) offsets[Math.floor(pair / n) + 1]++;
  for (let v = 0; v < n; v++) offsets[v + 1] += offsets[v];
  return { offsets, neighbours: Uint32Array.from(sorted, (pair) => pair % n) };
}
