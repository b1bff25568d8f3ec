/** What one eye mirrors into the camera: outlines by the law of reflection, what shows of them by rays. Powers and
 * colours only weigh it (catchlights.ts). */
import { directFlat, type Emitter, HIT, intensityPerLumen, PART_STRIDE, Tracer } from "../engine/index.ts";
import { dot, subtract } from "../math/index.ts";
import { type Outlines, outlinesOf } from "./catchlight-outlines.ts";
import { frontOfPanel, pointsOfFront, rimOfFront } from "./catchlight-sources.ts";
import { type Mirrored, meanOf, shares, traceWalls } from "./catchlight-walls.ts";
import { type Cornea, onIris, writeMirrorNormal } from "./cornea.ts";
import { middleOf, type Polygon, signedArea } from "./cornea-polygons.ts";
import { EYE_LIFT, EyeRays, type Place } from "./eye-rays.ts";
import type { Lighting } from "./lighting.ts";
import type { Memory } from "./memory.ts";
import { frontLuminance } from "./spot.ts";

/** Points of a front or a panel that are looked at, and steps across the iris for walls. */
const POINTS = { coarse: 16, fine: 64 } as const;
const STEPS = { coarse: 10, fine: 20 } as const;
/** Nearer than a spectacle lens, further than a lash: from here the iris is looked at. */
const IN_FRONT = 3e-3;

export interface EyeSeen {
  readonly mirrored: readonly Mirrored[];
  /** exposure of the iris, straight from each light, lx.s per lm.s */
  readonly irisDirect: readonly number[];
  /** the tile of the iris that stands for it; -1 where something covers it */
  readonly irisTile: number;
}

export function traceEye(lighting: Lighting, cornea: Cornea): EyeSeen {
  const { stage, quality } = lighting;
  const rays = new EyeRays(stage.tracer, cornea, 2 / STEPS[quality]);
  const opening = rays.opening();
  const lights = tracedLights(lighting, rays, opening);
  const things = tracedThings(lighting, rays, opening);
  return { mirrored: [...lights, ...things], ...lookAtIris(lighting, cornea) };
}

/** The same with what stands still kept, under `slot`: panels and walls as if no light's plate stood in their way. */
export function glanceAtEye(lighting: Lighting, cornea: Cornea, slot: string): EyeSeen {
  const { stage, memory, stillKey, quality } = lighting;
  const cell = 2 / STEPS[quality];
  const key = stillKey + JSON.stringify([cornea.camera, cornea.right]);
  const still = memory.recall(`${slot} still`, key, () => {
    const rays = new EyeRays(new Tracer({ ...stage.scene, emitters: [] }), cornea, cell);
    const opening = rays.opening();
    return { opening, things: tracedThings(lighting, rays, opening) };
  });
  const lights = tracedLights(lighting, new EyeRays(stage.tracer, cornea, cell), still.opening);
  return { mirrored: [...lights, ...still.things], ...lookAtIris(lighting, cornea) };
}

/** Lights alone, with what stands still kept in `memory`, under `slot`. */
export function lightsAtEye(lighting: Lighting, cornea: Cornea, memory: Memory, slot: string): EyeSeen {
  const { stage, stillKey, quality } = lighting;
  const cell = 2 / STEPS[quality];
  const opening = memory.recall(slot, stillKey + JSON.stringify([cornea.camera, cornea.right]), () =>
    new EyeRays(new Tracer({ ...stage.scene, emitters: [] }), cornea, cell).opening(),
  );
  const mirrored = tracedLights(lighting, new EyeRays(stage.tracer, cornea, cell), opening);
  return { mirrored, ...lookAtIris(lighting, cornea) };
}

function tracedLights({ stage, quality }: Lighting, rays: EyeRays, opening: Polygon): Mirrored[] {
  return stage.scene.emitters
    .map((e, l) => traceFront(rays, opening, e, "light", l, POINTS[quality]))
    .filter((front) => front !== null);
}

/** Panels and walls. */
function tracedThings(lighting: Lighting, rays: EyeRays, opening: Polygon): Mirrored[] {
  const { stage, quality } = lighting;
  const panels = stage.scene.quads
    .map((q, i) => traceFront(rays, opening, frontOfPanel(q), "panel", i, POINTS[quality]))
    .filter((front) => front !== null);
  return [...panels, ...traceWalls(lighting, rays, opening)];
}

