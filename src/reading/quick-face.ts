/** Direct light on one face without rays: what each sample of skin sees of the world past the person's own head, hair,
 * glasses, neck and body is found once, and looked up for any light from then on. */
import { buildBvh, type MeshInstance, SceneBuilder, Tracer, Walker } from "../engine/index.ts";
import { type Mesh, type PersonShape, REGION } from "../figure/index.ts";
import { patchedBody, patchedHead, type StagedPerson } from "../staging/index.ts";
import { type FaceSamples, faceSamples } from "./face-samples.ts";
import { EdgeFinder } from "./quick-edges.ts";
import { turnBack } from "./quick-place.ts";
import { SKY_ACROSS, SKY_CELLS, SKY_NODES } from "./quick-sky.ts";
import { liftedPoints } from "./skin-rays.ts";

/** One head on its shoulders, ready for lights given in its own axes. Nothing else stands in the way here: no other
 * person, no panel, no light's plate. */
export interface QuickFace {
  readonly samples: FaceSamples;
  /** lifted point and normal per sample, 6 numbers each, head axes */
  readonly points: Float64Array;
  /** the middle of the samples */
  readonly middle: Float64Array;
  /** the head, hair, spectacle frame and body in head axes, for rays */
  readonly tracer: Tracer;
  /** angles to the nearest edge: see EdgeFinder; sample s and node n at s + count * n */
  readonly edges: () => Int8Array;
}

/** Rays start so far off the skin: as in face-light.ts. */
const SKIN_LIFT = 5e-4;
/** Faces and pairs of cheeks of one person kept, for as many poses. */
const POSES_KEPT = 32;

const made = new WeakMap<PersonShape, Map<string, QuickFace>>();

/** The quick face of somebody who holds the head so, kept: alike in shape, hair, glasses and pose of the head on the
 * shoulders, wherever they stand and face. The angles are found on first use (`edges`), which takes some 0.4 s. */
export function quickFace(person: StagedPerson, spacing_m: number, closer_m?: number): QuickFace {
  return kept(person, `face ${spacing_m} ${closer_m}`, () =>
    faceSamples(person.shape.head, spacing_m, closer_m),
  );
}

/** The same for the two cheeks alone, at the samples of a fine reading. */
export function quickCheeks(person: StagedPerson, spacing_m: number): QuickFace {
  return kept(person, `cheeks ${spacing_m}`, () => cheeksOf(faceSamples(person.shape.head, spacing_m)));
}

function kept(person: StagedPerson, what: string, samplesOf: () => FaceSamples): QuickFace {
  let poses = made.get(person.shape);
  if (!poses) {
    poses = new Map();
    made.set(person.shape, poses);
  }
  const turned = bodyInHead(person);
  const key = `${what} ${turned.map((x) => Math.round(x * 1e6)).join()}`;
  let face = poses.get(key);
  if (!face) {
    face = build(person, turned, samplesOf());
    if (poses.size >= POSES_KEPT) poses.clear();
    poses.set(key, face);
  }
  return face;
}

/** Of these samples the cheeks', neighbours forgotten. */
function cheeksOf(all: FaceSamples): FaceSamples {
  const those = [...all.region.keys()].filter(
    (s) => all.region[s] === REGION.leftCheek || all.region[s] === REGION.rightCheek,
  );
  const threes = (from: Float64Array) =>
    Float64Array.from(those.flatMap((s) => [...from.subarray(3 * s, 3 * s + 3)]));
  return {
    count: those.length,
    vertex: Uint32Array.from(those, (s) => all.vertex[s]),
    position: threes(all.position),
    normal: threes(all.normal),
    area: Float64Array.from(those, (s) => all.area[s]),
    region: Uint8Array.from(those, (s) => all.region[s]),
    offset: new Uint32Array(those.length + 1),
    neighbour: new Uint32Array(0),
  };
}

/** Head axes from body axes: a rotation, 3 x 3 row-major. */
function bodyInHead(person: StagedPerson): Float64Array {
  const out = new Float64Array(9);
  const v = new Float64Array(3);
  for (let c = 0; c < 3; c++) {
    for (let r = 0; r < 3; r++) v[r] = person.bodyRotation[3 * r + c];
    turnBack(person.headRotation, v, v);
    for (let r = 0; r < 3; r++) out[3 * r + c] = v[r];
  }
  return out;
}

export const STILL = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
export const ORIGIN = new Float64Array(3);

