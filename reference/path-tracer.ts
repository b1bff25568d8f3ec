/** Our side of the check against a path tracer: the scenes of cycles/scenes.json, and irradiance at the table's points. */
import { readFileSync } from "node:fs";
import {
  addFlatViews,
  askedFace,
  behindPlates,
  directByShare,
  directOnTiles,
  gatherPatches,
  HIT,
  type PatchedMesh,
  patchMesh,
  SceneBuilder,
  SUBSETS,
  solveExitance,
  TILES,
  Tracer,
  ViewList,
  viewFactors,
  WEIGHTS,
} from "../src/engine/index.ts";
import { writeSpherePoint } from "../src/math/index.ts";

interface Placed {
  readonly centre: number[];
  readonly aimAt: number[];
}

interface SceneText {
  readonly heads: readonly { rotation: number[]; offset: number[]; reflectance: number }[];
  readonly lights: readonly (Placed & { radius: number })[];
  readonly panels: readonly (Placed & {
    width: number;
    height: number;
    reflectance: number;
    transmittance: number;
  })[];
  readonly room: { size: [number, number, number]; walls: number; ceiling: number; floor: number } | null;
}

export interface Point {
  readonly position: number[];
  readonly normal: number[];
  readonly irradiance: number;
  readonly direct: number;
}

const read = (name: string) => JSON.parse(readFileSync(`reference/cycles/${name}`, "utf8"));

export const SCENES = ["bare", "room", "scrim", "twoHeads"] as const;
export type SceneName = (typeof SCENES)[number];

export function pointsOf(name: SceneName): Point[] {
  const rows: number[][] = read("values.json").scenes[name].points;
  return rows.map((r) => ({
    position: r.slice(3, 6),
    normal: r.slice(6, 9),
    irradiance: r[9],
    direct: r[10],
  }));
}

/** Height of a patch of the head: as the product's own. */
const BAND = 0.03;
const WALL_CELL = 1;
const PANEL_CELL = 0.45;

let head: PatchedMesh | null = null;

function frozenHead(): PatchedMesh {
  if (head) return head;
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const line of readFileSync("reference/cycles/head.obj", "utf8").split("\n")) {
    const [kind, ...rest] = line.split(/\s+/);
    if (kind === "v") positions.push(...rest.slice(0, 3).map(Number));
    if (kind === "f") triangles.push(...rest.slice(0, 3).map((x) => Number.parseInt(x, 10) - 1));
  }
  head = patchMesh(
    {
      positions: Float64Array.from(positions),
      normals: new Float64Array(positions.length),
      triangles: Uint32Array.from(triangles),
      materials: new Uint8Array(triangles.length / 3),
    },
    BAND,
  );
  return head;
}

/** Right, up and forward as the scenes mean them: up as near to upright as it can be. */
function frame({ centre, aimAt }: Placed) {
  const f = unit([0, 1, 2].map((k) => aimAt[k] - centre[k]));
  const pole = Math.abs(f[2]) < 0.999 ? [0, 0, 1] : [0, 1, 0];
  const right = unit(cross(pole, f));
  const up = cross(f, right);
  return {
    centre: Float64Array.from(centre),
    right: Float64Array.from(right),
    up: Float64Array.from(up),
    forward: Float64Array.from(f),
  };
}

