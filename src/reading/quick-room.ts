/** What a room gives back of any light, at a face: worked out once for what stands still, then a sum over the parts of
 * the room that the light falls on. Cells that send nothing back are left out. */
import { type Emitter, emitterArea, gatherPatches, type Patches, viewFactors } from "../engine/index.ts";
import { writeSpherePoint } from "../math/index.ts";
import { LUMINANCE } from "../photometry/index.ts";
import type { Plan } from "../plan/index.ts";
import { patchesOf, type Stage, stage } from "../staging/index.ts";
import { worldSamples } from "./face-light.ts";
import { type FaceMarks, faceParts, meanOver } from "./face-parts.ts";
import type { FaceSamples } from "./face-samples.ts";
import { toWorld } from "./head-axes.ts";
import { WORK } from "./lighting.ts";
import { type Answer, Answers } from "./quick-answers.ts";
import { commonShapes } from "./quick-basis.ts";
import { QuickCells } from "./quick-cells.ts";
import { CELLS, cellsOfTiles } from "./quick-cuts.ts";
import type { QuickFace } from "./quick-face.ts";
import type { QuickLight } from "./quick-light.ts";
import { lookRound } from "./skin-rays.ts";

export type Weights = readonly [number, number, number];

/** Shapes that bounced light on a face is made of. */
const SHAPES = 9;
/** Directions that a point of skin, and the bridge, look in. */
const SKIN_RAYS = 96;
const BRIDGE_RAYS = 1024;
/** Columns: the shapes, then the cheeks, the mean exitance of the walls, and the bridge (vector in head axes, sum), which
 * is seen with the person away. In blocks of four, which are summed at once. */
const BLOCK = 4;
const CHEEKS = SHAPES;
const AROUND = CHEEKS + 2;
const BRIDGE = AROUND + 1;
const COLUMNS = BRIDGE + 4;

/** Places after the samples of a row: as in ROW_TAIL. */
const TAIL_CHEEKS = 4;

/** A front turned farther away than this (84 degrees) sends the face next to nothing, and its plate is seen from the edge. */
const LEAST_COSINE = 0.1;

export class QuickRoom {
  /** numbers of the sums that `gather` writes */
  readonly sums = new Float64Array(COLUMNS);
  /** per shape one number a sample */
  private readonly shapes: Float64Array;
  /** the walls' mean, as a meter sees it under white light; 0 without a room */
  readonly wallReflectance: number;
  private readonly count: number;
  /** per shape the mean over either cheek, as the samples have it */
  private readonly coarse: Float64Array;
  private readonly cells: QuickCells;
  /** per channel, cell and column */
  private readonly once: Float32Array[];
  private readonly more: Float32Array[];
  private readonly taken = new Map<string, Float32Array>();
  /** of the face, in the world */
  private readonly middle: number[];
  private readonly area_m2: number;
  /** mean reflectance per channel */
  private readonly mean: Weights;

  constructor(plan: Plan, person: number, face: QuickFace, cheeks: QuickFace) {
    const still = stage({ ...plan, lights: [] });
    const away = stage({ ...plan, lights: [] }, person);
    const { patches } = still.scene;
    const n = CELLS * patches.count;
    const answers = answersIn(still);
    const views = skinViews(still, person, face.samples);
    this.count = face.samples.count;
    this.shapes = commonShapes(reflected(views, patches, this.count), this.count, SHAPES);
    const wanted = project(this.shapes, views, this.count, n);
    const marks = still.people[person].shape.head.landmarks;
    const means = cheekViews(cheeks, marks, skinViews(still, person, cheeks.samples), n);
    this.coarse = cheekMeans(this.shapes, face, marks);
    const walls = still.scene.room ? wallShares(still) : new Float64Array(n);
    const bridge = bridgeViews(away, person);
    const alone = answersIn(away);
    const [first, ownCount] = patchesOf(still, person);
    const columns = (channel: number): Columns => {
      const out = { once: new Float32Array(COLUMNS * n), more: new Float32Array(COLUMNS * n) };
      const put = (column: number, a: Answer) => {
        for (let q = 0; q < n; q++) {
          out.once[q * COLUMNS + column] = a.once[q];
          out.more[q * COLUMNS + column] = a.more[q];
        }
      };
      wanted.forEach((w, k) => {
        put(k, answers.of(w, channel));
      });
      bridge.forEach((w, k) => {
        put(BRIDGE + k, withPerson(alone.of(w, channel), n, CELLS * first, CELLS * ownCount));
      });
      means.forEach((w, k) => {
        put(CHEEKS + k, answers.of(w, channel));
      });
      // behind a front lie walls that it does not light itself
      put(AROUND, { ...answers.of(walls, channel), once: new Float64Array(n) });
      return out;
    };
    const red = columns(0);
    const green = differs(patches, 1) ? columns(1) : red;
    const blue = differs(patches, 2) ? columns(2) : green;
    const firstOfPeople = patchesOf(still, 0)[0];
    const kept = worthIt([red, green, blue], CELLS * firstOfPeople);
    this.cells = new QuickCells(still, person, firstOfPeople, kept);
    const these = (all: Float32Array) => {
      const out = new Float32Array(COLUMNS * kept.length);
      kept.forEach((q, i) => {
        out.set(all.subarray(COLUMNS * q, COLUMNS * (q + 1)), COLUMNS * i);
      });
      return out;
    };
    this.once = [red, green, blue].map((c) => these(c.once));
    this.more = [red, green, blue].map((c) => these(c.more));
    this.middle = toWorld(still.people[person], face.middle);
    let area = 0;
    const mean = [0, 0, 0];
    for (let p = 0; p < patches.count; p++) {
      area += patches.area[p];
      for (let c = 0; c < 3; c++) mean[c] += patches.area[p] * patches.bounceReflectance[3 * p + c];
    }
    this.area_m2 = area;
    this.wallReflectance = meanOfWalls(still, walls);
    this.mean = [mean[0] / area, mean[1] / area, mean[2] / area];
  }

