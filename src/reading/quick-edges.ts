/** What a point of skin can see of the world past the person's own body, as angles: for every direction of the sky
 * grid, how far the nearest edge between open sky and body lies, + in the open and - behind the body. Such angles
 * change evenly, so a coarse grid of them keeps an edge to a fraction of a degree where a grid of yes and no would
 * keep it to a step. */
import type { Tracer } from "../engine/index.ts";
import { SKY_ACROSS, SKY_CELLS, SKY_DIRECTIONS, SKY_NODES, skyNode, writeSkyDirection } from "./quick-sky.ts";

/** Angles are kept up to this, radians (23 degrees: a quarter of a light 1.5 m wide, 1.5 m away), in steps of
 * EDGE_RANGE / 127. */
export const EDGE_RANGE = 0.4;
export const EDGE_STEP = EDGE_RANGE / 127;

/** Rays end so far off: past the feet of somebody who stands. */
const REACH = 2.5;
/** Directions this far under the horizon of the skin (sine) are still wanted, as corners of cells that reach over it. */
const UNDER_HORIZON = 0.15;
/** Rays that start half a millimetre off skin as round as a finger may go down by this before they meet it (sine). */
const UNDER_SKIN = 0.35;
/** An edge between two nodes is halved so often: to a thirtieth of a step. */
const HALVINGS = 4;
/** Nodes round a cell that an edge in it may be nearest to. */
const WINDOW = Math.ceil((EDGE_RANGE * SKY_CELLS) / 2);

const VISIBLE = 1;
const UNKNOWN = 2;
const NONE = -1;

/** Looks round from one point at a time; one of these serves one thread. */
export class EdgeFinder {
  private readonly state = new Uint8Array(SKY_NODES);
  private readonly square = new Float64Array(SKY_NODES);
  private readonly asked = new Uint16Array(SKY_NODES);
  /** per node: the crossing on the way to its right and to its upper neighbour */
  private readonly crossingAcross = new Int32Array(SKY_NODES);
  private readonly crossingUp = new Int32Array(SKY_NODES);
  /** per crossing: place on the grid of its open and its hidden end, and its direction */
  private readonly ends = new Float64Array(4 * 2 * SKY_NODES);
  private readonly places = new Float64Array(3 * 2 * SKY_NODES);
  private crossings = 0;
  private readonly d = new Float64Array(3);
  private readonly tracer: Tracer;

  /** `horizon`: what lies under the horizon of the skin is left to the cosine, or is what rays find that start off skin
   * that curves. */
  constructor(
    tracer: Tracer,
    private readonly horizon: "cosine" | "skin" = "cosine",
  ) {
    this.tracer = tracer;
  }

  /** Angles of all nodes into out[s + count * node], in EDGE_STEP. `p` holds a lifted point and its normal at `at`. */
  write(p: Float64Array, at: number, out: Int8Array, s: number, count: number) {
    this.lookAtNodes(p, at);
    this.findCrossings(p, at);
    this.square.fill(EDGE_RANGE * EDGE_RANGE);
    this.measure();
    this.joinRim();
    for (let node = 0; node < SKY_NODES; node++) {
      const angle = Math.min(127, Math.max(1, Math.round(Math.sqrt(this.square[node]) / EDGE_STEP)));
      out[s + count * node] = this.state[node] === VISIBLE ? angle : -angle;
    }
  }

  /** Below the horizon of the skin everything is turned over to above it: the edges run on straight, and the horizon
   * itself, which the cosine takes care of, is none. */
  private aim(ray: number, p: Float64Array, at: number, d: Float64Array, from: number): boolean {
    const nx = p[at + 3];
    const ny = p[at + 4];
    const nz = p[at + 5];
    const cosine = d[from] * nx + d[from + 1] * ny + d[from + 2] * nz;
    if (cosine < (this.horizon === "skin" ? -UNDER_SKIN : -UNDER_HORIZON)) return false;
    const over = cosine < 0 && this.horizon === "cosine" ? 2 * cosine : 0;
    this.tracer.aim(
      ray,
      REACH * (d[from] - over * nx),
      REACH * (d[from + 1] - over * ny),
      REACH * (d[from + 2] - over * nz),
    );
    return true;
  }

  private lookAtNodes(p: Float64Array, at: number) {
    const { state, asked, tracer } = this;
    let rays = 0;
    for (let node = 0; node < SKY_NODES; node++) {
      state[node] = UNKNOWN;
      if (this.aim(rays, p, at, SKY_DIRECTIONS, 3 * node)) asked[rays++] = node;
    }
    tracer.lookPastLights(rays, p[at], p[at + 1], p[at + 2]);
    for (let r = 0; r < rays; r++) state[asked[r]] = tracer.seen[r];
  }

