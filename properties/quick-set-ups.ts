/** Random set-ups of one or two lights round one sitter, for holding the quick set to the full transport. */
import { platesBetween } from "../src/engine/index.ts";
import { Pcg32 } from "../src/math/index.ts";
import { checkPlan, type Plan } from "../src/plan/index.ts";
import { stage } from "../src/staging/index.ts";

export type Place = "dark" | "white room";

/** A bare head, a turned one, long hair, and somebody seated with glasses. */
const SITTERS = [
  { name: "sitter", stature: 1.7, facing: 180 },
  { name: "sitter", stature: 1.82, facing: 200, head: { turn: 25, tip: -6 } },
  {
    name: "sitter",
    stature: 1.62,
    facing: 160,
    head: { turn: -12, tip: 8, tilt: 6 },
    hair: { length: "shoulder" },
  },
  { name: "sitter", pose: "seated", stature: 1.75, facing: 150, head: { turn: -30, tilt: -5 }, glasses: {} },
];
const RADIANS = Math.PI / 180;
/** A light whose way to the head another one's plate may cut is drawn again: nothing stands between. */
const HEAD_RADIUS = 0.15;

export function randomSetUp(seed: number, place: Place): Plan {
  for (let turn = 0; ; turn++) {
    const plan = anySetUp(new Pcg32(seed, (place === "dark" ? 20 : 21) + 2 * turn), place);
    const { scene, people } = stage(plan);
    const [x, y, z] = people[0].headOffset;
    const isFree = scene.emitters.every(
      (_, l) => platesBetween(scene.emitters, l, x, y, z, HEAD_RADIUS) === 0,
    );
    if (isFree) return plan;
  }
}

function anySetUp(stream: Pcg32, place: Place): Plan {
  const u = () => stream.next();
  const room = place === "dark" ? undefined : smallWhiteRoom(u);
  const at = room ? [room.width * (0.35 + 0.3 * u()), room.depth * (0.4 + 0.25 * u())] : [0, 0];
  const sitter = SITTERS[Math.floor(u() * SITTERS.length)];
  const ears = sitter.pose === "seated" ? 1.15 : sitter.stature - 0.13;
  const lights: object[] = [];
  const count = u() < 0.5 ? 1 : 2;
  while (lights.length < count) {
    const { face, beam, half } = anyFront(u);
    const azimuth = (2 * u() - 1) * 150 * RADIANS;
    const elevation = (-20 + 85 * u()) * RADIANS;
    const distance = 0.7 + (room ? 1.6 : 2.3) * u();
    const bearing = sitter.facing * RADIANS - azimuth;
    const level = distance * Math.cos(elevation);
    const position = [
      at[0] + level * Math.sin(bearing),
      at[1] + level * Math.cos(bearing),
      ears + distance * Math.sin(elevation),
    ];
    const aim = [at[0] + 0.5 * (u() - 0.5), at[1] + 0.5 * (u() - 0.5), ears - 0.05 + 0.5 * (u() - 0.5)];
    const lumenSeconds = 1000 * 2 ** (-3 * u() * lights.length);
    if (distance < 0.45 + half || position[2] < 0.3 || (room && !isInside(position, room))) continue;
    const name = `light ${lights.length + 1}`;
    lights.push({ name, position, direction: { at: aim }, face, beam, output: { lumenSeconds } });
  }
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    title: "Any",
    lights,
    room,
    people: [{ ...sitter, position: at }],
    camera: {
      position: [at[0], at[1] - 1.2, 1.5],
      direction: { bearing: 0, tilt: 0 },
      focalLength: 85,
      fNumber: 8,
      sensor: { width: 36, height: 24 },
    },
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

function smallWhiteRoom(u: () => number) {
  const white = () => 0.8 + 0.1 * u();
  const size = { width: 2.6 + 2.4 * u(), depth: 3 + 3 * u(), height: 2.4 + 0.8 * u() };
  const walls = { near: white(), far: white(), left: white(), right: white(), ceiling: white() };
  return { ...size, reflectance: { ...walls, floor: 0.3 + 0.5 * u() } };
}

function isInside([x, y, z]: number[], room: { width: number; depth: number; height: number }): boolean {
  const air = 0.15;
  return x > air && x < room.width - air && y > air && y < room.depth - air && z < room.height - 0.1;
}

/** A bare head, a dish, a softbox, a strip, an octagon, a large disc. */
function anyFront(u: () => number): { face: object; beam: object; half: number } {
  const kind = Math.floor(u() * 6);
  const beam = { exponent: u() < 0.5 ? 1 : 1 + 11 * u() * u(), edgeDrop: u() < 0.5 ? 0 : 1.5 * u() };
  if (kind === 0) return { face: { shape: "point" }, beam: { exponent: 2 + 10 * u() }, half: 0 };
  const [width, height] = [
    () => [0.15 + 0.6 * u(), 0],
    () => [0.3 + 0.9 * u(), 0.3 + 0.9 * u()],
    () => [0.25 + 0.15 * u(), 0.9 + 0.6 * u()],
    () => [0.6 + 0.9 * u(), 0],
    () => [1 + 0.6 * u(), 0],
  ][kind - 1]();
  const face =
    height > 0
      ? { shape: "rectangle", width, height }
      : kind === 4
        ? { shape: "polygon", sides: 8, width }
        : { shape: "disc", width };
  return { face, beam, half: Math.max(width, height) / 2 };
}
