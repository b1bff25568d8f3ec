/** Set-ups drawn by chance as somebody might build them: a room with its paint, a person, a camera at an ordinary distance,
 * one or two lights that clear everything and are not in the frame. Seeded: the same number gives the same set-up.
 * What counts as ordinary is common practice, no source. */
import { Pcg32 } from "../src/math/index.ts";
import { axesOf, directionOf, faceOutline, type Light, type Plan } from "../src/plan/index.ts";
import { stagePerson } from "../src/staging/index.ts";
import { planOf } from "./plans.ts";

export type Draw = (low: number, high: number) => number;

export function drawsOf(seed: number, stream: number): Draw {
  const chance = new Pcg32(seed, stream);
  return (low, high) => low + (high - low) * chance.next();
}

export const pick = <T>(draw: Draw, ...from: readonly T[]): T => from[Math.floor(draw(0, from.length))];

/** As a file would have it: centimetres for lengths, tenths else. */
const cm = (x: number) => Math.round(100 * x) / 100;
const tenth = (x: number) => Math.round(10 * x) / 10;

export const FRONTS = [
  { name: "reflector 18", face: { shape: "disc", width: 0.18 }, beam: { exponent: 3 } },
  { name: "dish 55", face: { shape: "disc", width: 0.55 }, beam: { exponent: 1.6 } },
  { name: "box 60 x 90", face: { shape: "rectangle", width: 0.6, height: 0.9 } },
  { name: "strip 30 x 120", face: { shape: "rectangle", width: 0.3, height: 1.2 } },
  { name: "octa 90", face: { shape: "polygon", sides: 8, width: 0.9 } },
  { name: "octa 120", face: { shape: "polygon", sides: 8, width: 1.2 }, beam: { edgeDrop: 0.5 } },
  { name: "octa 150", face: { shape: "polygon", sides: 8, width: 1.5 }, beam: { edgeDrop: 0.6 } },
] as const;
export type Front = (typeof FRONTS)[number];

const HEAD = { wattSeconds: 500, lumensPerWatt: 35, efficiency: 0.55 } as const;
/** Stops from full to least on these heads. */
const DIAL = { range: 8, step: 0.1 } as const;
const STAND = { lowest: 0.5, highest: 3, boom: 1 } as const;
/** Air that a brief keeps, and what of it these set-ups keep at least: nobody measures to the last centimetre. */
const AIR = { toWalls_m: 0.08, toHead_m: 0.62, toBody_m: 0.78 } as const;

/** Room, person and camera without a light. */
export function drawPlace(draw: Draw): object {
  const room = { width: cm(draw(3.6, 7.5)), depth: cm(draw(5, 9)), height: cm(draw(2.5, 3.8)) };
  const paint = pick(draw, 0.1, 0.3, 0.5, 0.6, 0.8);
  const pose = draw(0, 1) < 0.3 ? "seated" : "standing";
  const stature = cm(draw(1.55, 1.9));
  const x = room.width / 2 + draw(-0.15, 0.15) * room.width;
  const y = room.depth * draw(0.45, 0.65);
  const person = {
    name: "cellist",
    position: [cm(x), cm(y)],
    stature,
    facing: tenth(180 + draw(-15, 15)),
    pose,
    head: { turn: tenth(draw(-20, 20)), tip: tenth(draw(-6, 6)) },
    hair: { length: pick(draw, "none", "short", "shoulder") },
    skin: { reflectance: { tone: pick(draw, "light", "intermediate", "tan", "brown") } },
  };
  const eyes = stagePerson(planOf({ room, people: [person] }).people[0], planOf({ room })).shape.earHeight;
  const far = draw(1.6, Math.min(3.2, y - 0.4));
  const round = (draw(-12, 12) * Math.PI) / 180;
  const aim = [cm(x), cm(y), cm(eyes - 0.06)];
  const from = [cm(x + far * Math.sin(round)), cm(y - far * Math.cos(round)), cm(eyes + draw(-0.15, 0.1))];
  return {
    room: {
      ...room,
      reflectance: {
        floor: pick(draw, 0.15, 0.35, 0.5),
        ceiling: pick(draw, 0.3, 0.75, 0.85),
        near: paint,
        far: paint,
        left: paint,
        right: paint,
      },
    },
    people: [person],
    camera: {
      position: from,
      direction: { at: aim },
      focalLength: far < 2 ? 85 : far < 2.7 ? 105 : 135,
      fNumber: 8,
    },
  };
}

/** A light round a person's head, as it would be put there: mostly aimed at the face, now and then past it. */
export function drawLight(
  draw: Draw,
  plan: Plan,
  name: string,
  front: Front,
  round: readonly [number, number],
) {
  const [person] = plan.people;
  const staged = stagePerson(person, plan);
  const head = [...person.position, staged.shape.earHeight] as const;
  const way = ((person.facing - person.head.turn + draw(...round) * pick(draw, -1, 1)) * Math.PI) / 180;
  const up = (draw(-8, 58) * Math.PI) / 180;
  const far = draw(0.9, 2.4);
  const at = [
    head[0] + far * Math.cos(up) * Math.sin(way),
    head[1] + far * Math.cos(up) * Math.cos(way),
    head[2] + far * Math.sin(up),
  ].map(cm);
  const past = draw(0, 1) < 0.25 ? draw(-0.4, 0.4) : 0;
  const stopsDown = tenth(draw(0, DIAL.range));
  return {
    name,
    position: at,
    direction: { at: [cm(head[0] + past * Math.cos(way)), cm(head[1] - past * Math.sin(way)), cm(head[2])] },
    roll: 0,
    face: front.face,
    ...("beam" in front ? { beam: front.beam } : {}),
    output: { ...HEAD, stopsDown },
    dial: DIAL,
  };
}