  private findCrossings(p: Float64Array, at: number) {
    const { state, crossingAcross, crossingUp, ends, places, d, tracer } = this;
    this.crossings = 0;
    for (let j = 0; j < SKY_ACROSS; j++)
      for (let i = 0; i < SKY_ACROSS; i++) {
        const node = j * SKY_ACROSS + i;
        crossingAcross[node] = i < SKY_CELLS ? this.crossing(state, node, i, j, i + 1, j) : NONE;
        crossingUp[node] = j < SKY_CELLS ? this.crossing(state, node, i, j, i, j + 1) : NONE;
      }
    for (let turn = 0; turn < HALVINGS; turn++) {
      for (let c = 0; c < this.crossings; c++) {
        const k = 4 * c;
        writeSkyDirection(d, 0, (ends[k] + ends[k + 2]) / 2, (ends[k + 1] + ends[k + 3]) / 2);
        // between two nodes that are wanted lies nothing that is not, but for rounding
        if (!this.aim(c, p, at, d, 0)) tracer.aim(c, REACH * d[0], REACH * d[1], REACH * d[2]);
      }
      tracer.lookPastLights(this.crossings, p[at], p[at + 1], p[at + 2]);
      for (let c = 0; c < this.crossings; c++) {
        const k = 4 * c;
        const end = tracer.seen[c] !== 0 ? k : k + 2;
        const across = (ends[k] + ends[k + 2]) / 2;
        ends[end + 1] = (ends[k + 1] + ends[k + 3]) / 2;
        ends[end] = across;
      }
    }
    for (let c = 0; c < this.crossings; c++) {
      const k = 4 * c;
      writeSkyDirection(places, 3 * c, (ends[k] + ends[k + 2]) / 2, (ends[k + 1] + ends[k + 3]) / 2);
    }
  }

  /** Number of the crossing between two neighbours, NONE where they see alike or one is not known. */
  private crossing(state: Uint8Array, node: number, i: number, j: number, i1: number, j1: number): number {
    const here = state[node];
    const there = state[j1 * SKY_ACROSS + i1];
    if (here === there || here === UNKNOWN || there === UNKNOWN) return NONE;
    const k = 4 * this.crossings;
    const { ends } = this;
    ends[k] = here === VISIBLE ? i : i1;
    ends[k + 1] = here === VISIBLE ? j : j1;
    ends[k + 2] = here === VISIBLE ? i1 : i;
    ends[k + 3] = here === VISIBLE ? j1 : j;
    return this.crossings++;
  }

  /** Edges run straight through each cell from crossing to crossing. */
  private measure() {
    const { crossingAcross, crossingUp } = this;
    for (let j = 0; j < SKY_CELLS; j++)
      for (let i = 0; i < SKY_CELLS; i++) {
        const node = j * SKY_ACROSS + i;
        const bottom = crossingAcross[node];
        const top = crossingAcross[node + SKY_ACROSS];
        const left = crossingUp[node];
        const right = crossingUp[node + 1];
        // two edges through one cell part its corners; a cell at the limit of what is known may have one end alone
        this.segment(i, j, bottom >= 0 ? bottom : top, left >= 0 ? left : right);
        if (bottom >= 0 && top >= 0) this.segment(i, j, top, right >= 0 ? right : bottom);
        else if (left >= 0 && right >= 0) this.segment(i, j, right, left);
      }
  }

  /** Rim nodes stand for one direction twice. */
  private joinRim() {
    const { square } = this;
    for (let k = 0; k <= SKY_CELLS / 2; k++)
      for (const rim of [0, SKY_CELLS]) {
        meet(square, k * SKY_ACROSS + rim, (SKY_CELLS - k) * SKY_ACROSS + rim);
        meet(square, rim * SKY_ACROSS + k, rim * SKY_ACROSS + SKY_CELLS - k);
      }
  }

  private segment(i: number, j: number, from: number, to: number) {
    if (from < 0 && to < 0) return;
    const { places, square } = this;
    const directions = SKY_DIRECTIONS;
    const a = 3 * (from < 0 ? to : from);
    const b = 3 * (to < 0 ? from : to);
    const ax = places[a];
    const ay = places[a + 1];
    const az = places[a + 2];
    const ux = places[b] - ax;
    const uy = places[b + 1] - ay;
    const uz = places[b + 2] - az;
    const long = ux * ux + uy * uy + uz * uz;
    const inverse = long > 0 ? 1 / long : 0;
    for (let y = j - WINDOW; y <= j + 1 + WINDOW; y++)
      for (let x = i - WINDOW; x <= i + 1 + WINDOW; x++) {
        const inside = x >= 0 && x <= SKY_CELLS && y >= 0 && y <= SKY_CELLS;
        const node = inside ? y * SKY_ACROSS + x : skyNode(x, y);
        const dx = directions[3 * node] - ax;
        const dy = directions[3 * node + 1] - ay;
        const dz = directions[3 * node + 2] - az;
        const along = Math.max(0, Math.min(1, (dx * ux + dy * uy + dz * uz) * inverse));
        const ex = dx - along * ux;
        const ey = dy - along * uy;
        const ez = dz - along * uz;
        const d2 = ex * ex + ey * ey + ez * ez;
        if (d2 < square[node]) square[node] = d2;
      }
  }
}

function meet(values: Float64Array, a: number, b: number) {
  values[a] = Math.min(values[a], values[b]);
  values[b] = values[a];
}
