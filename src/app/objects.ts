import {
  type Direction,
  directionOf,
  type Edit,
  type FieldPath,
  type ListName,
  type Plan,
  type Vec3,
} from "../plan/index.ts";
import type { View } from "./bench.ts";

export type ObjectKind = "light" | "panel" | "person" | "camera" | "meter" | "mark" | "backdrop";

/** A thing in the plan that can be taken hold of. `owner` is its path as text, as drawings and warnings name it. */
export interface PlanObject {
  readonly owner: string;
  readonly path: FieldPath;
  readonly kind: ObjectKind;
  readonly name: string;
  /** people, marks and backdrops stand on the floor: z is 0 */
  readonly position: Readonly<Vec3>;
  readonly bearing_deg: number;
  readonly tilt_deg: number;
  /** can be raised, and its aim tilted */
  readonly lifts: boolean;
  /** points somewhere */
  readonly turns: boolean;
  /** stays where it is until the pin is taken out */
  readonly pinned: boolean;
}

/** The list that holds a kind of thing; a camera and a backdrop there is only one of. */
export const LIST_OF: Readonly<Partial<Record<ObjectKind, ListName>>> = {
  light: "lights",
  person: "people",
  panel: "panels",
  meter: "meters",
  mark: "marks",
};

interface Aimed {
  readonly name: string;
  readonly position: Readonly<Vec3>;
  readonly direction: Direction;
  readonly pinned: boolean;
}

function aimed(kind: ObjectKind, path: FieldPath, thing: Aimed): PlanObject {
  const { name, position, pinned } = thing;
  const aim = directionOf(thing.direction, position);
  return { owner: ownerText(path), path, kind, name, position, ...aim, lifts: true, turns: true, pinned };
}

interface Standing {
  readonly name: string;
  readonly position: readonly [number, number];
  readonly pinned: boolean;
}

function standing(
  kind: ObjectKind,
  path: FieldPath,
  thing: Standing,
  bearing_deg: number | null,
): PlanObject {
  const { name, position, pinned } = thing;
  return {
    owner: ownerText(path),
    path,
    kind,
    name,
    position: [position[0], position[1], 0],
    bearing_deg: bearing_deg ?? 0,
    tilt_deg: 0,
    lifts: false,
    turns: bearing_deg !== null,
    pinned,
  };
}

function ownerText(path: FieldPath): string {
  return path.length === 1 ? String(path[0]) : `${path[0]}[${path[1]}]`;
}

const listed = new WeakMap<Plan, readonly PlanObject[]>();

/** Everything in the plan that can be taken hold of; for one plan always the same objects. */
export function listObjects(plan: Plan): readonly PlanObject[] {
  const known = listed.get(plan);
  if (known !== undefined) return known;
  const { backdrop } = plan;
  const objects = [
    ...plan.lights.map((light, i) => aimed("light", ["lights", i], light)),
    ...plan.people.map((person, i) => standing("person", ["people", i], person, person.facing)),
    aimed("camera", ["camera"], { name: "camera", ...plan.camera }),
    ...plan.panels.map((panel, i) => aimed("panel", ["panels", i], panel)),
    ...plan.meters.map((meter, i) => aimed("meter", ["meters", i], meter)),
    ...plan.marks.map((mark, i) => standing("mark", ["marks", i], mark, null)),
    ...(backdrop === null
      ? []
      : [standing("backdrop", ["backdrop"], { name: backdrop.kind, ...backdrop }, backdrop.bearing)]),
  ];
  listed.set(plan, objects);
  return objects;
}

export function findObject(plan: Plan, owner: string | null): PlanObject | null {
  return owner === null ? null : (listObjects(plan).find((object) => object.owner === owner) ?? null);
}

/** What is taken hold of, foremost first. An undo can take away what was held: that is no longer. */
export function heldObjects(plan: Plan, view: Pick<View, "selected" | "also">): PlanObject[] {
  return [view.selected, ...view.also].flatMap((owner) => findObject(plan, owner) ?? []);
}

/** The thing itself, as it stands in the plan. */
export function thingOf(plan: Plan, { kind, path }: PlanObject): object | null {
  if (kind === "camera") return plan.camera;
  if (kind === "backdrop") return plan.backdrop;
  const list = LIST_OF[kind];
  return list === undefined ? null : (plan[list][path[1] as number] ?? null);
}

export function directionIn(plan: Plan, object: PlanObject): Direction | null {
  const thing = thingOf(plan, object);
  return thing !== null && "direction" in thing ? (thing.direction as Direction) : null;
}

/** A meter held this near to a person's middle goes with the person, as it does in the hand. */
const HELD_WITHIN_M = 0.5;

export const SNAP_M = 0.05;
export const SNAP_DEG = 5;

export function snap(value: number, step: number, free: boolean): number {
  return free ? value : Math.round(value / step) * step;
}

const millimetre = (value: number) => Math.round(value * 1000) / 1000;

