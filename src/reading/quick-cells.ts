/** What one light puts on the parts of a scene, without rays: what sends nothing back is left out. Parts of people know
 * from which sides they can be lit past the person's own body; people throw shadows as two upright posts each. */
import { type Emitter, LIFT, type Patches, POINT_STRIDE, TILES, Tracer } from "../engine/index.ts";
import type { Stage, StagedPerson } from "../staging/index.ts";
import { CELLS, cellsOfTiles } from "./quick-cuts.ts";
import type { QuickLight } from "./quick-light.ts";
import { readyLamp, sent } from "./quick-sent.ts";
import { SKY_CELLS, writeSkyDirection } from "./quick-sky.ts";

/** Cells along a side of a cell's own sky, coarser than that of skin: 8 to 17 degrees. */
const STEPS = 12;
const NODES = (STEPS + 1) ** 2;
/** Rays end so far off: past the feet of somebody who stands. */
const REACH = 2.5;
/** Posts of a person: radius of the head's and the body's (half of shoulders 0.46 m wide and 0.2 m deep, from all sides
 * alike), and how far under the ears the neck goes over into shoulders and over them the head ends. */
const HEAD_RADIUS = 0.095;
const BODY_RADIUS = 0.17;
const SHOULDERS_UNDER = 0.17;
const CROWN_OVER = 0.12;

export class QuickCells {
  readonly count: number;
  /** number of every cell among those of all patches */
  readonly cell: Int32Array;
  /** of the light last put on: how many cells it falls on, which those are, and what falls there, lx.s per lm.s, with
   * everybody's shadow, and with this person away */
  litCount = 0;
  readonly which: Int32Array;
  readonly lit: Float64Array;
  readonly litAlone: Float64Array;
  /** middle and mean normal */
  private readonly points: Float64Array;
  /** cells of people come last: from this one on there is a sky for each */
  private readonly firstOfPeople: number;
  /** cosine to the light, 0 where the own body hides it, per cell and node of its sky */
  private readonly skies: Float32Array;
  private readonly people: readonly StagedPerson[];
  private readonly person: number;

  /** Those cells that are worth it, in order; people's are from the patch `firstOfPeople` on. */
  constructor(still: Stage, person: number, firstOfPeople: number, kept: Int32Array) {
    const { patches } = still.scene;
    this.cell = kept;
    this.count = kept.length;
    this.which = new Int32Array(this.count);
    this.lit = new Float64Array(this.count);
    this.litAlone = new Float64Array(this.count);
    this.points = cellPoints(patches, kept);
    this.firstOfPeople = kept.filter((q) => q < CELLS * firstOfPeople).length;
    this.skies = this.lookUp(still);
    this.people = still.people;
    this.person = person;
  }

  /** Puts a light on that stands in the world. */
  light(e: Emitter, front: QuickLight) {
    const { points, which, lit, litAlone, count, firstOfPeople } = this;
    const c = e.centre;
    let some = 0;
    readyLamp(e);
    const wide2 = meanWidth2(e);
    for (let q = 0, at = 0; q < count; q++, at += 6) {
      const x = c[0] - points[at];
      const y = c[1] - points[at + 1];
      const z = c[2] - points[at + 2];
      const ofPeople = q >= firstOfPeople;
      const facing = ofPeople
        ? this.facing(q, x, y, z)
        : x * points[at + 3] + y * points[at + 4] + z * points[at + 5];
      if (!(facing > 0)) continue;
      // of a face's parts, those aside are farther off: on the axis of a disc exactly so
      const d2 = x * x + y * y + z * z;
      const direct = (sent(e, front, x, y, z, facing) * d2) / (d2 + wide2);
      if (!(direct > 0)) continue;
      lit[some] = direct;
      litAlone[some] = direct;
      if (!ofPeople) this.shade(some, at, x, y, z);
      if (litAlone[some] > 0) which[some++] = q;
    }
    this.litCount = some;
  }

  /** Puts the shadows of everybody's posts on cell number `some` of those lit. */
  private shade(some: number, at: number, x: number, y: number, z: number) {
    const { people, person, points } = this;
    const d2 = x * x + y * y;
    for (let i = 0; i < people.length; i++) {
      const { headOffset } = people[i];
      const ax = headOffset[0] - points[at];
      const ay = headOffset[1] - points[at + 1];
      const along = ax * x + ay * y;
      if (!(along > 0 && along < d2)) continue;
      const aside = ax * y - ay * x;
      const away2 = aside * aside;
      if (away2 > BODY_RADIUS * BODY_RADIUS * d2) continue;
      const over = points[at + 2] + (along / d2) * z - headOffset[2];
      if (over > CROWN_OVER) continue;
      if (over > -SHOULDERS_UNDER && away2 > HEAD_RADIUS * HEAD_RADIUS * d2) continue;
      this.lit[some] = 0;
      if (i !== person) this.litAlone[some] = 0;
    }
  }

