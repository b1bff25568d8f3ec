/** Light in is light absorbed, by nothing but meters: what arrives on walls, panels and the plates of lights, each times
 * what it keeps. Where a person takes light in, a closed box of meters round them tells how much: the light vector's net
 * flow into a box is what is lost inside it (Gershun 1936). */
import { gaussLegendre } from "../src/math/index.ts";
import type { Check } from "./checks.ts";
import { grey, type Held, isotropic, once, type Point, readHeld } from "./plans.ts";
import { flux, OFF_WALL, outward, type WallMeter, wallMeters } from "./walls.ts";

const LUMENS = 1000;
const DEGREE = Math.PI / 180;

/** A flat thing: where its middle is, where its front looks, what it keeps of the light that arrives. */
interface Plate {
  readonly position: Point;
  readonly bearing: number;
  readonly tilt: number;
  readonly keeps: number;
}
/** A place on a plate, metres along its width and its height, and the area that it stands for. */
type Spread = readonly (readonly [number, number, number])[];

/** What a plate takes in on both sides, lm. */
function takenBy(plate: Plate, spread: Spread, parts: object): number {
  const { position, bearing, tilt, keeps } = plate;
  const [sb, cb, st, ct] = [bearing, tilt].flatMap((x) => [Math.sin(x * DEGREE), Math.cos(x * DEGREE)]);
  const forward = [sb * ct, cb * ct, st];
  const right = [cb, -sb, 0];
  const up = [-sb * st, -cb * st, ct];
  const at = (u: number, v: number, off: number, k: number) =>
    position[k] + u * right[k] + v * up[k] + off * forward[k];
  const held = [1, -1].flatMap((side) =>
    spread.map(([u, v]): Held => {
      const off = side * OFF_WALL;
      return {
        position: [at(u, v, off, 0), at(u, v, off, 1), at(u, v, off, 2)],
        direction: side > 0 ? { bearing, tilt } : { bearing: bearing - 180, tilt: -tilt },
      };
    }),
  );
  const readings = readHeld(parts, held);
  return readings.reduce((sum, r, i) => sum + keeps * spread[i % spread.length][2] * r.luxSeconds, 0);
}

function overRectangle(width: number, height: number, points: number): Spread {
  const { nodes, weights } = gaussLegendre(points);
  return Array.from(nodes).flatMap((x, i) =>
    Array.from(nodes, (y, j): [number, number, number] => [
      (width / 2) * x,
      (height / 2) * y,
      (width * height * weights[i] * weights[j]) / 4,
    ]),
  );
}

/** Gauss points from the middle to the rim and across each of the eight sides, of which one is on top. */
function overOctagon(across: number, points: number): Spread {
  const { nodes, weights } = gaussLegendre(points);
  const half = Math.PI / 8;
  return [0, 1, 2, 3, 4, 5, 6, 7].flatMap((side) =>
    Array.from(nodes).flatMap((x, i) => {
      const a = half * (2 * side + x);
      const rim = across / 2 / Math.cos(half * x);
      return Array.from(nodes, (y, j): [number, number, number] => {
        const r = (rim * (y + 1)) / 2;
        return [r * Math.sin(a), r * Math.cos(a), (half * weights[i] * r * rim * weights[j]) / 2];
      });
    }),
  );
}

type Room = { width: number; depth: number; height: number; reflectance: ReturnType<typeof grey> };

function takenByWalls(room: Room, parts: object, spread: [number, number], skip?: (m: WallMeter) => boolean) {
  const meters = wallMeters([0, 0, 0], [room.width, room.depth, room.height], spread[0], { cell: spread[1] });
  const counted = meters.filter((m) => !skip?.(m));
  const readings = readHeld(
    { ...parts, room },
    counted.map(({ held }) => held),
  );
  return flux(counted, readings, (r, m) => (1 - room.reflectance[m.side]) * r.luxSeconds);
}

const octagon = (position: Point, bearing: number, tilt: number) => ({
  position,
  direction: { bearing, tilt },
  face: { shape: "polygon", sides: 8, width: 1.5 },
  output: { lumenSeconds: LUMENS },
});

const cube: Room = { width: 4, depth: 4, height: 4, reflectance: grey(0.9) };

