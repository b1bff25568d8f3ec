/** What a person who drifts from the mark comes up against, and how near it is. */
import { bearingVector, type Light, type Plan } from "../plan/index.ts";
import { PANEL_CLEAR_M, PERSON_REACH_M, type Plate, panelDistance } from "./obstacles.ts";
import type { HoldLimit } from "./types.ts";

/** From the middle of a person to a light's or camera's stand, metres: half a person and half a stand's feet (common
 * practice, no source). */
const STAND_CLEAR_M = 0.4;
/** What stands nearer than that at the mark already was put there on purpose: it may come nearer by a fifth. */
const NEARER = 0.8;

interface Obstacle {
  readonly limit: HoldLimit;
  readonly need_m: number;
  distance(x: number, y: number): number;
}

/** Answers for places on the floor: what is in the way there, null where nothing is. */
export function obstaclesOf(plan: Plan, person: number): (x: number, y: number) => HoldLimit | null {
  const [markX, markY] = plan.people[person].position;
  const all = [
    ...walls(plan),
    ...backdrop(plan),
    ...people(plan, person),
    ...plan.panels.map((panel) => board(panel.name, panel, plan.people[person].stature)),
    ...stands(plan, person),
  ].map((o) => ({ ...o, need_m: Math.min(o.need_m, NEARER * o.distance(markX, markY)) }));
  return (x, y) => all.find((o) => o.distance(x, y) < o.need_m)?.limit ?? null;
}

function walls({ room }: Plan): Obstacle[] {
  if (room === null) return [];
  const wall = (name: string, distance: Obstacle["distance"]): Obstacle => ({
    limit: { by: "wall", name },
    need_m: PERSON_REACH_M,
    distance,
  });
  return [
    wall("the left wall", (x) => x),
    wall("the right wall", (x) => room.width - x),
    wall("the near wall", (_, y) => y),
    wall("the far wall", (_, y) => room.depth - y),
  ];
}

function backdrop({ backdrop }: Plan): Obstacle[] {
  if (backdrop === null) return [];
  const [ahead, aside] = bearingVector(backdrop.bearing, 0);
  const distance = (x: number, y: number) => {
    const [dx, dy] = [x - backdrop.position[0], y - backdrop.position[1]];
    const past = Math.max(0, Math.abs(dx * aside - dy * ahead) - backdrop.width / 2);
    return Math.hypot(dx * ahead + dy * aside, past);
  };
  return [thing("the backdrop", PERSON_REACH_M, distance)];
}

function people(plan: Plan, person: number): Obstacle[] {
  return plan.people
    .filter((_, i) => i !== person)
    .map(({ name, position }) => thing(name, 2 * PERSON_REACH_M, from(position[0], position[1])));
}

/** A stand is taken to stand straight under what it carries; one whose foot would be at the mark hangs from an arm. */
function stands(plan: Plan, person: number): Obstacle[] {
  const { position, stature } = plan.people[person];
  const fronts = plan.lights.flatMap((light) => {
    const plate = plateOf(light);
    return plate === null ? [] : [board(light.name, plate, stature)];
  });
  const feet = [...plan.lights, { name: "the camera", position: plan.camera.position }]
    .filter((on) => from(on.position[0], on.position[1])(position[0], position[1]) > PERSON_REACH_M)
    .map((on) => thing(on.name, STAND_CLEAR_M, from(on.position[0], on.position[1])));
  return [...fronts, ...feet];
}

function board(name: string, plate: Plate, stature: number): Obstacle {
  return thing(name, PANEL_CLEAR_M, (x, y) => panelDistance(plate, x, y, stature));
}

function plateOf({ face, position, direction, roll }: Light): Plate | null {
  if (face.shape === "point") return null;
  const height = face.shape === "rectangle" ? face.height : face.width;
  return { position, direction, roll, width: face.width, height };
}

function thing(name: string, need_m: number, distance: Obstacle["distance"]): Obstacle {
  return { limit: { by: "thing", name }, need_m, distance };
}

function from(atX: number, atY: number): Obstacle["distance"] {
  return (x, y) => Math.hypot(x - atX, y - atY);
}
