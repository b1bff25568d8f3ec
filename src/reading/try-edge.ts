/** How wide the nose's shadow fades, looked up: `shadowEdgeMillimetres` without rays. The lines that it crosses lie at a
 * fixed place of a head, so what their points see past head, hair and glasses is found once. */
import { type Emitter, SceneBuilder, Tracer } from "../engine/index.ts";
import type { PersonShape } from "../figure/index.ts";
import type { StagedPerson } from "../staging/index.ts";
import type { Lighting } from "./lighting.ts";
import { EDGE_STEP, EdgeFinder } from "./quick-edges.ts";
import { edgeToward, SHARES, shareOfDisc } from "./quick-exposure.ts";
import { instance, ORIGIN, STILL, walked } from "./quick-face.ts";
import { type QuickLight, quickLight } from "./quick-light.ts";
import { movableEmitter, writeHeadEmitter } from "./quick-place.ts";
import { readyLamp, sent } from "./quick-sent.ts";
import { SKY_ACROSS, SKY_NODES } from "./quick-sky.ts";
import { alongLine, darker, type Fade, fadeOf, HEIGHTS, LINE_LIFT, skinLine } from "./shadow-edge.ts";

/** One line of skin, in head axes. */
interface Line {
  /** lifted point and normal, 6 numbers each */
  readonly points: Float64Array;
  readonly along: Float64Array;
  /** angles to the nearest edge: point i and node n at i + count * n */
  readonly edges: Int8Array;
}

const made = new WeakMap<PersonShape, Map<1 | -1, readonly Line[]>>();
/** A light smaller than this is taken to be of this radius, radians: edges are not known better. */
const LEAST_RADIUS = 0.004;
/** Nine parts a quarter: a fade through 36 steps, each of them smooth. */
const RINGS = 3;
/** What 256 rays tell apart: so that a place is as dark as they find it. */
const STEPS = 256;

/** The same for one light of a variation, kept. */
export function triedEdge(lighting: Lighting, person: number, light: number, litSign: 1 | -1): number | null {
  const { stage, memory, ownKeys } = lighting;
  const staged = stage.people[person];
  const key = JSON.stringify([ownKeys[light], litSign, [...staged.headRotation], [...staged.headOffset]]);
  return memory.recall(`edge ${person}`, key, () =>
    quickEdgeMillimetres(staged, stage.scene.emitters[light], litSign),
  );
}

/** `litSign` is +1 where the person's own left is lit.
 * Units    millimetres
 * Accuracy docs/spec/try.md [QF20] */
export function quickEdgeMillimetres(staged: StagedPerson, e: Emitter, litSign: 1 | -1): number | null {
  const own = movableEmitter(e);
  writeHeadEmitter(own, e, staged);
  const front = quickLight(e, RINGS);
  readyLamp(own);
  let best: Fade | null = null;
  for (const line of linesOf(staged.shape, -litSign as 1 | -1))
    best = darker(best, fadeOf(clearAlong(line, own, front), line.along));
  return best ? best.width * 1000 : null;
}

export function linesOf(shape: PersonShape, side: 1 | -1): readonly Line[] {
  let sides = made.get(shape);
  if (!sides) {
    sides = new Map();
    made.set(shape, sides);
  }
  let lines = sides.get(side);
  if (!lines) {
    lines = findLines(shape, side);
    sides.set(side, lines);
  }
  return lines;
}

function findLines(shape: PersonShape, side: 1 | -1): Line[] {
  const meshes = [
    shape.head.mesh,
    ...(shape.hair ? [shape.hair] : []),
    ...(shape.glasses ? [shape.glasses.frame] : []),
  ];
  const tracer = new Tracer({
    ...new SceneBuilder().build(),
    meshes: meshes.map((mesh) => instance(walked(mesh), STILL, ORIGIN)),
  });
  const finder = new EdgeFinder(tracer, "skin");
  const head = { headRotation: STILL, headOffset: ORIGIN, shape };
  return HEIGHTS.map((height) => {
    const line = skinLine(tracer, 0, head, height, side);
    const points = Float64Array.from(
      line.flatMap(([x, y, z, nx, ny, nz]) => [
        x + LINE_LIFT * nx,
        y + LINE_LIFT * ny,
        z + LINE_LIFT * nz,
        nx,
        ny,
        nz,
      ]),
    );
    const edges = new Int8Array(line.length * (SKY_NODES + SKY_ACROSS + 1));
    for (let i = 0; i < line.length; i++) finder.write(points, 6 * i, edges, i, line.length);
    return { points, along: alongLine(line), edges };
  });
}

/** Share of the light that is not cut off, as a receptor turned to the light sees it. */
export function clearAlong({ points, along, edges }: Line, e: Emitter, front: QuickLight): Float64Array {
  const count = along.length;
  const { right_m, up_m, share, area_m2 } = front;
  const { centre, right, up, forward } = e;
  const clear = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const [px, py, pz] = points.subarray(6 * i, 6 * i + 3);
    const [tx, ty, tz] = [centre[0] - px, centre[1] - py, centre[2] - pz];
    let all = 0;
    let seen = 0;
    for (let k = 0; k < share.length; k++) {
      const x = tx + right_m[k] * right[0] + up_m[k] * up[0];
      const y = ty + right_m[k] * right[1] + up_m[k] * up[1];
      const z = tz + right_m[k] * right[2] + up_m[k] * up[2];
      const brings = share[k] * sent(e, front, x, y, z, x * tx + y * ty + z * tz);
      if (!(brings > 0)) continue;
      all += brings;
      const far = Math.sqrt(x * x + y * y + z * z);
      const cosine = Math.abs(x * forward[0] + y * forward[1] + z * forward[2]) / far;
      const radius = Math.max(LEAST_RADIUS, Math.sqrt((area_m2 * cosine) / Math.PI) / far);
      seen += brings * shareOfDisc((SHARES * EDGE_STEP * edgeToward(edges, count, i, x, y, z)) / radius);
    }
    clear[i] = all > 0 ? Math.round((STEPS * seen) / all) / STEPS : 1;
  }
  return clear;
}
