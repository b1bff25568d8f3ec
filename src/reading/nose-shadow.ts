/** Where the tip of the nose's shadow falls on the face. */
import { HIT, type MeshInstance, type Tracer } from "../engine/index.ts";
import { frontNeighbours, type Head } from "../figure/index.ts";
import { alongHead, toWorld } from "./head-axes.ts";
import type { Lighting } from "./lighting.ts";
import type { NoseShadow } from "./types.ts";

/** The nose, from under its tip up to the bridge: what casts the shadow. Metres. */
const ASIDE = 0.022;
const UNDER_TIP = 0.02;
/** Rays leave the nose so far off its skin, which they graze. */
const LIFT = 1e-4;
/** Past the back of any head. */
const REACH = 0.4;
/** Shadow that falls nearer than this to what casts it, or to the tip, is a line along the nose. */
const LEAST = 0.005;
/** Skin turned this little to the light is dark for itself, and shows no shadow: the cosine of 87 degrees. */
const TURNED = 0.05;

/** Cast by the middle of a light's front: half of the front is seen from there, whatever its size.
 * The tip is the point that falls farthest from the tip of the nose, along the way the light throws it, of all that the
 * nose's own outline (as that light sees it) throws on skin that is turned to the light.
 * Units   millimetres from the nose's tip in the head's own frontal plane
 * Errors  none; null without a light; where the shadow keeps to the nose, in flat light; and where what stands out of the
 *   outline farthest is thrown past the lit part of the face: a shadow that runs on into the dark side has no end
 * Accuracy 3 mm of the farthest shadowed point of a traced grid, nose-shadow.test.ts [AP71] */
export function noseShadow(lighting: Lighting, person: number, light: number): NoseShadow | null {
  if (light < 0) return null;
  // every light's, so that switching lights casts no ray
  const key = `${lighting.stillKey} ${lighting.plateKeys}`;
  const all = lighting.memory.recall(`nose shadow ${person}`, key, () =>
    lighting.stage.scene.emitters.map((_, each) => thrown(lighting, person, each)),
  );
  return all[light];
}

function thrown({ stage }: Lighting, person: number, light: number): NoseShadow | null {
  const staged = stage.people[person];
  const { head } = staged.shape;
  const { noseTip } = head.landmarks;
  const centre = inHead(staged.headRotation, staged.headOffset, stage.scene.emitters[light].centre);
  const toLight = noseTip.map((x, k) => centre[k] - x);
  const [, l, u] = toLight;
  const aside = Math.hypot(l, u);
  if (!(aside > 0)) return null;
  const headMesh = stage.owners.findIndex((o) => o.kind === "head" && o.person === person);
  const falls: Fall[] = [];
  let most = -Infinity;
  let isTipLost = true;
  for (const start of outlineOf(head, centre)) {
    const out = standsOut(start, noseTip, toLight);
    if (out > most) {
      most = out;
      isTipLost = true;
    }
    const way = [0, 1, 2].map((k) => start[k] - centre[k]);
    const length = Math.hypot(way[0], way[1], way[2]);
    const unit = way.map((x) => x / length);
    const from = toWorld(staged, start);
    const along = alongHead(staged, unit);
    const t = stage.tracer;
    if (!t.closest(from[0], from[1], from[2], along[0], along[1], along[2], REACH, false)) continue;
    if (t.kind !== HIT.mesh || t.index !== headMesh) continue;
    const left = start[1] + t.t * unit[1] - noseTip[1];
    const up = start[2] + t.t * unit[2] - noseTip[2];
    if (-facingHere(t, stage.scene.meshes[headMesh], unit) < TURNED) continue;
    if (out === most) isTipLost = false;
    if (Math.hypot(t.t * unit[1], t.t * unit[2]) < LEAST) continue;
    falls.push({ left, up, far: -(left * l + up * u) / aside, from, along, length });
  }
  falls.sort((a, b) => b.far - a.far);
  // what something else keeps from the light throws no shadow of its own
  const tip = falls.find(
    ({ from, along, length }) =>
      !stage.tracer.occluded(from[0], from[1], from[2], -along[0], -along[1], -along[2], length, light),
  );
  if (isTipLost || tip === undefined || tip.far < LEAST) return null;
  return { leftMillimetres: 1000 * tip.left, upMillimetres: 1000 * tip.up };
}