  /** Adds to a row what the room gives back of a light that stands in the world. */
  addTo(e: Emitter, front: QuickLight, weights: Weights, others_m2: number, row: Float64Array) {
    const { sums, shapes, count, coarse } = this;
    this.sumUp(e, front, weights, others_m2, 0);
    const left = 1 - this.hiddenBy(e, weights);
    for (let k = 0; k < row.length; k++) row[k] *= left;
    for (let k = 0; k < SHAPES; k++) {
      const a = sums[k];
      const from = k * count;
      for (let s = 0; s < count; s++) row[s] += a * shapes[from + s];
      row[count + TAIL_CHEEKS] -= a * coarse[2 * k];
      row[count + TAIL_CHEEKS + 1] -= a * coarse[2 * k + 1];
    }
    this.addTail(row, count);
  }

  /** Adds the bridge and the cheeks alone. */
  addToLook(e: Emitter, front: QuickLight, weights: Weights, others_m2: number, look: Float64Array) {
    this.sumUp(e, front, weights, others_m2, CHEEKS - (CHEEKS % BLOCK));
    const left = 1 - this.hiddenBy(e, weights);
    for (let k = 0; k < look.length; k++) look[k] *= left;
    this.addTail(look, 0);
  }

  /** Bridge, cheeks and walls, in the order of ROW_TAIL. */
  private addTail(out: Float64Array, at: number) {
    for (let k = 0; k < TAIL_CHEEKS; k++) out[at + k] += this.sums[BRIDGE + k];
    for (let k = 0; k < 3; k++) out[at + TAIL_CHEEKS + k] += this.sums[CHEEKS + k];
  }

  /** What a light's own plate hides of the walls behind it, as a share of what it sends: it hides what a black front in
   * its place would send if it were as bright as they are. */
  private hiddenBy(e: Emitter, weights: Weights): number {
    const area = emitterArea(e);
    if (area === 0 || e.distribution !== null) return 0;
    const { middle, sums } = this;
    const x = middle[0] - e.centre[0];
    const y = middle[1] - e.centre[1];
    const z = middle[2] - e.centre[2];
    const cosine =
      (x * e.forward[0] + y * e.forward[1] + z * e.forward[2]) / Math.sqrt(x * x + y * y + z * z);
    if (!(cosine > LEAST_COSINE)) return 0;
    const evenly = (2 / (e.exponent + 1)) * cosine ** (1 - e.exponent);
    const white = weights[0] + weights[1] + weights[2];
    return Math.min(1, (sums[AROUND] * area * evenly) / white);
  }

  /** Columns from `first` on, weighed by what falls on each cell. */
  private sumUp(e: Emitter, front: QuickLight, weights: Weights, others_m2: number, first: number) {
    const answer = this.answerTo(weights, emitterArea(e) + others_m2);
    const { cells } = this;
    cells.light(e, front);
    for (let k = first; k < BRIDGE; k += BLOCK) this.sumBlock(answer, cells.lit, k);
    this.sumBlock(answer, cells.litAlone, BRIDGE);
  }

