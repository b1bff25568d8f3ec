import {
  type Direction,
  directionOf,
  type Edit,
  type FieldPath,
  type Plan,
  type Vec3,
} from "../plan/index.ts";

export type ObjectKind = "light" | "panel" | "person" | "camera" | "meter" | "backdrop";

/** A thing in the plan that can be taken hold of. `owner` is its path as text, as drawings and warnings name it. */
export interface PlanObject {
  readonly owner: string;
  readonly path: FieldPath;
  readonly kind: ObjectKind;
  readonly name: string;
  /** people and backdrops stand on the floor: z is 0 */
  readonly position: Readonly<Vec3>;
  readonly bearing_deg: number;
  readonly tilt_deg: number;
  /** can be raised, and its aim tilted */
  readonly lifts: boolean;
}

function aimed(
  kind: ObjectKind,
  path: FieldPath,
  thing: { name: string; position: Vec3; direction: Direction },
): PlanObject {
  const { bearing_deg, tilt_deg } = directionOf(thing.direction, thing.position);
  const { name, position } = thing;
  return { owner: ownerText(path), path, kind, name, position, bearing_deg, tilt_deg, lifts: true };
}

function ownerText(path: FieldPath): string {
  return path.length === 1 ? String(path[0]) : `${path[0]}[${path[1]}]`;
}

export function listObjects(plan: Plan): PlanObject[] {
  const objects: PlanObject[] = [];
  objects.push(...plan.lights.map((light, i) => aimed("light", ["lights", i], light)));
  plan.people.forEach((person, i) => {
    objects.push({
      owner: `people[${i}]`,
      path: ["people", i],
      kind: "person",
      name: person.name,
      position: [person.position[0], person.position[1], 0],
      bearing_deg: person.facing,
      tilt_deg: 0,
      lifts: false,
    });
  });
  objects.push(aimed("camera", ["camera"], { name: "camera", ...plan.camera }));
  objects.push(...plan.panels.map((panel, i) => aimed("panel", ["panels", i], panel)));
  objects.push(...plan.meters.map((meter, i) => aimed("meter", ["meters", i], meter)));
  if (plan.backdrop !== null) {
    const { position, bearing } = plan.backdrop;
    objects.push({
      owner: "backdrop",
      path: ["backdrop"],
      kind: "backdrop",
      name: plan.backdrop.kind,
      position: [position[0], position[1], 0],
      bearing_deg: bearing,
      tilt_deg: 0,
      lifts: false,
    });
  }
  return objects;
}

export function findObject(plan: Plan, owner: string | null): PlanObject | null {
  return owner === null ? null : (listObjects(plan).find((object) => object.owner === owner) ?? null);
}

/** A meter held this near to a person's middle goes with the person, as it does in the hand. */
const HELD_WITHIN_M = 0.5;

const millimetre = (value: number) => Math.round(value * 1000) / 1000;

/** Put an object somewhere; it stays inside the room. A light that aims at a point goes on aiming at it. */
export function moveObject(plan: Plan, object: PlanObject, to: Readonly<Vec3>): Edit {
  const [x, y, z] = insideRoom(plan, to);
  const fields: { path: FieldPath; value: unknown }[] = [
    { path: [...object.path, "position"], value: object.lifts ? [x, y, z] : [x, y] },
  ];
  if (object.kind === "person") {
    const [fromX, fromY] = object.position;
    plan.meters.forEach((meter, i) => {
      if (Math.hypot(meter.position[0] - fromX, meter.position[1] - fromY) > HELD_WITHIN_M) return;
      const shift = (p: Readonly<Vec3>): Vec3 => [
        millimetre(p[0] + x - fromX),
        millimetre(p[1] + y - fromY),
        p[2],
      ];
      fields.push({ path: ["meters", i, "position"], value: insideRoom(plan, shift(meter.position)) });
    });
  }
  return { kind: "set", label: `move ${object.name}`, fields };
}

function insideRoom(plan: Plan, [x, y, z]: Readonly<Vec3>): Vec3 {
  const room = plan.room;
  const clamp = (value: number, most: number) => millimetre(Math.min(Math.max(value, 0), most));
  if (room === null) return [millimetre(x), millimetre(y), millimetre(z)];
  return [clamp(x, room.width), clamp(y, room.depth), clamp(z, room.height)];
}

/** Turn an object to a bearing and tilt. One that aims at a point keeps that point's distance. */
export function aimObject(plan: Plan, object: PlanObject, bearing_deg: number, tilt_deg: number): Edit {
  const bearing = wrapDegrees(bearing_deg);
  const tilt = Math.min(90, Math.max(-90, tilt_deg));
  const label = `turn ${object.name}`;
  if (object.kind === "person") return set(label, [...object.path, "facing"], bearing);
  if (object.kind === "backdrop") return set(label, [...object.path, "bearing"], bearing);
  const direction = directionIn(plan, object);
  if (direction === null || !("at" in direction)) {
    return set(label, [...object.path, "direction"], { bearing: tenth(bearing), tilt: tenth(tilt) });
  }
  const [px, py, pz] = object.position;
  const distance = Math.hypot(direction.at[0] - px, direction.at[1] - py, direction.at[2] - pz);
  const level = Math.cos((tilt * Math.PI) / 180) * distance;
  const angle = (bearing * Math.PI) / 180;
  const at: Vec3 = [
    millimetre(px + level * Math.sin(angle)),
    millimetre(py + level * Math.cos(angle)),
    millimetre(pz + distance * Math.sin((tilt * Math.PI) / 180)),
  ];
  return set(label, [...object.path, "direction"], { at });
}

export function directionIn(plan: Plan, object: PlanObject): Direction | null {
  const index = object.path[1] as number;
  if (object.kind === "light") return plan.lights[index]?.direction ?? null;
  if (object.kind === "panel") return plan.panels[index]?.direction ?? null;
  if (object.kind === "meter") return plan.meters[index]?.direction ?? null;
  return object.kind === "camera" ? plan.camera.direction : null;
}

function set(label: string, path: FieldPath, value: unknown): Edit {
  return { kind: "set", label, fields: [{ path, value }] };
}

const tenth = (value: number) => Math.round(value * 10) / 10;

/** 0 up to, not including, 360. */
export function wrapDegrees(degrees: number): number {
  const wrapped = ((degrees % 360) + 360) % 360;
  return tenth(wrapped) === 360 ? 0 : tenth(wrapped);
}

export const SNAP_M = 0.05;
export const SNAP_DEG = 5;

export function snap(value: number, step: number, free: boolean): number {
  return free ? value : Math.round(value / step) * step;
}
