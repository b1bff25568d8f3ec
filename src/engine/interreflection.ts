/** Diffuse interreflection over the patches of a scene. */

import { R2_U, R2_V } from "../math/index.ts";
import { type AskedFace, directByShare } from "./direct.ts";
import { cosineDirection, emptyGather, type Gather, traceGatherRay } from "./gather.ts";
import { POINT_STRIDE, TILE_BITS, TILES } from "./scene.ts";
import type { Tracer } from "./tracer.ts";
import type { ViewFactors } from "./view-factors.ts";

/** What the surfaces send out for one light, per lumen-second. */
export interface Exitance {
  /** per tile: light that came through and has been reflected nowhere */
  readonly through: Float64Array;
  /** rgb per tile: light that has been reflected at least once, for a white light */
  readonly bounced: Float64Array;
  /** rgb per patch: all that arrives from other surfaces, through panels or after a reflection */
  readonly arriving: Float64Array;
}

/** A ray starts this far off its surface. */
export const LIFT = 1e-4;

/** Looks round from every patch: raysPerPoint cosine-spread rays from each of its points. `each` hears how far it is. */
export function gatherPatches(
  tracer: Tracer,
  raysPerPoint: number,
  each: (done: number) => void = () => {},
): Gather {
  const { count, points } = tracer.scene.patches;
  const rays = TILES * raysPerPoint;
  const g = emptyGather(count, rays);
  const d = new Float64Array(3);
  for (let p = 0; p < count; p++) {
    if ((p & 15) === 0) each(p / count);
    if (isBlack(tracer, p)) continue;
    for (let k = 0; k < rays; k++) {
      const at = POINT_STRIDE * (p * TILES + (k % TILES));
      const nx = points[at + 3];
      const ny = points[at + 4];
      const nz = points[at + 5];
      cosineDirection(nx, ny, nz, (k + 0.5) / rays, (0.5 + k * R2_U + p * R2_V) % 1, d, 0);
      traceGatherRay(
        tracer,
        g,
        p * rays + k,
        points[at] + LIFT * nx,
        points[at + 1] + LIFT * ny,
        points[at + 2] + LIFT * nz,
        d[0],
        d[1],
        d[2],
      );
    }
  }
  return g;
}

/** A patch that neither sends light on nor shows what arrives at it. */
function isBlack(tracer: Tracer, patch: number): boolean {
  const { reflectance, transmittance } = tracer.scene.patches;
  const c = 3 * patch;
  return !(transmittance[patch] + reflectance[c] + reflectance[c + 1] + reflectance[c + 2] > 0);
}

/** Direct exposure of the tiles of one patch (lx.s per lm.s) into out[TILES * patch ..]. */
export function directOnTiles(
  tracer: Tracer,
  light: number,
  face: AskedFace,
  patch: number,
  out: Float64Array,
) {
  const { points, bounceReflectance, transmittance } = tracer.scene.patches;
  const c = 3 * patch;
  // a black patch sends nothing on: nobody asks what arrives
  const sends =
    transmittance[patch] + bounceReflectance[c] + bounceReflectance[c + 1] + bounceReflectance[c + 2];
  if (!(sends > 0)) return;
  for (let t = TILES * patch; t < TILES * (patch + 1); t++) {
    const at = POINT_STRIDE * t;
    const nx = points[at + 3];
    const ny = points[at + 4];
    const nz = points[at + 5];
    const x = points[at] + LIFT * nx;
    const y = points[at + 1] + LIFT * ny;
    const z = points[at + 2] + LIFT * nz;
    out[t] = directByShare(tracer, light, face, x, y, z, nx, ny, nz);
  }
}

/** Change per sweep under which the solution stands: a hundredth of the 2 % asked of interreflection. */
export const SETTLED = 2e-4;
const MOST_SWEEPS = 400;

/** Solves what the surfaces send out, by Gauss-Seidel sweeps in patch order. `direct` is per tile.
 * Source  radiosity equation B = rho (E + F B), thin panels also B = rho E + tau E(other side); Goral et al. 1984
 * Accuracy light in is light absorbed to a few parts in a thousand, reference/energy.test.ts */