/** "key", or "key and 2 more" */
export function namesOf(objects: readonly PlanObject[]): string {
  const [first, ...rest] = objects;
  return `${first?.name ?? ""}${rest.length > 0 ? ` and ${rest.length} more` : ""}`;
}

/** Put an object somewhere; it stays inside the room. A light that aims at a point goes on aiming at it. */
export function moveObject(plan: Plan, object: PlanObject, to: Readonly<Vec3>): Edit {
  const by = [0, 1, 2].map((axis) => (to[axis] as number) - (object.position[axis] as number));
  return moveObjects(plan, [object], by as Vec3);
}

/** Move things by as much as each other: what they are to each other stays, so the first that meets a wall stops
 * them all. Aims at somebody who goes along go along, and so do meters held at
 * them; these keep their height, since whoever is moved stays on the floor. */
export function moveObjects(plan: Plan, objects: readonly PlanObject[], by: Readonly<Vec3>): Edit {
  const shift = withinRoom(plan, objects, by);
  const shifted = (p: readonly number[], axes: number) =>
    p.map((value, axis) => (axis < axes ? millimetre(value + (shift[axis] as number)) : value));
  const fields: { path: FieldPath; value: unknown }[] = [];
  const people = objects.filter((object) => object.kind === "person");
  const isAt = (p: readonly number[]) =>
    people.some(
      ({ position: [x, y] }) => Math.hypot((p[0] as number) - x, (p[1] as number) - y) <= HELD_WITHIN_M,
    );
  for (const object of objects) {
    fields.push({
      path: [...object.path, "position"],
      value: object.lifts ? shifted(object.position, 3) : shifted(object.position, 2).slice(0, 2),
    });
    const aim = directionIn(plan, object);
    if (objects.length > 1 && aim !== null && "at" in aim && isAt(aim.at))
      fields.push({ path: [...object.path, "direction"], value: { at: shifted(aim.at, 2) } });
  }
  const held = new Set(objects.map((object) => object.owner));
  for (const object of listObjects(plan)) {
    if (object.kind !== "meter" || object.pinned || held.has(object.owner) || !isAt(object.position))
      continue;
    const value = insideRoom(plan, shifted(object.position, 2) as Vec3);
    fields.push({ path: [...object.path, "position"], value });
  }
  return { kind: "set", label: `move ${namesOf(objects)}`, fields };
}

function roomSize(plan: Plan): readonly number[] | null {
  return plan.room === null ? null : [plan.room.width, plan.room.depth, plan.room.height];
}

/** As much of a shift as keeps every object inside the room. */
function withinRoom(plan: Plan, objects: readonly PlanObject[], by: Readonly<Vec3>): Vec3 {
  const size = roomSize(plan);
  if (size === null) return [...by];
  return by.map((wanted, axis) => {
    const places = objects
      .filter((object) => axis < 2 || object.lifts)
      .map((object) => object.position[axis] as number);
    if (places.length === 0) return wanted;
    return Math.min((size[axis] as number) - Math.max(...places), Math.max(-Math.min(...places), wanted));
  }) as Vec3;
}

function insideRoom(plan: Plan, place: Readonly<Vec3>): Vec3 {
  const size = roomSize(plan);
  if (size === null) return [...place];
  return place.map((value, axis) => Math.min(Math.max(value, 0), size[axis] as number)) as Vec3;
}

/** Turn an object to a bearing and tilt. One that aims at a point keeps that point's distance. */
export function aimObject(plan: Plan, object: PlanObject, bearing_deg: number, tilt_deg: number): Edit {
  const tilt = Math.min(90, Math.max(-90, tilt_deg));
  const { field, value } = turned(plan, object, wrapDegrees(bearing_deg), tilt);
  return { kind: "set", label: `turn ${object.name}`, fields: [{ path: [...object.path, field], value }] };
}

function turned(
  plan: Plan,
  object: PlanObject,
  bearing: number,
  tilt: number,
): { field: string; value: number | Direction } {
  if (object.kind === "person") return { field: "facing", value: bearing };
  if (object.kind === "backdrop") return { field: "bearing", value: bearing };
  const field = "direction";
  const direction = directionIn(plan, object);
  if (direction === null || !("at" in direction)) return { field, value: { bearing, tilt: tenth(tilt) } };
  const [px, py, pz] = object.position;
  const distance = Math.hypot(direction.at[0] - px, direction.at[1] - py, direction.at[2] - pz);
  const along = Math.cos((tilt * Math.PI) / 180) * distance;
  const angle = (bearing * Math.PI) / 180;
  return {
    field,
    value: {
      at: [
        millimetre(px + along * Math.sin(angle)),
        millimetre(py + along * Math.cos(angle)),
        millimetre(pz + distance * Math.sin((tilt * Math.PI) / 180)),
      ],
    },
  };
}

const tenth = (value: number) => Math.round(value * 10) / 10;

/** 0 up to, not including, 360. */
export function wrapDegrees(degrees: number): number {
  const wrapped = ((degrees % 360) + 360) % 360;
  return tenth(wrapped) === 360 ? 0 : tenth(wrapped);
}
