/** What a point sees of surfaces, as weights: the light of a tile there is its exitance / pi times these. */

/** Numbers a view: integral of dw, of w dw (x, y, z), and of the cosine to the receptor's direction above its horizon. */
export const WEIGHTS = 5;

/** Views of several points, those of point i from offset[i] to offset[i + 1]. `rays`, `distance` and `tile` are as in a
 * Gather, so that lights' plates can be put in the way. */
export interface Views {
  readonly offset: Int32Array;
  /** origin and unit direction */
  readonly rays: Float32Array;
  readonly distance: Float32Array;
  readonly tile: Int32Array;
  readonly weight: Float32Array;
}

/** Grows as views are added; `views` gives what is there. */
export class ViewList {
  private offset = [0];
  private count = 0;
  private rays = new Float32Array(6 * 4096);
  private distance = new Float32Array(4096);
  private tile = new Int32Array(4096);
  private weight = new Float32Array(WEIGHTS * 4096);

  /** One view along a unit direction; its weights are written next, by `weigh`. */
  add(
    ox: number,
    oy: number,
    oz: number,
    dx: number,
    dy: number,
    dz: number,
    distance: number,
    tile: number,
  ) {
    if (this.count === this.tile.length) this.grow();
    const k = 6 * this.count;
    this.rays[k] = ox;
    this.rays[k + 1] = oy;
    this.rays[k + 2] = oz;
    this.rays[k + 3] = dx;
    this.rays[k + 4] = dy;
    this.rays[k + 5] = dz;
    this.distance[this.count] = distance;
    this.tile[this.count++] = tile;
  }

  /** Weights of the last view. */
  weigh(solid: number, x: number, y: number, z: number, flat: number) {
    const k = WEIGHTS * (this.count - 1);
    this.weight[k] = solid;
    this.weight[k + 1] = x;
    this.weight[k + 2] = y;
    this.weight[k + 3] = z;
    this.weight[k + 4] = flat;
  }

  /** Ends the list of one point. */
  close() {
    this.offset.push(this.count);
  }

  views(): Views {
    const n = this.count;
    return {
      offset: Int32Array.from(this.offset),
      rays: this.rays.slice(0, 6 * n),
      distance: this.distance.slice(0, n),
      tile: this.tile.slice(0, n),
      weight: this.weight.slice(0, WEIGHTS * n),
    };
  }

  private grow() {
    const twice = <T extends Float32Array | Int32Array>(old: T, fresh: T): T => {
      fresh.set(old);
      return fresh;
    };
    this.rays = twice(this.rays, new Float32Array(2 * this.rays.length));
    this.distance = twice(this.distance, new Float32Array(2 * this.distance.length));
    this.tile = twice(this.tile, new Int32Array(2 * this.tile.length));
    this.weight = twice(this.weight, new Float32Array(2 * this.weight.length));
  }
}
