/** CIE 171:2006 cases 5.2, 5.3 and 5.4 as plans, read with meters: from the file format down to the printed number. */
import type { MeterReading } from "../src/reading/index.ts";
import type { Check } from "./checks.ts";
import { grey, type Held, isotropic, once, readHeld } from "./plans.ts";
import { flux, type Side, type WallMeter, wallMeters } from "./walls.ts";

const EXACT = "tables as transcribed in public, values derived again to six figures";
const DIRECT = {
  tolerance: 0.005,
  why: "direct, unobstructed light is asked to 0.5 % of the exact values",
} as const;

/** 5.2: 1000 cd straight down from 3 m; nothing else is there, so the floor is the plane of the meters. */
const floorPoints: [string, number, number, number][] = [
  ["A", 0, 0, 111.111],
  ["B", 0.5, 0, 105.186],
  ["C", 1, 0, 90],
  ["D", 1.5, 0, 71.1111],
  ["E", 0.5, 0.5, 99.723],
  ["F", 1, 0.5, 85.6633],
  ["G", 1.5, 0.5, 68.0529],
  ["H", 1, 1, 74.3802],
  ["I", 1.5, 1, 59.975],
  ["J", 1.5, 1.5, 49.3827],
];
const UP = { bearing: 0, tilt: 90 };
const DOWN = { bearing: 0, tilt: -90 };
const pointRoom = once(() =>
  readHeld(
    {
      lights: [
        {
          position: [0, 0, 3],
          direction: DOWN,
          face: { shape: "point" },
          beam: { exponent: 1 },
          output: { lumenSeconds: 1000 * Math.PI },
        },
      ],
    },
    floorPoints.map(([, x, y]): Held => ({ position: [x, y, 0], direction: UP })),
  ),
);

/** 5.3 and 5.4: the room of 4 x 4 x 3 m. It is black, so that its walls only stand in the way: they stand this far
 * behind the planes of the case, and panel and meters lie in those planes exactly. A panel in the plane of the ceiling
 * would be hidden by it, and a meter in the plane of a wall would see nothing. Shadows do not come into it. */
const BEHIND = 1e-3;
const inCase = (x: number, y: number, z: number): [number, number, number] => [
  x + BEHIND,
  y + BEHIND,
  z + BEHIND,
];
const blackRoom = {
  width: 4 + 2 * BEHIND,
  depth: 4 + 2 * BEHIND,
  height: 3 + 2 * BEHIND,
  reflectance: grey(0),
};
const onWall = [32.6769, 75.1939, 81.3232, 69.0606, 53.4035, 40.0019];
const onFloor = [61.4241, 79.2552, 95.6673, 105.778];
const panelPlaces: [string, string, number, Held][] = [
  ...onWall.map((lux, i): [string, string, number, Held] => {
    const z = 2.75 - 0.5 * i;
    return ["ABCDEF"[i], `wall at ${z} m`, lux, { position: inCase(2, 0, z), direction: { bearing: 0 } }];
  }),
  ...onFloor.flatMap((lux, i) =>
    [0.25 + 0.5 * i, 3.75 - 0.5 * i].map((y, far): [string, string, number, Held] => [
      ["GHIJ", "NMLK"][far][i],
      `floor at ${y} m`,
      lux,
      { position: inCase(2, y, 0), direction: UP },
    ]),
  ),
];
const panelRoom = once(() =>
  readHeld(
    {
      room: blackRoom,
      lights: [
        {
          position: inCase(2, 2, 3),
          direction: DOWN,
          face: { shape: "rectangle", width: 1, height: 1 },
          beam: { exponent: 1 },
          output: { lumenSeconds: 1000 * Math.PI },
        },
      ],
    },
    panelPlaces.map(([, , , held]) => held),
  ),
);

/** 8 Gauss points each way on a wall: light from the middle of the room is so smooth there that more change nothing in
 * the sixth figure. An even count keeps them off the plane in which the two half-space points meet. */
const conserved = once(() => {
  const meters = wallMeters(inCase(0, 0, 0), inCase(4, 4, 3), 8, { off: 0 });
  const parts = { room: blackRoom, lights: isotropic(inCase(2, 2, 1.5), 10000) };
  return {
    meters,
    readings: readHeld(
      parts,
      meters.map(({ held }) => held),
    ),
  };
});
const lumens = (...sides: Side[]): number => {
  const { meters, readings } = conserved();
  const on = (reading: MeterReading, meter: WallMeter) =>
    sides.length === 0 || sides.includes(meter.side) ? reading.luxSeconds : 0;
  return flux(meters, readings, on);
};
const flow = (id: string, what: string, published: number, ours: () => number): Check => ({
  id: `7 5.4 plan ${id}`,
  what,
  source: "CIE 171:2006 case 5.4, flux conservation; shares of the walls by integration",
  published,
  ours,
  ...DIRECT,
});

export const checks: Check[] = [
  ...floorPoints.map(
    ([name, x, y, lux], i): Check => ({
      id: `7 5.2 plan ${name}`,
      what: `Lambertian point of 1000 cd at 3 m, meter at ${x}, ${y}, lx`,
      source: `CIE 171:2006 case 5.2, ${EXACT}: I h^2 / d^4`,
      published: lux,
      ours: () => pointRoom()[i].luxSeconds,
      ...DIRECT,
    }),
  ),
  ...panelPlaces.map(
    ([name, where, lux], i): Check => ({
      id: `7 5.3 plan ${name}`,
      what: `panel of 1 m2 and 1000 cd/m2 in the ceiling, meter on the ${where}, lx`,
      source: `CIE 171:2006 case 5.3, ${EXACT} by Lambert's polygon formula`,
      published: lux,
      ours: () => panelRoom()[i].luxSeconds,
      ...DIRECT,
    }),
  ),
  flow("all", "10,000 lm isotropic in a black room: sum of E dA over meters on all walls, lm", 10000, () =>
    lumens(),
  ),
  flow("mean", "the same, mean over 80 m2, lx", 125, () => lumens() / 80),
  flow("floor", "the same, on the floor, lm", 2210.66, () => lumens("floor")),
  flow("ceiling", "the same, on the ceiling, lm", 2210.66, () => lumens("ceiling")),
  ...(["near", "far", "left", "right"] as const).map((side) =>
    flow(side, `the same, on the ${side} wall, lm`, 1394.67, () => lumens(side)),
  ),
];