const studioRoom: Room = {
  width: 7,
  depth: 9,
  height: 3.4,
  reflectance: { ...grey(0.6), floor: 0.35, ceiling: 0.75 },
};
const softbox = { position: [4.5, 3.6, 2.2], bearing: 315, tilt: -35, keeps: 1 } as const;
const vFlat = { position: [2.2, 4.7, 1.25], bearing: 100, tilt: 0, keeps: 0.15 } as const;
const studio = {
  room: studioRoom,
  lights: [octagon(softbox.position, softbox.bearing, softbox.tilt)],
  panels: [
    { position: vFlat.position, direction: { bearing: 100 }, width: 1.2, height: 2.4, reflectance: 0.85 },
  ],
};

const sitterRoom: Room = { width: 6, depth: 7, height: 3, reflectance: grey(0.7) };
const keyPlate = { position: [4, 2.3, 2.1], bearing: 330, tilt: -20, keeps: 1 } as const;
const sitter = {
  room: sitterRoom,
  lights: [octagon(keyPlate.position, keyPlate.bearing, keyPlate.tilt)],
  people: [{ position: [3, 4], stature: 1.7 }],
};
/** Room round a standing person, whole cells of the floor's grid; the floor in it counts with the person. */
const BOX: readonly [Point, Point] = [
  [2, 3, 0],
  [4, 5, 2],
];
function lostInBox(): number {
  const meters = wallMeters(...BOX, 2, { cell: 0.5, off: 0 }).filter(({ side }) => side !== "floor");
  const readings = readHeld(
    sitter,
    meters.map(({ held }) => held),
  );
  return flux(meters, readings, (r, m) => {
    if (r.vector.bearing === null || r.vector.tilt === null) return 0;
    const level = Math.cos(r.vector.tilt * DEGREE);
    const from = [
      level * Math.sin(r.vector.bearing * DEGREE),
      level * Math.cos(r.vector.bearing * DEGREE),
      Math.sin(r.vector.tilt * DEGREE),
    ];
    const out = outward(m.side);
    // the vector points to where light comes from: out of the box where light goes in
    return r.vector.luxSeconds * (from[0] * out[0] + from[1] * out[1] + from[2] * out[2]);
  });
}
const inBox = ({ side, held }: WallMeter) =>
  side === "floor" && [0, 1].every((k) => held.position[k] > BOX[0][k] && held.position[k] < BOX[1][k]);
/** 2 Gauss points each way in cells of at most 1 m: cells of half a metre change the sum on a studio's walls by 0.03 %. */
const CELLS: [number, number] = [2, 1];
const studioParts = once(() => ({
  walls: takenByWalls(studioRoom, studio, CELLS),
  light: takenBy(softbox, overOctagon(1.5, 2), studio),
  panel: takenBy(vFlat, overRectangle(1.2, 2.4, 4), studio),
}));
const sitterParts = once(() => ({
  walls: takenByWalls(sitterRoom, sitter, CELLS, inBox),
  light: takenBy(keyPlate, overOctagon(1.5, 2), sitter),
  box: lostInBox(),
}));

const balance = (id: string, what: string, ours: () => number): Check => ({
  id: `law energy ${id}`,
  what: `light that meters find taken in over light that left the lamp: ${what}`,
  source: "conservation of energy: 1 = 1",
  published: 1,
  ours,
  tolerance: 0.005,
  why: "asked: 0.5 %; the grid of meters takes a tenth of that",
});

export const checks: Check[] = [
  balance(
    "cube",
    "a white cube, reflectance 0.9, light the same all round from its middle",
    () => takenByWalls(cube, { lights: isotropic([2, 2, 2], LUMENS) }, [6, 4]) / LUMENS,
  ),
  balance(
    "studio",
    "a studio with an octagonal front and a V-flat: walls, panel and the light's plate",
    () => {
      const { walls, light, panel } = studioParts();
      return (walls + light + panel) / LUMENS;
    },
  ),
  balance(
    "sitter",
    "a room with a person: walls, the light's plate, and what goes into a box round them",
    () => {
      const { walls, light, box } = sitterParts();
      return (walls + light + box) / LUMENS;
    },
  ),
];
