/** CIE 171:2006 cases 5.6 and 5.7: light that a lit surface reflects onto others, with and without something between. */
import { addFlatViews, SceneBuilder, TILES, Tracer, ViewList, WALL, WEIGHTS } from "../src/engine/index.ts";
import type { Check } from "./checks.ts";

const BLACK = [0, 0, 0] as const;
const POINT_HEIGHTS_A = [0.25, 0.75, 1.25, 1.75, 2.25, 2.75];

function room(box: boolean, floor?: number): Tracer {
  const b = new SceneBuilder();
  b.addRoom([4, 4, 3], [BLACK, BLACK, BLACK, BLACK, BLACK, BLACK], true, 1);
  const flat = (centre: number[], right: number[], up: number[], forward: number[], w: number, h: number) =>
    b.addPanel(
      {
        centre: Float64Array.from(centre),
        right: Float64Array.from(right),
        up: Float64Array.from(up),
        forward: Float64Array.from(forward),
      },
      w,
      h,
      BLACK,
      0,
      1,
    );
  if (box) {
    flat([2, 2.5, 0.5], [1, 0, 0], [0, 0, 1], [0, -1, 0], 4, 1);
    flat([2, 2.7, 0.5], [1, 0, 0], [0, 0, 1], [0, 1, 0], 4, 1);
    flat([2, 2.6, 1], [1, 0, 0], [0, 1, 0], [0, 0, 1], 4, 0.2);
  }
  if (floor) flat([2, 2, 1e-4], [1, 0, 0], [0, 1, 0], [0, 0, 1], floor, floor);
  return new Tracer(b.build());
}

/** F = E / (E_hz rho), in %, where all tiles from patch `first` on, `patches` of them, send out the same. */
function share(t: Tracer, first: number, patches: number, p: number[], n: number[]): number {
  const list = new ViewList();
  addFlatViews(t, p, n, list);
  list.close();
  const views = list.views();
  let flat = 0;
  views.tile.forEach((tile, k) => {
    if (tile >= TILES * first && tile < TILES * (first + patches)) flat += views.weight[WEIGHTS * k + 4];
  });
  return (100 * flat) / Math.PI;
}

function wallShare(t: Tracer, wall: number, p: number[], n: number[]): number {
  const r = t.scene.room;
  if (!r) throw new Error("no room");
  return share(t, r.first[wall], r.across[wall] * r.upward[wall], p, n);
}

const WHY = "asked of the exact values: 0.5 %";
const row = (id: string, what: string, published: number, ours: () => number): Check => ({
  id: `7 ${id}`,
  what,
  source: `CIE 171:2006 case ${id.slice(0, 3)}, F = E / (E_hz rho) in %; exact by Lambert's polygon formula`,
  published,
  ours,
  tolerance: 0.005,
  why: WHY,
});

const onWall = (z: number) => [2, 0, z];
const INWARD = [0, 1, 0];
const ceilings = [0.25, 0.75, 1.25, 1.75];

const whole: Check[] = [
  ...[35.9005, 27.9916, 21.6385, 16.7163, 12.9674].map((f, i) =>
    row(`5.6 wall ${"BCDEF"[i]}`, "wall over a lit floor 4 x 4 m", f, () =>
      wallShare(room(false), WALL.floor, onWall(0.75 + 0.5 * i), INWARD),
    ),
  ),
  ...[26.7952, 30.9387, 33.9757, 35.5666].map((f, i) =>
    row(`5.6 ceiling ${"GHIJ"[i]}`, "ceiling over a lit floor 4 x 4 m", f, () =>
      wallShare(room(false), WALL.floor, [2, ceilings[i], 3], [0, 0, -1]),
    ),
  ),
];

/** The small floor is a panel a tenth of a millimetre over the floor. */
function smallShare(p: number[], n: number[]): number {
  const t = room(false, 0.5);
  const q = t.scene.quads[0];
  return share(t, q.frontPatch, q.cellsAcross * q.cellsUp, p, n);
}

const small: Check[] = [
  ...[0.24581, 0.579936, 0.644366, 0.556354, 0.433296, 0.325109].map((f, i) =>
    row(`5.6 small wall ${"ABCDEF"[i]}`, "wall over a lit square of 0.5 m", f, () =>
      smallShare(onWall(POINT_HEIGHTS_A[i]), INWARD),
    ),
  ),
  ...[0.491396, 0.63913, 0.777645, 0.86426].map((f, i) =>
    row(`5.6 small ceiling ${"GHIJ"[i]}`, "ceiling over a lit square of 0.5 m", f, () =>
      smallShare([2, ceilings[i], 3], [0, 0, -1]),
    ),
  ),
];

const obstructed: Check[] = [
  ...[16.0706, 16.3297, 15.3988, 13.322, 10.3169, 7.07897].map((f, i) =>
    row(`5.7 wall ${"ABCDEF"[i]}`, "wall across from a lit wall, a black box between", f, () =>
      wallShare(room(true), WALL.far, onWall(2.75 - 0.5 * i), INWARD),
    ),
  ),
  ...[3.38234, 3.62899, 3.01295, 0, 0].map((f, i) =>
    row(`5.7 floor ${"GHIJK"[i]}`, "floor before a lit wall, a black box between", f, () =>
      wallShare(room(true), WALL.far, [2, 0.25 + 0.5 * i, 0], [0, 0, 1]),
    ),
  ),
];

export const checks: Check[] = [...whole, ...small, ...obstructed];
