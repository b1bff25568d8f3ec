/** Light over a map's cells: what comes straight from the lamps, and what bounces, evened out from cell to cell. */
import { hitEmitter } from "../engine/index.ts";
import { writeSpherePoint } from "../math/index.ts";
import { directAt, type Spot } from "./field.ts";
import type { Lighting } from "./lighting.ts";
import { evenOut, FIELD, type Grid } from "./map-even.ts";
import { type KeepGoing, step, within } from "./progress.ts";

export interface Cells extends Grid {
  readonly spots: readonly Spot[];
  /** tells this grid from others */
  readonly named: string;
  /** slot of the memory that it is kept in */
  readonly slot: string;
}

/** Cells next to each other look in other directions, PHASES each way before they repeat, so that what one misses its
 * neighbours see. Source: Keller and Heidrich 2001, Interleaved sampling. */
const PHASES = 3;
/** Rays a cell, and rounds of evening out. */
const LOOK = { coarse: { rays: 32, rounds: 1 }, fine: { rays: 160, rounds: 3 } } as const;
const FAR = 1e6;

/** All lights that are on together. Only bounced light is evened out: straight light has edges, and no grain. */
export function lightOver(lighting: Lighting, cells: Cells, keepGoing: KeepGoing): Float64Array {
  const { rays, rounds } = LOOK[lighting.quality];
  const out = bouncedOver(lighting, cells, rays, within(keepGoing, 0, 0.6));
  const open = openWays(lighting, cells);
  evenOut(out, cells, open, rounds);
  const { stage, parts } = lighting;
  stage.lights.forEach((light, l) => {
    step(keepGoing, 0.6 + (0.4 * l) / stage.lights.length);
    const direct = directAt(lighting, cells.slot, cells.named, cells.spots, l, parts);
    if (!light.on) return;
    const [r, g, b] = light.meterWeights;
    const white = light.lumenSeconds * (r + g + b);
    const width = direct.length / cells.spots.length;
    for (let i = 0; i < cells.spots.length; i++)
      for (let k = 0; k < FIELD; k++) out[FIELD * i + k] += white * direct[width * i + k];
  });
  for (let i = 0; i < cells.spots.length; i++) out[FIELD * i] += 4 * stage.ambient;
  return out;
}

interface Seen {
  /** by cell and ray: the tile that is met, -1 for none, and how far off */
  readonly tile: Int32Array;
  readonly distance: Float32Array;
}

function bouncedOver(lighting: Lighting, cells: Cells, rays: number, keepGoing: KeepGoing): Float64Array {
  const { memory, stillKey, lightKey, stage } = lighting;
  const ways = waysOf(rays);
  const { slot, named } = cells;
  const seen = memory.recall(`${slot} seen`, stillKey + named, () =>
    lookRound(lighting, cells, rays, ways, keepGoing),
  );
  const tiles = memory.recall(`${slot} unhidden`, lightKey + named, () => {
    const plates = stage.scene.emitters.filter((e) => e.shape !== "point");
    const tile = seen.tile.slice();
    for (let i = 0; i < cells.spots.length; i++) {
      const [x, y, z] = cells.spots[i].position;
      const first = rays * phaseOf(i, cells);
      for (let k = 0; k < rays; k++) {
        const at = rays * i + k;
        if (tile[at] < 0) continue;
        const w = 3 * (first + k);
        for (const plate of plates) {
          if (hitEmitter(plate, x, y, z, ways[w], ways[w + 1], ways[w + 2], seen.distance[at]) > 0) {
            tile[at] = -1;
            break;
          }
        }
      }
    }
    return tile;
  });
  return addUp(tiles, exitanceOf(lighting), cells, rays, ways);
}