export function solveExitance(
  tracer: Tracer,
  gather: Gather,
  visible: Int32Array,
  views: ViewFactors,
  direct: Float64Array,
  settled = SETTLED,
): Exitance {
  const { patches } = tracer.scene;
  const n = patches.count;
  const through = solveThrough(tracer, gather, visible, direct);
  // light that has not been reflected, on tiles
  const first = direct.slice();
  const veiled = new Float64Array(n);
  if (patches.transmittance.some((tau) => tau > 0)) {
    for (let i = 0; i < n; i++) {
      veiled[i] = meanOverRays(through, gather, visible, i);
      // a panel is as near as a lamp, so what comes through it is kept per tile as well: ray k looks from tile k mod TILES
      const rays = gather.raysEach / TILES;
      for (let k = 0; k < gather.raysEach; k++) {
        const seen = visible[i * gather.raysEach + k];
        if (seen >= 0) first[TILES * i + (k % TILES)] += through[seen] / rays;
      }
    }
  }
  const source = fromTiles(first, visible, views, n);
  const arriving = new Float64Array(3 * n);
  const bounced = new Float64Array(3 * TILES * n);
  const one = new Float64Array(n);
  const sent = new Float64Array(n);
  for (let c = 0; c < 3; c++) {
    // grey surfaces: the last channel's answer is this one's
    if (c === 0 || differs(patches.bounceReflectance, c)) solveChannel(c);
    for (let i = 0; i < n; i++) {
      const rho = patches.bounceReflectance[3 * i + c];
      const tau = patches.transmittance[i];
      const beyond = tau > 0 && patches.partner[i] >= 0 ? tau * one[patches.partner[i]] : 0;
      arriving[3 * i + c] = one[i] + veiled[i];
      for (let t = TILES * i; t < TILES * (i + 1); t++)
        bounced[3 * t + c] = rho * (first[t] + one[i]) + beyond;
    }
  }
  return { through, bounced, arriving };

  /** Into `one`: what arrives at each patch after at least one reflection. */
  function solveChannel(c: number) {
    const { offset, column, factor } = views;
    const rho = patches.bounceReflectance;
    const base = new Float64Array(n);
    for (let i = 0; i < n; i++)
      for (let k = offset[i]; k < offset[i + 1]; k++)
        base[i] += factor[k] * rho[3 * column[k] + c] * source[k];
    one.fill(0);
    sent.fill(0);
    let first = 0;
    for (let i = 0; i < n; i++) first += base[i] * patches.area[i];
    for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
      let change = 0;
      let size = 0;
      for (let i = 0; i < n; i++) {
        let here = base[i];
        for (let k = offset[i]; k < offset[i + 1]; k++) here += factor[k] * sent[column[k]];
        change += Math.abs(here - one[i]) * patches.area[i];
        size += here * patches.area[i];
        one[i] = here;
        send(i);
        if (patches.partner[i] >= 0) send(patches.partner[i]);
      }
      const scale = balance(size, first);
      change += Math.abs(scale - 1) * size;
      for (let i = 0; i < n; i++) {
        one[i] *= scale;
        sent[i] *= scale;
      }
      if (!(change > settled * size)) break;
    }

    /** All that arrives is what arrives first and what is sent on and met: the factor that makes it so. White rooms,
     * in which a thousand sweeps would each add a little, settle in a few. Source: coarse correction of one unknown */
    function balance(arrives: number, arrivesFirst: number): number {
      let met = 0;
      for (let i = 0; i < n; i++) met += sent[i] * patches.area[i] * views.met[i];
      return arrives > met ? arrivesFirst / (arrives - met) : 1;
    }

    function send(i: number) {
      const tau = patches.transmittance[i];
      sent[i] = rho[3 * i + c] * one[i] + (tau > 0 ? tau * one[patches.partner[i]] : 0);
    }
  }
}

/** Per entry of the view factors: mean of a tile quantity over the rays that make it; where an entry has only the
 * other side's rays, the mean over the patch. */
function fromTiles(tiles: Float64Array, visible: Int32Array, views: ViewFactors, n: number): Float64Array {
  const out = new Float64Array(views.column.length);
  const rays = new Uint16Array(out.length);
  for (let r = 0; r < visible.length; r++) {
    const k = views.entryOfRay[r];
    if (k < 0) continue;
    out[k] += tiles[visible[r]];
    rays[k]++;
  }
  const mean = new Float64Array(n);
  for (let t = 0; t < tiles.length; t++) mean[t >> TILE_BITS] += tiles[t] / TILES;
  for (let k = 0; k < out.length; k++) out[k] = rays[k] > 0 ? out[k] / rays[k] : mean[views.column[k]];
  return out;
}

function differs(reflectance: Float64Array, channel: number): boolean {
  for (let i = channel; i < reflectance.length; i += 3)
    if (reflectance[i] !== reflectance[i - 1]) return true;
  return false;
}

function solveThrough(
  tracer: Tracer,
  gather: Gather,
  visible: Int32Array,
  direct: Float64Array,
): Float64Array {
  const { patches } = tracer.scene;
  const through = new Float64Array(TILES * patches.count);
  const veils: number[] = [];
  for (let i = 0; i < patches.count; i++)
    if (patches.transmittance[i] > 0 && patches.partner[i] >= 0) veils.push(i);
  for (let sweep = 0; sweep < MOST_SWEEPS && veils.length > 0; sweep++) {
    let change = 0;
    let size = 0;
    for (const i of veils) {
      const other = patches.partner[i];
      const veiled = meanOverRays(through, gather, visible, other);
      for (let k = 0; k < TILES; k++) {
        const value = patches.transmittance[i] * (direct[TILES * other + k] + veiled);
        change += Math.abs(value - through[TILES * i + k]);
        size += value;
        through[TILES * i + k] = value;
      }
    }
    if (!(change > SETTLED * size)) break;
  }
  return through;
}

/** Mean of a tile quantity over the rays of one patch. */
function meanOverRays(values: Float64Array, gather: Gather, visible: Int32Array, patch: number): number {
  let sum = 0;
  for (let k = patch * gather.raysEach; k < (patch + 1) * gather.raysEach; k++) {
    const t = visible[k];
    if (t >= 0) sum += values[t];
  }
  return sum / gather.raysEach;
}