  private sumBlock(answer: Float32Array, lit: Float64Array, column: number) {
    const { sums, cells } = this;
    const { which, litCount } = cells;
    let a = 0;
    let b = 0;
    let c = 0;
    let d = 0;
    for (let i = 0; i < litCount; i++) {
      const from = COLUMNS * which[i] + column;
      const here = lit[i];
      a += here * answer[from];
      b += here * answer[from + 1];
      c += here * answer[from + 2];
      d += here * answer[from + 3];
    }
    sums[column] = a;
    sums[column + 1] = b;
    sums[column + 2] = c;
    sums[column + 3] = d;
  }

  /** Columns for one colour of light, and so much of plates in the room that send nothing back. */
  private answerTo(weights: Weights, plates_m2: number): Float32Array {
    const key = `${weights[0]} ${weights[1]} ${weights[2]} ${plates_m2}`;
    let answer = this.taken.get(key);
    if (!answer) {
      answer = new Float32Array(this.once[0].length);
      // a chord of the room meets a plate with this chance
      const met = Math.min(0.9, (2 * plates_m2) / this.area_m2);
      for (let c = 0; c < 3; c++) {
        const left = ((1 - met) * (1 - this.mean[c])) / (1 - (1 - met) * this.mean[c]);
        for (let k = 0; k < answer.length; k++)
          answer[k] += weights[c] * (this.once[c][k] + left * this.more[c][k]);
      }
      this.taken.set(key, answer);
    }
    return answer;
  }
}

function meanOfWalls({ scene }: Stage, walls: Float64Array): number {
  const rho = scene.patches.bounceReflectance;
  let sum = 0;
  for (let q = 0; q < walls.length; q++)
    for (let c = 0; c < 3; c++) sum += walls[q] * LUMINANCE[c] * rho[3 * Math.floor(q / CELLS) + c];
  return sum;
}

interface Columns {
  readonly once: Float32Array;
  readonly more: Float32Array;
}

/** An answer worked out without one person, whose own cells are put back and send nothing. */
function withPerson(a: Answer, cells: number, first: number, own: number): Answer {
  const back = (from: Float64Array) => {
    const out = new Float64Array(cells);
    out.set(from.subarray(0, first));
    out.set(from.subarray(first), first + own);
    return out;
  };
  return { once: back(a.once), more: back(a.more) };
}

/** Cells without which cheeks and bridge get all but LEFT_OUT of what they would from even light on everything. People
 * count more: what stands in the light gets more of it than a wall does. */
function worthIt(channels: readonly Columns[], firstOfPeople: number): Int32Array {
  const cells = channels[0].once.length / COLUMNS;
  const worth = new Float64Array(cells);
  let all = 0;
  for (let q = 0; q < cells; q++) {
    for (const { once, more } of channels)
      for (let k = SHAPES; k < COLUMNS; k++)
        if (k !== AROUND) worth[q] += Math.abs(once[q * COLUMNS + k]) + Math.abs(more[q * COLUMNS + k]);
    if (q >= firstOfPeople) worth[q] *= NEARER;
    all += worth[q];
  }
  const least = [...worth.keys()].sort((a, b) => worth[a] - worth[b] || a - b);
  let dropped = 0;
  let some = 0;
  while (some < cells && dropped + worth[least[some]] <= LEFT_OUT * all) dropped += worth[least[some++]];
  return Int32Array.from(least.slice(some).sort((a, b) => a - b));
}

const LEFT_OUT = 0.005;
const NEARER = 8;

/** The weights of a neutral light. */
export const NEUTRAL: Weights = LUMINANCE;

function answersIn({ tracer, scene }: Stage): Answers {
  const gather = gatherPatches(tracer, WORK.coarse.raysPerPatchPoint);
  return new Answers(scene.patches, gather, gather.tile, viewFactors(gather, gather.tile, scene.patches));
}

/** Weight of every cell's exitance at every sample of skin, sparse: cell and weight per ray. */
interface Views {
  readonly each: number;
  readonly cell: Int32Array;
  readonly weight: Float64Array;
}

function skinViews(still: Stage, person: number, samples: FaceSamples): Views {
  const world = worldSamples(still.people[person], samples);
  const g = lookRound(still.tracer, world, SKIN_RAYS);
  const weight = new Float64Array(g.tile.length);
  for (let s = 0; s < g.receivers; s++) {
    let all = 0;
    for (let k = s * SKIN_RAYS; k < (s + 1) * SKIN_RAYS; k++) {
      for (let c = 0; c < 3; c++) weight[k] += g.rays[6 * k + 3 + c] * world[6 * s + 3 + c];
      weight[k] = Math.abs(weight[k]);
      all += weight[k];
    }
    for (let k = s * SKIN_RAYS; k < (s + 1) * SKIN_RAYS; k++) weight[k] /= all;
  }
  const cells = cellsOfTiles(still.scene.patches);
  return { each: SKIN_RAYS, cell: g.tile.map((t) => (t < 0 ? -1 : cells[t])), weight };
}