/** A surface of exitance M has luminance M / pi. */
function addUp(
  tiles: Int32Array,
  exitance: Float64Array,
  cells: Cells,
  rays: number,
  ways: Float64Array,
): Float64Array {
  const out = new Float64Array(FIELD * cells.spots.length);
  const each = 4 / rays;
  for (let i = 0; i < cells.spots.length; i++) {
    const first = rays * phaseOf(i, cells);
    let [sum, x, y, z] = [0, 0, 0, 0];
    for (let k = 0; k < rays; k++) {
      const tile = tiles[rays * i + k];
      if (tile < 0) continue;
      const m = exitance[tile];
      const w = 3 * (first + k);
      sum += m;
      x += m * ways[w];
      y += m * ways[w + 1];
      z += m * ways[w + 2];
    }
    out[FIELD * i] = each * sum;
    out[FIELD * i + 1] = each * x;
    out[FIELD * i + 2] = each * y;
    out[FIELD * i + 3] = each * z;
  }
  return out;
}

/** What every tile sends back of all lights that are on, and lets through. */
function exitanceOf({ stage, exitance }: Lighting): Float64Array {
  let out = new Float64Array(0);
  stage.lights.forEach(({ on, lumenSeconds, meterWeights }, l) => {
    const { bounced, through } = exitance[l];
    if (out.length === 0) out = new Float64Array(through.length);
    if (!on) return;
    const [r, g, b] = meterWeights;
    for (let t = 0; t < out.length; t++)
      out[t] +=
        lumenSeconds *
        (r * bounced[3 * t] + g * bounced[3 * t + 1] + b * bounced[3 * t + 2] + (r + g + b) * through[t]);
  });
  return out;
}

function phaseOf(cell: number, { columns }: Cells): number {
  const [i, j] = [cell % columns, Math.floor(cell / columns)];
  return (i % PHASES) + PHASES * (j % PHASES);
}

/** Directions of every phase; together they are evenly spread as well. */
function waysOf(rays: number): Float64Array {
  const phases = PHASES * PHASES;
  const out = new Float64Array(3 * phases * rays);
  for (let phase = 0; phase < phases; phase++)
    for (let k = 0; k < rays; k++)
      writeSpherePoint(out, 3 * (phase * rays + k), phases * k + phase, phases * rays);
  return out;
}

function lookRound(
  lighting: Lighting,
  cells: Cells,
  rays: number,
  ways: Float64Array,
  keepGoing: KeepGoing,
): Seen {
  const { tracer } = lighting.stage;
  const count = cells.spots.length;
  const tile = new Int32Array(rays * count);
  const distance = new Float32Array(rays * count);
  for (let i = 0; i < count; i++) {
    if ((i & 63) === 0) step(keepGoing, i / count);
    const [x, y, z] = cells.spots[i].position;
    const first = rays * phaseOf(i, cells);
    for (let k = 0; k < rays; k++) {
      const w = 3 * (first + k);
      tracer.closest(x, y, z, ways[w], ways[w + 1], ways[w + 2], FAR, false);
      tile[rays * i + k] = tracer.tile;
      distance[rays * i + k] = tracer.t;
    }
  }
  return { tile, distance };
}

/** Of each cell, whether the way to the next one on and the next one up is free: 1 and 2. */
function openWays(lighting: Lighting, cells: Cells): Uint8Array {
  const { columns, rows, spots, slot, named } = cells;
  const { memory, lightKey, stage } = lighting;
  return memory.recall(`${slot} open`, lightKey + named, () => {
    const { tracer } = stage;
    const open = new Uint8Array(columns * rows);
    const isOpen = (from: number, to: number) => {
      const [ax, ay, az] = spots[from].position;
      const [bx, by, bz] = spots[to].position;
      const [dx, dy, dz] = [bx - ax, by - ay, bz - az];
      const far = Math.sqrt(dx * dx + dy * dy + dz * dz);
      return !tracer.closest(ax, ay, az, dx / far, dy / far, dz / far, far, true);
    };
    for (let j = 0; j < rows; j++)
      for (let i = 0; i < columns; i++) {
        const at = columns * j + i;
        if (i + 1 < columns && isOpen(at, at + 1)) open[at] |= 1;
        if (j + 1 < rows && isOpen(at, at + columns)) open[at] |= 2;
      }
    return open;
  });
}