/** How far a point stands out of the face, across the way of the light. */
function standsOut(p: readonly number[], noseTip: readonly number[], toLight: readonly number[]): number {
  const d = p.map((x, k) => x - noseTip[k]);
  const along = d[0] * toLight[0] + d[1] * toLight[1] + d[2] * toLight[2];
  const length2 = toLight[0] ** 2 + toLight[1] ** 2 + toLight[2] ** 2;
  return d[0] - (along * toLight[0]) / length2;
}

interface Fall {
  readonly left: number;
  readonly up: number;
  readonly far: number;
  readonly from: readonly number[];
  readonly along: readonly number[];
  readonly length: number;
}

function inHead(r: Float64Array, offset: Float64Array, p: ArrayLike<number>): number[] {
  const d = [0, 1, 2].map((k) => p[k] - offset[k]);
  return [0, 1, 2].map((k) => r[k] * d[0] + r[3 + k] * d[1] + r[6 + k] * d[2]);
}

/** Points of the nose, a little off its skin, where it turns from the light: on each edge of the mesh whose ends differ. */
function outlineOf(head: Head, centre: readonly number[]): number[][] {
  const { positions: p, normals: n } = head.mesh;
  const edges = noseEdges(head);
  const toLight = (v: number) => {
    let sum = 0;
    for (let k = 0; k < 3; k++) sum += n[3 * v + k] * (centre[k] - p[3 * v + k]);
    return sum;
  };
  const out: number[][] = [];
  for (let e = 0; e < edges.length; e += 2) {
    const [a, b] = [toLight(edges[e]), toLight(edges[e + 1])];
    if (a < 0 === b < 0) continue;
    const share = a / (a - b);
    out.push(
      [0, 1, 2].map((k) => {
        const i = 3 * edges[e] + k;
        const j = 3 * edges[e + 1] + k;
        return p[i] + share * (p[j] - p[i]) + LIFT * (n[i] + share * (n[j] - n[i]));
      }),
    );
  }
  return out;
}

const edgesOf = new WeakMap<Head, number[]>();

/** Pairs of joined vertices of the nose. */
function noseEdges(head: Head): number[] {
  let edges = edgesOf.get(head);
  if (!edges) {
    edges = [];
    const { positions: p } = head.mesh;
    const { noseTip, noseBridge } = head.landmarks;
    const { offsets, neighbours } = frontNeighbours(head);
    const isNose = (v: number) =>
      head.front[v] === 1 &&
      Math.abs(p[3 * v + 1]) < ASIDE &&
      p[3 * v + 2] < noseBridge[2] &&
      p[3 * v + 2] > noseTip[2] - UNDER_TIP;
    for (let v = 0; v < head.front.length; v++) {
      if (!isNose(v)) continue;
      for (let k = offsets[v]; k < offsets[v + 1]; k++)
        if (neighbours[k] > v && isNose(neighbours[k])) edges.push(v, neighbours[k]);
    }
    edgesOf.set(head, edges);
  }
  return edges;
}

/** Cosine between a way in head axes and the head's skin where the tracer has met it. */
function facingHere(t: Tracer, mesh: MeshInstance, way: readonly number[]): number {
  const normal = [0, 0, 0];
  for (let k = 0; k < 3; k++) {
    const v = 3 * mesh.triangles[3 * t.triangle + k];
    const w = k === 0 ? 1 - t.u - t.v : k === 1 ? t.u : t.v;
    for (let c = 0; c < 3; c++) normal[c] += w * mesh.normals[v + c];
  }
  const length = Math.hypot(normal[0], normal[1], normal[2]);
  return (normal[0] * way[0] + normal[1] * way[1] + normal[2] * way[2]) / length;
}