/** Patch by patch, as they reflect: samples x patches. */
function reflected(views: Views, patches: Patches, count: number): Float64Array {
  const out = new Float64Array(count * patches.count);
  const rho = patches.bounceReflectance;
  views.cell.forEach((cell, k) => {
    if (cell < 0) return;
    const p = Math.floor(cell / CELLS);
    const s = Math.floor(k / views.each);
    out[s * patches.count + p] += views.weight[k] * (rho[3 * p] + rho[3 * p + 1] + rho[3 * p + 2]);
  });
  return out;
}

/** What of each shape is seen of every cell. */
function project(shapes: Float64Array, views: Views, count: number, cells: number): Float64Array[] {
  return Array.from({ length: shapes.length / count }, (_, k) => {
    const out = new Float64Array(cells);
    views.cell.forEach((cell, r) => {
      if (cell >= 0) out[cell] += views.weight[r] * shapes[k * count + Math.floor(r / views.each)];
    });
    return out;
  });
}

/** The cheeks' means, left and right, as weights of every cell's exitance. */
function cheekViews(cheeks: QuickFace, marks: FaceMarks, views: Views, cells: number): Float64Array[] {
  const { samples } = cheeks;
  const parts = faceParts(samples, marks);
  return [parts.leftCheek, parts.rightCheek].map((list) => {
    const out = new Float64Array(cells);
    let area = 0;
    for (const s of list) area += samples.area[s];
    for (const s of list)
      for (let r = s * views.each; r < (s + 1) * views.each; r++)
        if (views.cell[r] >= 0) out[views.cell[r]] += (views.weight[r] * samples.area[s]) / area;
    return out;
  });
}

function cheekMeans(shapes: Float64Array, face: QuickFace, marks: FaceMarks): Float64Array {
  const { samples } = face;
  const parts = faceParts(samples, marks);
  return Float64Array.from({ length: (2 * shapes.length) / samples.count }, (_, i) => {
    const from = Math.floor(i / 2) * samples.count;
    const list = i % 2 === 0 ? parts.leftCheek : parts.rightCheek;
    return meanOver(samples, shapes.subarray(from, from + samples.count), list);
  });
}

/** The light vector in head axes and the sum over all directions, as weights of every cell's exitance. */
function bridgeViews(away: Stage, person: number): Float64Array[] {
  const staged = away.people[person];
  const [x, y, z] = toWorld(staged, staged.shape.head.landmarks.noseBridge);
  const r = staged.headRotation;
  const out = Array.from({ length: 4 }, () => new Float64Array(CELLS * away.scene.patches.count));
  const d = new Float64Array(3);
  const each = 4 / BRIDGE_RAYS;
  const cells = cellsOfTiles(away.scene.patches);
  for (let k = 0; k < BRIDGE_RAYS; k++) {
    writeSpherePoint(d, 0, k, BRIDGE_RAYS);
    away.tracer.closest(x, y, z, d[0], d[1], d[2], 1e6, false);
    if (away.tracer.tile < 0) continue;
    const cell = cells[away.tracer.tile];
    for (let a = 0; a < 3; a++) out[a][cell] += each * (r[a] * d[0] + r[3 + a] * d[1] + r[6 + a] * d[2]);
    out[3][cell] += each;
  }
  return out;
}

/** The walls' mean, by area; what is seen of them is their exitance. */
function wallShares({ scene }: Stage): Float64Array {
  const { room, patches } = scene;
  const out = new Float64Array(CELLS * patches.count);
  if (!room) return out;
  const walls = room.first[5] + room.across[5] * room.upward[5];
  let all = 0;
  for (let p = 0; p < walls; p++) all += patches.area[p];
  for (let q = 0; q < CELLS * walls; q++) out[q] = patches.area[Math.floor(q / CELLS)] / all / CELLS;
  return out;
}

function differs({ bounceReflectance }: Patches, channel: number): boolean {
  for (let i = channel; i < bounceReflectance.length; i += 3)
    if (bounceReflectance[i] !== bounceReflectance[i - 1]) return true;
  return false;
}
