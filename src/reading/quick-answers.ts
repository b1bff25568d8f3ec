/** How much of the light that lands on any part of a scene comes back at given places: found once from those places
 * (what arrives here from there is what arrives there from here), so that it may be asked for any light. */
import type { Gather, Patches, ViewFactors } from "../engine/index.ts";
import { CELLS, cellsOfTiles } from "./quick-cuts.ts";

/** Per cell: what arrives for a unit of direct light on it. `once` of light reflected once (or come through a panel),
 * `more` of light reflected more often. */
export interface Answer {
  readonly once: Float64Array;
  readonly more: Float64Array;
}

/** Change per sweep under which the solution stands: well under what is asked of it (0.2 stop). */
const SETTLED = 1e-3;
const MOST_SWEEPS = 200;

export class Answers {
  /** per entry of the view factors and cell of the patch it looks at: the share of it that falls there */
  private readonly shares: Float32Array;
  private readonly base: Float64Array;
  private readonly one: Float64Array;
  private readonly rho: Float64Array;
  private readonly patches: Patches;
  private readonly views: ViewFactors;

  constructor(patches: Patches, gather: Gather, visible: Int32Array, views: ViewFactors) {
    this.patches = patches;
    this.views = views;
    this.shares = sharesOf(gather, visible, views, cellsOfTiles(patches));
    this.base = new Float64Array(patches.count);
    this.one = new Float64Array(patches.count);
    this.rho = new Float64Array(patches.count);
  }

  /** `wanted` is a place's view: the weight of the exitance of every cell there.
   * Source  the adjoint of B = rho E + F B: reciprocity A_i F_ij = A_j F_ji turns it into the same system */
  of(wanted: Float64Array, channel: number): Answer {
    const { patches, views, base, one, rho, shares } = this;
    const { count, area } = patches;
    const { offset, column, factor } = views;
    const n = CELLS * count;
    for (let i = 0; i < count; i++) rho[i] = patches.bounceReflectance[3 * i + channel];
    const seen = new Float64Array(count);
    for (let q = 0; q < n; q++) seen[Math.floor(q / CELLS)] += wanted[q];
    const first = this.sentOn(seen).map((x, i) => x / area[i]);
    for (let i = 0; i < count; i++) {
      base[i] = 0;
      for (let k = offset[i]; k < offset[i + 1]; k++) base[i] += factor[k] * first[column[k]];
    }
    this.settle();
    const back = this.sentOn(one);
    const once = new Float64Array(n);
    const more = new Float64Array(n);
    for (let i = 0; i < count; i++) {
      const z = area[i] * (first[i] + back[i]);
      for (let k = offset[i]; k < offset[i + 1]; k++)
        for (let c = 0; c < CELLS; c++) more[CELLS * column[k] + c] += z * factor[k] * shares[CELLS * k + c];
    }
    for (let q = 0; q < n; q++) {
      once[q] = rho[Math.floor(q / CELLS)] * wanted[q];
      more[q] *= rho[Math.floor(q / CELLS)];
    }
    this.addThrough(wanted, once, more);
    return { once, more };
  }

  /** What patches send on of what arrives at them. */
  private sentOn(arriving: Float64Array): Float64Array {
    const { transmittance, partner } = this.patches;
    return arriving.map((x, i) => {
      const tau = transmittance[i];
      return this.rho[i] * x + (tau > 0 && partner[i] >= 0 ? tau * arriving[partner[i]] : 0);
    });
  }

  /** one = base + F (what is sent on of one), by Gauss-Seidel, as in solveExitance. */
  private settle() {
    const { base, one, patches, views, rho } = this;
    const { offset, column, factor, met } = views;
    const { count, area, transmittance, partner } = patches;
    const sent = new Float64Array(count);
    one.fill(0);
    let first = 0;
    for (let i = 0; i < count; i++) first += base[i] * area[i];
    const send = (i: number) => {
      const tau = transmittance[i];
      sent[i] = rho[i] * one[i] + (tau > 0 ? tau * one[partner[i]] : 0);
    };
    for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
      let change = 0;
      let size = 0;
      let again = 0;
      for (let i = 0; i < count; i++) {
        let here = base[i];
        for (let k = offset[i]; k < offset[i + 1]; k++) here += factor[k] * sent[column[k]];
        change += Math.abs(here - one[i]) * area[i];
        size += Math.abs(here) * area[i];
        one[i] = here;
        send(i);
        if (partner[i] >= 0) send(partner[i]);
      }
      let all = 0;
      for (let i = 0; i < count; i++) {
        all += one[i] * area[i];
        again += sent[i] * area[i] * met[i];
      }
      // all that arrives is what arrives first and what is sent on: the balance of solveExitance
      const scale = all > again && first > 0 ? first / (all - again) : 1;
      for (let i = 0; i < count; i++) {
        one[i] *= scale;
        sent[i] *= scale;
      }
      if (!(change + Math.abs(scale - 1) * size > SETTLED * size)) break;
    }
  }

  /** Light that falls on the other side of a panel that lets light through: seen itself, and as light on what it meets. */
  private addThrough(wanted: Float64Array, once: Float64Array, more: Float64Array) {
    const { patches, views, shares } = this;
    const { count, transmittance, partner } = patches;
    const { offset, column, factor } = views;
    if (!transmittance.some((tau) => tau > 0)) return;
    const onward = new Float64Array(CELLS * count);
    for (let i = 0; i < count; i++) {
      let lit = 0;
      for (let c = 0; c < CELLS; c++) lit += once[CELLS * i + c] + more[CELLS * i + c];
      for (let k = offset[i]; k < offset[i + 1]; k++)
        for (let c = 0; c < CELLS; c++)
          onward[CELLS * column[k] + c] += lit * factor[k] * shares[CELLS * k + c];
    }
    for (let i = 0; i < count; i++) {
      const tau = transmittance[i];
      if (!(tau > 0 && partner[i] >= 0)) continue;
      for (let c = 0; c < CELLS; c++) {
        once[CELLS * partner[i] + c] += tau * wanted[CELLS * i + c];
        more[CELLS * partner[i] + c] += tau * onward[CELLS * i + c];
      }
    }
  }
}

function sharesOf(gather: Gather, visible: Int32Array, views: ViewFactors, cells: Int32Array): Float32Array {
  const out = new Float32Array(CELLS * views.column.length);
  for (let r = 0; r < gather.tile.length; r++) {
    const k = views.entryOfRay[r];
    if (k >= 0) out[CELLS * k + (cells[visible[r]] % CELLS)]++;
  }
  for (let k = 0; k < views.column.length; k++) {
    let rays = 0;
    for (let c = 0; c < CELLS; c++) rays += out[CELLS * k + c];
    for (let c = 0; c < CELLS; c++) out[CELLS * k + c] = rays > 0 ? out[CELLS * k + c] / rays : 1 / CELLS;
  }
  return out;
}