function cross(a: number[], b: number[]): number[] {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function unit(a: number[]): number[] {
  const length = Math.hypot(...a);
  return a.map((x) => x / length);
}

export function tracerOf(name: SceneName): Tracer {
  const scene: SceneText = read("scenes.json").scenes[name];
  const b = new SceneBuilder();
  if (scene.room) {
    const { size, walls, floor, ceiling } = scene.room;
    const looks = [walls, walls, walls, walls, floor, ceiling].map((r) => [r, r, r] as const);
    b.addRoom(size, looks, true, WALL_CELL);
  }
  for (const h of scene.heads) {
    const r = h.reflectance;
    b.addMesh(frozenHead(), Float64Array.from(h.rotation), Float64Array.from(h.offset), [[r, r, r]]);
  }
  for (const p of scene.panels)
    b.addPanel(
      frame(p),
      p.width,
      p.height,
      [p.reflectance, p.reflectance, p.reflectance],
      p.transmittance,
      PANEL_CELL,
    );
  for (const l of scene.lights)
    b.addEmitter({
      shape: "disc",
      ...frame(l),
      halfWidth: l.radius,
      halfHeight: l.radius,
      sides: 0,
      exponent: 1,
      edgeDrop: 0,
      distribution: null,
    });
  return new Tracer(b.build());
}

/** How much work: rays from a point of each patch, parts of a light's face at a point, directions that look round. */
export interface Effort {
  readonly patchRays: number;
  readonly rings: number;
  readonly points: number;
  readonly look: number;
  /** walls and panels tile by tile in closed form, as meters see them, or by the same directions, as faces do */
  readonly exactly: boolean;
}

/** Points are rounded to a micrometre. */
const LIFT = 2e-5;

/** Irradiance (lm/m2 for 1 lm) at each point, and what comes straight from the lamp alone. */
export function irradianceOf(
  name: SceneName,
  points: readonly Pick<Point, "position" | "normal">[],
  effort: Effort,
): { irradiance: Float64Array; direct: Float64Array } {
  const tracer = tracerOf(name);
  const { patches, emitters } = tracer.scene;
  const gather = gatherPatches(tracer, effort.patchRays);
  const visible = behindPlates(gather, emitters);
  const views = viewFactors(gather, visible, patches);
  const onTiles = new Float64Array(TILES * patches.count);
  const tileFace = askedFace(emitters[0], 2, SUBSETS);
  for (let p = 0; p < patches.count; p++) directOnTiles(tracer, 0, tileFace, p, onTiles);
  const sent = solveExitance(tracer, gather, visible, views, onTiles);
  const face = askedFace(emitters[0], effort.rings, effort.points);
  const direct = new Float64Array(points.length);
  const irradiance = new Float64Array(points.length);
  points.forEach(({ position, normal }, i) => {
    const p = position.map((x, k) => x + LIFT * normal[k]);
    direct[i] = directByShare(tracer, 0, face, p[0], p[1], p[2], normal[0], normal[1], normal[2]);
    irradiance[i] = direct[i] + fromSurfaces(tracer, p, normal, sent, effort);
  });
  return { irradiance, direct };
}

function fromSurfaces(
  tracer: Tracer,
  p: number[],
  n: number[],
  sent: { through: Float64Array; bounced: Float64Array },
  { look, exactly }: Effort,
): number {
  const list = new ViewList();
  const d = new Float64Array(3);
  const solid = (2 * Math.PI) / look;
  for (let k = 0; k < look; k++) {
    writeSpherePoint(d, 0, k, look);
    // below the horizon turned over: the half-sphere is covered, each direction for half of what it would weigh
    const facing = d[0] * n[0] + d[1] * n[1] + d[2] * n[2];
    const s = facing < 0 ? -1 : 1;
    tracer.closest(p[0], p[1], p[2], s * d[0], s * d[1], s * d[2], 1e6, false);
    if (tracer.tile < 0 || (exactly && tracer.kind !== HIT.mesh)) continue;
    list.add(p[0], p[1], p[2], s * d[0], s * d[1], s * d[2], tracer.t, tracer.tile);
    list.weigh(solid, 0, 0, 0, solid * Math.abs(facing));
  }
  if (exactly) addFlatViews(tracer, p, n, list);
  list.close();
  const views = list.views();
  const visible = behindPlates(views, tracer.scene.emitters);
  let sum = 0;
  for (let k = 0; k < visible.length; k++) {
    const t = visible[k];
    if (t >= 0) sum += ((sent.through[t] + sent.bounced[3 * t]) / Math.PI) * views.weight[WEIGHTS * k + 4];
  }
  return sum;
}