function build(person: StagedPerson, turned: Float64Array, samples: FaceSamples): QuickFace {
  const { shape } = person;
  const points = liftedPoints(STILL, ORIGIN, samples.position, samples.normal, samples.count, SKIN_LIFT);
  const foot = Float64Array.of(0, 0, -shape.earHeight);
  turnBack(person.headRotation, foot, foot);
  const meshes = [
    instance(patchedHead(person), STILL, ORIGIN),
    instance(patchedBody(person), turned, foot),
    ...(shape.hair ? [instance(walked(shape.hair), STILL, ORIGIN)] : []),
    ...(shape.glasses ? [instance(walked(shape.glasses.frame), STILL, ORIGIN)] : []),
  ];
  const tracer = new Tracer({ ...new SceneBuilder().build(), meshes });
  let found: Int8Array | null = null;
  const edges = () => {
    found ??= findEdges(tracer, points, isEven(turned) ? mirrorOf(samples) : null);
    return found;
  };
  const middle = new Float64Array(3);
  for (let i = 0; i < points.length; i++) if (i % 6 < 3) middle[i % 6] += points[i] / samples.count;
  return { samples, points, middle, tracer, edges };
}

/** Whether the head is held straight over the shoulders, tipped or not: its two halves then see mirrored worlds. */
function isEven(turned: Float64Array): boolean {
  return [1, 3, 5, 7].every((k) => Math.abs(turned[k]) < 1e-9);
}

const PLACE_M = 1e-6;

/** For each sample the one where its mirror image lies: itself on the middle, -1 where there is none. */
function mirrorOf({ position, count }: FaceSamples): Int32Array {
  const key = (s: number, sign: 1 | -1) =>
    [position[3 * s], sign * position[3 * s + 1], position[3 * s + 2]]
      .map((x) => Math.round(x / PLACE_M) + 0)
      .join();
  const at = new Map(Array.from({ length: count }, (_, s) => [key(s, 1), s]));
  return Int32Array.from({ length: count }, (_, s) => at.get(key(s, -1)) ?? -1);
}

/** Where the halves see mirrored worlds one is looked at and the other taken over. */
function findEdges(tracer: Tracer, points: Float64Array, mirror: Int32Array | null): Int8Array {
  const count = points.length / 6;
  // a line of nodes more than there is, so that what lies beyond the last may be asked for
  const out = new Int8Array(count * (SKY_NODES + SKY_ACROSS + 1));
  const finder = new EdgeFinder(tracer);
  for (let s = 0; s < count; s++) {
    const other = mirror === null ? -1 : mirror[s];
    if (other >= 0 && other < s) copyMirrored(out, count, other, s);
    else finder.write(points, 6 * s, out, s, count);
  }
  return out;
}

/** The sky grid runs across from the own right to the own left. */
function copyMirrored(out: Int8Array, count: number, from: number, to: number) {
  for (let node = 0; node < SKY_NODES; node++) {
    const across = node % SKY_ACROSS;
    out[count * node + to] = out[count * (node - 2 * across + SKY_CELLS) + from];
  }
}

type Walked = Pick<MeshInstance, "walker" | "positions" | "normals" | "triangles" | "sphere">;

export function instance(mesh: Walked, rotation: Float64Array, offset: Float64Array): MeshInstance {
  const sphere = mesh.sphere.slice();
  const [x, y, z] = sphere;
  for (let k = 0; k < 3; k++)
    sphere[k] = rotation[3 * k] * x + rotation[3 * k + 1] * y + rotation[3 * k + 2] * z + offset[k];
  // nothing comes back from these: they only stand in the way
  const tileOfTriangle = new Int32Array(mesh.triangles.length / 3).fill(-1);
  const { walker, positions, normals, triangles } = mesh;
  return { walker, positions, normals, triangles, tileOfTriangle, rotation, offset, sphere };
}

const walkedOnce = new WeakMap<Mesh, Walked>();

export function walked(mesh: Mesh): Walked {
  let kept = walkedOnce.get(mesh);
  if (!kept) {
    const { positions, normals, triangles } = mesh;
    let reach = 0;
    for (let v = 0; v < positions.length; v += 3)
      reach = Math.max(reach, Math.hypot(positions[v], positions[v + 1], positions[v + 2]));
    const walker = new Walker(buildBvh(positions, triangles));
    kept = { walker, positions, normals, triangles, sphere: Float64Array.of(0, 0, 0, reach) };
    walkedOnce.set(mesh, kept);
  }
  return kept;
}
