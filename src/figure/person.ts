/** A person of a given stature, standing or seated, and how a head is turned. */
import { buildBody } from "./body.ts";
import { buildGlasses } from "./glasses.ts";
import { buildHair, type HairLength } from "./hair.ts";
import { buildHead } from "./head.ts";
import type { GlassesFit } from "./lens.ts";
import type { Head, Mesh, PersonShape } from "./types.ts";

export interface PersonOptions {
  readonly stature: number;
  readonly pose: "standing" | "seated";
  /** height of the seat of somebody who sits; a chair's, where it is not given */
  readonly seatHeight?: number;
  /** where the eyes are, if that is known better than stature and seat tell */
  readonly eyeHeight?: number;
  /** percentile among adults, 1 to 99; the mean head, where it is not given */
  readonly headSize?: number;
  readonly hair?: HairLength;
  readonly glasses?: GlassesFit | null;
}

/** Tragion to top of head over stature, and sitting height over stature: ANSUR II means of women and men together. */
const EAR_BELOW_TOP = (0.131147 + 0.126475) / (1.756215 + 1.628473);
const SITTING_SHARE = (0.91829 + 0.856626) / (1.756215 + 1.628473);

/** A chair's seat, metres. */
const CHAIR = 0.45;
const MEAN_SIZE = 50;

const SHAPES_KEPT = 32;
const shapes = new Map<string, PersonShape>();
const bodies = new Map<string, Mesh>();

/** Shapes are shared: two people alike are one mesh, and so are the bodies of two who differ in hair or glasses. Hair and
 * glasses are made when they are first asked for: a drawing of the floor needs neither. */
export function buildPerson(options: PersonOptions): PersonShape {
  const { stature, pose, seatHeight = CHAIR, eyeHeight } = options;
  const { headSize = MEAN_SIZE, hair = "none", glasses = null } = options;
  const key = JSON.stringify([stature, pose, seatHeight, eyeHeight ?? 0, headSize, hair, glasses]);
  return kept(shapes, key, () => {
    const head = buildHead(headSize);
    const seat = pose === "seated" ? seatHeight : null;
    const top = seat === null ? stature : seat + SITTING_SHARE * stature;
    const earHeight =
      eyeHeight === undefined
        ? top - EAR_BELOW_TOP * stature * head.scale
        : eyeHeight - head.leftEye.centre[2];
    let fitted: PersonShape["glasses"] = null;
    return {
      head,
      get hair() {
        return hair === "none" ? null : buildHair(hair, head.scale);
      },
      get glasses() {
        if (glasses !== null) fitted ??= buildGlasses(head, glasses);
        return fitted;
      },
      earHeight,
      body: kept(bodies, JSON.stringify([earHeight, stature, seat]), () =>
        buildBody(earHeight, stature, seat),
      ),
    };
  });
}

function kept<T>(from: Map<string, T>, key: string, make: () => T): T {
  let found = from.get(key);
  if (found === undefined) {
    found = make();
    if (from.size >= SHAPES_KEPT) from.clear();
    from.set(key, found);
  }
  return found;
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

/** Which front vertices of the head are joined by an edge: neighbours of v are [offsets[v], offsets[v + 1]), rising. */
export function frontNeighbours(head: Head): Neighbours {
  const { triangles } = head.mesh;
  const { front } = head;
  // every edge is met from one or two triangles, each time in both directions: room for all, then doubles are left out
  const room = new Uint32Array(front.length + 1);
  const edges: number[] = [];
  for (let i = 0; i < triangles.length; i++) {
    const a = triangles[i];
    const b = triangles[i % 3 === 2 ? i - 2 : i + 1];
    if (!front[a] || !front[b]) continue;
    edges.push(a, b);
    room[a + 1]++;
    room[b + 1]++;
  }
  for (let v = 0; v < front.length; v++) room[v + 1] += room[v];
  const found = new Uint32Array(2 * edges.length);
  const count = new Uint32Array(front.length);
  const add = (v: number, w: number) => {
    let at = room[v] + count[v];
    for (let k = room[v]; k < at; k++) if (found[k] === w) return;
    for (; at > room[v] && found[at - 1] > w; at--) found[at] = found[at - 1];
    found[at] = w;
    count[v]++;
  };
  for (let e = 0; e < edges.length; e += 2) {
    add(edges[e], edges[e + 1]);
    add(edges[e + 1], edges[e]);
  }
  const offsets = new Uint32Array(front.length + 1);
  for (let v = 0; v < front.length; v++) offsets[v + 1] = offsets[v] + count[v];
  const neighbours = new Uint32Array(offsets[front.length]);
  for (let v = 0; v < front.length; v++)
    neighbours.set(found.subarray(room[v], room[v] + count[v]), offsets[v]);
  return { offsets, neighbours };
}