  /** Length of (x, y, z) times the mean cosine of a person's cell to it, from between four nodes of its sky. */
  private facing(q: number, x: number, y: number, z: number): number {
    const { skies } = this;
    const ax = x < 0 ? -x : x;
    const ay = y < 0 ? -y : y;
    const az = z < 0 ? -z : z;
    const half = STEPS / 2 / (ax + ay + az);
    let u = y * half + STEPS / 2;
    let v = z * half + STEPS / 2;
    if (x < 0) {
      u = y < 0 ? az * half : STEPS - az * half;
      v = z < 0 ? ay * half : STEPS - ay * half;
    }
    const i = Math.min(STEPS - 1, u | 0);
    const j = Math.min(STEPS - 1, v | 0);
    u -= i;
    v -= j;
    const at = (q - this.firstOfPeople) * NODES + j * (STEPS + 1) + i;
    const low = skies[at] + u * (skies[at + 1] - skies[at]);
    const high = skies[at + STEPS + 1] + u * (skies[at + STEPS + 2] - skies[at + STEPS + 1]);
    return (low + v * (high - low)) * Math.sqrt(x * x + y * y + z * z);
  }

  /** Cosines of a person's cells, and what of them the body leaves, in every direction of their skies. */
  private lookUp(still: Stage): Float32Array {
    const { cell, firstOfPeople, count } = this;
    const out = new Float32Array((count - firstOfPeople) * NODES);
    const tracer = new Tracer({ ...still.scene, room: null, quads: [] });
    const { points } = still.scene.patches;
    const cells = cellsOfTiles(still.scene.patches);
    const d = directions();
    const asked = new Uint16Array(NODES);
    const cosine = new Float64Array(NODES);
    for (let q = firstOfPeople; q < count; q++) {
      const first = TILES * Math.floor(cell[q] / CELLS);
      const at = (q - firstOfPeople) * NODES;
      for (let t = first; t < first + TILES; t++) {
        if (cells[t] !== cell[q]) continue;
        const p = points.subarray(POINT_STRIDE * t, POINT_STRIDE * (t + 1));
        let rays = 0;
        for (let n = 0; n < NODES; n++) {
          const c = d[3 * n] * p[3] + d[3 * n + 1] * p[4] + d[3 * n + 2] * p[5];
          if (!(c > 0)) continue;
          cosine[rays] = (c * CELLS) / TILES;
          asked[rays] = n;
          tracer.aim(rays++, REACH * d[3 * n], REACH * d[3 * n + 1], REACH * d[3 * n + 2]);
        }
        tracer.lookPastLights(rays, p[0] + LIFT * p[3], p[1] + LIFT * p[4], p[2] + LIFT * p[5]);
        for (let r = 0; r < rays; r++) if (tracer.seen[r] !== 0) out[at + asked[r]] += cosine[r];
      }
    }
    return out;
  }
}

/** Of all nodes of a sky. */
function directions(): Float64Array {
  const out = new Float64Array(3 * NODES);
  const step = SKY_CELLS / STEPS;
  for (let n = 0; n < NODES; n++)
    writeSkyDirection(out, 3 * n, step * (n % (STEPS + 1)), step * Math.floor(n / (STEPS + 1)));
  return out;
}

/** Square of the radius of a disc whose parts lie as far from its middle as this face's do. */
function meanWidth2(e: Emitter): number {
  const { halfWidth, halfHeight } = e;
  return e.shape === "rectangle" ? (2 / 3) * (halfWidth ** 2 + halfHeight ** 2) : halfWidth ** 2;
}

/** Middle and mean normal of each. */
function cellPoints(patches: Patches, kept: Int32Array): Float64Array {
  const { points } = patches;
  const cells = cellsOfTiles(patches);
  const out = new Float64Array(6 * kept.length);
  kept.forEach((cell, q) => {
    const first = TILES * Math.floor(cell / CELLS);
    for (let t = first; t < first + TILES; t++)
      if (cells[t] === cell)
        for (let k = 0; k < 6; k++) out[6 * q + k] += (points[POINT_STRIDE * t + k] * CELLS) / TILES;
  });
  return out;
}
