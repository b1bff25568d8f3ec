/** Where a meter is held on set, and which way it looks, in the words that a photographer has for it. */
import {
  ALL_LIGHTS,
  type Direction,
  type Plan,
  placeOf,
  type Reading,
  type ReadingPlace,
  type Vec3,
} from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";

/** A place that can be chosen: one of the plan's meters, or under somebody's chin. */
export interface HeldAt {
  readonly key: string;
  readonly name: string;
  readonly position: Vec3;
  /** as the plan has it; null where nothing is planned there */
  readonly direction: Direction | null;
  readonly receptor: Reading["receptor"] | null;
}

export type Aim = "planned" | "camera" | "light";
export const AIM_WORDS: Readonly<Record<Aim, string>> = {
  planned: "as planned",
  camera: "to the camera",
  light: "to the light",
};

const millimetres = (m: number) => Math.round(m * 1000) / 1000;

/** Before the skin: a dome is held there, not in it. */
const BEFORE_CHIN_M = 0.03;

export function heldPlaces(plan: Plan): HeldAt[] {
  const meters = plan.meters.map(({ direction, name, position, receptor }) => ({
    key: `meter ${name}`,
    name,
    position,
    direction,
    receptor,
  }));
  const chins = plan.people.map((person) => ({
    key: `chin ${person.name}`,
    name: `${person.name}'s chin`,
    position: chinOf(plan, plan.people.indexOf(person)),
    direction: null,
    receptor: null,
  }));
  return [...meters, ...chins];
}

function chinOf(plan: Plan, index: number): Vec3 {
  const { headOffset: o, headRotation: r, shape } = stagePerson(plan.people[index], plan);
  const [x, y, z] = shape.head.landmarks.chin;
  const at = (k: number) =>
    millimetres(o[k] + r[3 * k] * (x + BEFORE_CHIN_M) + r[3 * k + 1] * y + r[3 * k + 2] * z);
  return [at(0), at(1), at(2)];
}

/** Which light a meter is turned to: the one that flashes, or the first that is on. */
export function lightAimedAt(plan: Plan, light: string): Plan["lights"][number] | null {
  return plan.lights.find(({ name, on }) => (light === ALL_LIGHTS ? on : name === light)) ?? null;
}

/** The ways it can look there. */
export function aimsOf(plan: Plan, held: HeldAt, light: string, receptor: Reading["receptor"]): Aim[] {
  // a spot meter looks at a thing: only the plan says which
  if (receptor === "spot") return ["planned"];
  const aims: Aim[] = lightAimedAt(plan, light) === null ? ["camera"] : ["camera", "light"];
  return held.direction === null ? aims : ["planned", ...aims];
}

export function receptorsOf(held: HeldAt): NonNullable<Reading["receptor"]>[] {
  return held.receptor === "spot" ? ["dome", "flat", "spot"] : ["dome", "flat"];
}

export function placed(
  plan: Plan,
  held: HeldAt,
  light: string,
  aim: Aim,
  receptor: NonNullable<Reading["receptor"]>,
): ReadingPlace {
  const to =
    aim === "light" ? (lightAimedAt(plan, light)?.position ?? plan.camera.position) : plan.camera.position;
  const direction = aim === "planned" && held.direction !== null ? held.direction : { at: to };
  return { position: held.position, direction, receptor };
}

/** Which of the choices a reading was made by; place null where it is none that the plan has now. */
export function choicesOf(plan: Plan, reading: Reading): { held: HeldAt | null; aim: Aim } {
  const { direction, position } = placeOf(plan, reading);
  const places = heldPlaces(plan).filter((each) => distance(each.position, position) < 0.005);
  const held = places.find((each) => same(each.direction, direction)) ?? places[0] ?? null;
  if (held !== null && same(held.direction, direction)) return { held, aim: "planned" };
  return { held, aim: same(direction, { at: plan.camera.position }) ? "camera" : "light" };
}

function distance(a: Vec3, b: Vec3): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** "at the chin, dome, to the camera" */
export function whereWords(plan: Plan, reading: Reading, units: LengthUnits): string {
  const { position, receptor } = placeOf(plan, reading);
  const { held, aim } = choicesOf(plan, reading);
  const where =
    held === null ? `at ${position.map((m) => formatLength(m, units)).join(", ")}` : `at the ${held.name}`;
  const way = aim === "planned" ? "" : `, ${AIM_WORDS[aim]}`;
  return `${where}, ${receptor}${way}`;
}

export function lightWords(light: string): string {
  return light === ALL_LIGHTS ? "all lights" : `${light} alone`;
}