/** Whole plan of one or two lights; null where this draw stands in the frame, a wall or somebody. */
export function drawSetUp(draw: Draw, place: object, round: readonly [number, number]): Plan | null {
  const empty = planOf(place);
  const fronts = [pick<Front>(draw, ...FRONTS), pick<Front>(draw, ...FRONTS)];
  const lights = [drawLight(draw, empty, "key", fronts[0], round)];
  if (draw(0, 1) < 0.4) lights.push(drawLight(draw, empty, "second", fronts[1], [0, 160]));
  if (lights.some(({ position: [x, y, z] }) => !isInside(empty, x, y, z))) return null;
  const plan = planOf({ ...place, lights });
  return plan.lights.every((light) => isClear(plan, light)) ? plan : null;
}

function isInside({ room }: Plan, x: number, y: number, z: number): boolean {
  if (room === null) return true;
  const inWalls = x > 0 && x < room.width && y > 0 && y < room.depth;
  return inWalls && z >= STAND.lowest && z <= Math.min(STAND.highest, room.height);
}

/** Its rim keeps off walls, ceiling, floor and people, and out of the frame. */
function isClear(plan: Plan, light: Light): boolean {
  const [person] = plan.people;
  const { shape } = stagePerson(person, plan);
  // a front so near that its rim is all outside the picture still fills it
  if (SHARES.some((share) => rimOf(light, share).some(([x, y, z]) => isInFrame(plan, x, y, z)))) return false;
  return rimOf(light).every(([x, y, z]) => {
    const aside = Math.hypot(x - person.position[0], y - person.position[1]);
    const toHead = Math.hypot(aside, z - shape.earHeight);
    const isOff = toHead > AIR.toHead_m && (z > shape.earHeight || aside > AIR.toBody_m);
    return isOff && wallAir(plan, x, y, z) > AIR.toWalls_m;
  });
}

/** From the middle of a front to its rim. */
export const SHARES = [0, 0.25, 0.5, 0.75, 1] as const;

/** Its outline, or what is drawn at a share of the way to it, in the room. */
export function rimOf(
  { face, position, direction, roll }: Light,
  share = 1,
): (readonly [number, number, number])[] {
  const { bearing_deg, tilt_deg } = directionOf(direction, position);
  const { right, up } = axesOf(bearing_deg, tilt_deg, roll);
  const at = (w: number, h: number) =>
    [0, 1, 2].map((k) => position[k] + w * right[k] + h * up[k]) as [number, number, number];
  return faceOutline(face).map(([w, h]) => at(share * w, share * h));
}

/** Metres to the nearest wall, floor or ceiling; negative beyond it. */
export function wallAir({ room }: Plan, x: number, y: number, z: number): number {
  if (room === null) return Number.POSITIVE_INFINITY;
  return Math.min(x, room.width - x, y, room.depth - y, z, room.height - z);
}

/** With a twentieth of the picture's width round it. */
export function isInFrame({ camera }: Plan, x: number, y: number, z: number, round = 1.05): boolean {
  const { bearing_deg, tilt_deg } = directionOf(camera.direction, camera.position);
  const { forward, right, up } = axesOf(bearing_deg, tilt_deg, camera.roll);
  const d = [x - camera.position[0], y - camera.position[1], z - camera.position[2]];
  const along = (axis: readonly number[]) => axis[0] * d[0] + axis[1] * d[1] + axis[2] * d[2];
  const ahead = along(forward);
  const { width, height } = camera.sensor;
  const [wide, high] = camera.orientation === "portrait" ? [height, width] : [width, height];
  const half = (mm: number) => (round * mm) / 2 / camera.focalLength;
  return ahead > 0 && Math.abs(along(right)) < half(wide) * ahead && Math.abs(along(up)) < half(high) * ahead;
}

/** What there is to build it with: a head for each light with its own front and one that it did not have. */
export function gearOf(plan: Plan) {
  const lights = plan.lights.map((light, i) => {
    const own = FRONTS.findIndex(({ face }) => isSameFace(face, light.face));
    const other = (own + 3 + i) % FRONTS.length;
    return { name: light.name, full: HEAD, dial: DIAL, fronts: [FRONTS[own], FRONTS[other]], stand: STAND };
  });
  return { lights, panels: [] };
}

function isSameFace(a: object, b: object): boolean {
  const fields = Object.entries(a);
  return fields.length === Object.keys(b).length && fields.every(([k, v]) => b[k as keyof typeof b] === v);
}
