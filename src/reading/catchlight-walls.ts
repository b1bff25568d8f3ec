/** Walls and the backdrop in one eye, and what is kept of everything that is mirrored there. */
import { HIT } from "../engine/index.ts";
import { outlinesOf } from "./catchlight-outlines.ts";
import { isInRoom, type Rim, rimOfSheet, rimOfWall, WALL_NAMES } from "./catchlight-sources.ts";
import { writeNormalAt } from "./cornea.ts";
import { type Polygon, signedArea } from "./cornea-polygons.ts";
import type { EyeRays, Place } from "./eye-rays.ts";
import type { Lighting } from "./lighting.ts";
import type { Catchlight } from "./types.ts";

/** One source in one eye. Places in iris radii round the middle of the iris, right and up in the picture. */
export interface Mirrored {
  readonly kind: Catchlight["kind"];
  /** of a wall; lights and panels have numbers, so that a new name traces nothing */
  readonly wall: string;
  /** the light's or the panel's number, -1 for what is none */
  readonly light: number;
  readonly panel: number;
  /** the reflection on the cornea, and what lids and all else before the eye leave of it */
  readonly onCornea: Polygon;
  readonly outline: Polygon;
  /** share of the reflection that shows; the middle of that, or of all of it where nothing does */
  readonly share: number;
  readonly middle: Place;
  /** share of the iris that it covers */
  readonly cover: number;
  /** luminance of a light as it is mirrored, per lm.s; Infinity for a bare point */
  readonly perLumen: number;
  /** of the others: per tile of a surface, its part of what shows times what the cornea reflects */
  readonly tiles: ReadonlyMap<number, number>;
}

/** By looking from all over the eye: they are wide and fill it between them. */
export function traceWalls({ stage }: Lighting, rays: EyeRays, opening: Polygon): Mirrored[] {
  const { cornea: c, tracer } = rays;
  const { meshes, room } = stage.scene;
  const found = new Map<string, { places: Place[]; tiles: Map<number, number>; rim: Rim }>();
  const n = new Float64Array(3);
  const inside = isInRoom(stage, c.centre);
  for (const place of rays.grid) {
    if (!writeNormalAt(c, place[0], place[1], n)) continue;
    const reflected = rays.castMirrored(n);
    if (!(reflected > 0) || tracer.tile < 0) continue;
    const { kind, index, tile } = tracer;
    const isBackdrop = kind === HIT.mesh && stage.owners[index].kind === "backdrop";
    if (!isBackdrop && !(kind === HIT.room && inside)) continue;
    const name = isBackdrop ? "backdrop" : WALL_NAMES[index];
    let wall = found.get(name);
    if (!wall) {
      const rim = isBackdrop ? rimOfSheet(meshes[index]) : rimOfWall(room?.size ?? [0, 0, 0], index);
      wall = { places: [], tiles: new Map(), rim };
      found.set(name, wall);
    }
    wall.places.push(place);
    wall.tiles.set(tile, (wall.tiles.get(tile) ?? 0) + reflected);
  }
  return [...found].map(([name, { places, tiles, rim }]) => {
    const outlines = outlinesOf(rays, opening, rim);
    const area = places.length * rays.cell * rays.cell;
    return {
      kind: "wall",
      wall: name,
      light: -1,
      panel: -1,
      onCornea: outlines.onCornea,
      outline: outlines.outline,
      share: Math.min(1, area / Math.abs(signedArea(outlines.onCornea))),
      middle: meanOf(places),
      cover: area / Math.abs(signedArea(rays.edge)),
      perLumen: 0,
      tiles: shares(tiles, places.length),
    };
  });
}

export function meanOf(places: readonly Place[]): Place {
  const sum: Place = [0, 0];
  for (const [x, y] of places) {
    sum[0] += x / places.length;
    sum[1] += y / places.length;
  }
  return sum;
}

/** Sums per tile as shares of so many places. */
export function shares(tiles: Map<number, number>, count: number): Map<number, number> {
  return new Map([...tiles].map(([tile, sum]) => [tile, sum / count]));
}