function lookAtIris({ stage, parts }: Lighting, c: Cornea): Pick<EyeSeen, "irisDirect" | "irisTile"> {
  const { tracer } = stage;
  const [nx, ny, nz] = c.axis;
  const [x, y, z] = c.centre.map((p, k) => p + (c.radius + EYE_LIFT) * c.axis[k]);
  const irisDirect = parts.map((p, l) => directFlat(tracer, l, p, 0, 1, x, y, z, nx, ny, nz));
  const [ax, ay, az] = c.centre.map((p, k) => p + (c.radius + IN_FRONT) * c.axis[k]);
  const met = tracer.closest(ax, ay, az, -nx, -ny, -nz, 2 * IN_FRONT, false);
  return { irisDirect, irisTile: met && tracer.kind === HIT.mesh ? tracer.tile : -1 };
}

/** A light's front or a panel; null where a light shows the eye its back. */
function traceFront(
  rays: EyeRays,
  opening: Polygon,
  e: Emitter,
  kind: "light" | "panel",
  index: number,
  count: number,
): Mirrored | null {
  const { cornea: c, tracer } = rays;
  const toEye = subtract(c.centre, e.centre);
  // a bare lamp by its file may shine all round
  const allRound = e.shape === "point" && e.distribution !== null;
  if (kind === "light" && !allRound && !(dot(toEye, e.forward) > 0)) return null;
  const points = pointsOfFront(e, count);
  const normals: Float64Array[] = [];
  const places: Place[] = [];
  const at: Float64Array[] = [];
  for (let i = 0; i < points.count; i++) {
    const p = points.data.subarray(PART_STRIDE * i, PART_STRIDE * i + 3);
    const n = new Float64Array(3);
    writeMirrorNormal(c.centre, c.radius, c.camera, p, n);
    if (!(dot(n, c.axis) >= c.reach)) continue;
    normals.push(n);
    places.push(onIris(c, rays.pointOf(n, 0)));
    at.push(p);
  }
  const seen = rays.seenByCamera(places);
  const shown: Place[] = [];
  const tiles = new Map<number, number>();
  let perLumen = 0;
  places.forEach((place, i) => {
    if (!seen[i]) return;
    if (e.shape === "point") {
      const reflected = rays.seesPoint(normals[i], at[i], index);
      const sent = reflected > 0 && intensityTo(e, toEye) > 0;
      if (sent) perLumen = Number.POSITIVE_INFINITY;
      if (sent) shown.push(place);
      return;
    }
    const reflected = rays.castMirrored(normals[i]);
    const wanted = kind === "light" ? HIT.emitter : HIT.quad;
    if (!(reflected > 0) || tracer.kind !== wanted || tracer.index !== index) return;
    if (kind === "panel") tiles.set(tracer.tile, (tiles.get(tracer.tile) ?? 0) + reflected);
    else {
      const [x, y, z] = rays.pointOf(normals[i], EYE_LIFT);
      const [dx, dy, dz] = rays.lastWay();
      perLumen += reflected * frontLuminance(tracer, dx, dy, dz, x, y, z);
    }
    shown.push(place);
  });
  if (shown.length > 0) perLumen /= shown.length;
  const within = places.filter((_, i) => seen[i]);
  const outlines = outlinesOf(rays, opening, rimOfFront(e));
  return {
    kind,
    wall: "",
    light: kind === "light" ? index : -1,
    panel: kind === "panel" ? index : -1,
    ...outlines,
    share: shown.length / points.count,
    middle: middleShown(outlines, within, shown),
    cover: coverOf(rays, outlines.outline),
    perLumen,
    tiles: shares(tiles, shown.length),
  };
}

/** 1/sr of the light's energy; a lobe goes forward only. */
function intensityTo(e: Emitter, toEye: ArrayLike<number>): number {
  const length = Math.hypot(toEye[0], toEye[1], toEye[2]);
  const ahead = dot(toEye, e.forward) / length;
  if (e.distribution)
    return intensityPerLumen(e.distribution, ahead, dot(toEye, e.right) / length, dot(toEye, e.up) / length);
  return ahead > 0 ? ahead ** e.exponent : 0;
}

/** The middle of what lids leave, moved by what else hides: the outline is exact, the points are many. */
function middleShown(o: Outlines, within: readonly Place[], shown: readonly Place[]): Place {
  if (shown.length === 0 || o.outline.length === 0) return middleOf(o.whole);
  const [x, y] = middleOf(o.outline);
  const all = meanOf(within);
  const part = meanOf(shown);
  return [x + part[0] - all[0], y + part[1] - all[1]];
}

function coverOf(rays: EyeRays, outline: Polygon): number {
  return Math.abs(signedArea(outline)) / Math.abs(signedArea(rays.edge));
}
