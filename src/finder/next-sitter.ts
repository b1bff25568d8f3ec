/** The next sitter on the same mark: one change that carries to their eyes what is set by the face, so that a whole day of
 * heads is lit and framed alike. */
import { axesOf, directionOf, type FieldPath, type Person, type Plan, type Vec3 } from "../plan/index.ts";
import { shapeOf } from "../staging/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import { frontTouches, touchedBy } from "./obstacles.ts";
import { type Made, made, refused } from "./step-made.ts";

/** What is known of somebody before they stand there. What is left out stays as it was with the sitter before. */
export interface NextSitter {
  readonly name?: string;
  /** metres; the eyes follow from it, from pose and seat, where `eyeHeight` is not given */
  readonly stature?: number;
  /** metres above the floor, by tape, standing or seated as they are to be */
  readonly eyeHeight?: number;
  /** percentile among adults; the camera comes nearer or goes back for it, so that the head is as large in the picture */
  readonly headSize?: number;
}

export interface NextSitterMade {
  readonly made: Made;
  /** height of the eyes, metres */
  readonly eyes_m: number;
  /** how far the eyes are over those of the sitter before, metres */
  readonly rise_m: number;
  /** what goes along, by name */
  readonly moves: readonly string[];
  /** what is set by the face and stays, and why: "key: pinned" */
  readonly stays: readonly string[];
}

/** A light whose axis passes this near to the head is set by the face, as is what is held within this of it: metres (common
 * practice, no source). */
const BY_FACE_M = 0.5;
/** As far as a panel stands from somebody whose light it is for, metres (common practice, no source). */
const PANEL_BY_FACE_M = 1.6;
/** Lower than this over the floor a panel stands on it: metres. */
const STANDS_M = 0.1;
/** Nearer than this an aim is at the thing, and a meter beside the lens is the camera's: metres. */
const AT_THING_M = 0.05;

/** One edit, as one step back. Angles and distances from the eyes stay: lights and panels go up or down with them, the camera
 * too, and meters at the face, in the hand as it were. Lights that light the background, panels that stand on the floor,
 * marks, and whatever is pinned stay.
 * Errors  none: what cannot be made says why, by name, value and cure; RangeError where there is no such person */
export function nextSitter(
  plan: Plan,
  index: number,
  next: NextSitter,
  units: LengthUnits = "metric",
): NextSitterMade {
  const before = plan.people[index];
  if (before === undefined) throw new RangeError("there is no such person");
  const person = personAfter(before, next);
  const [was, is] = [shapeOf(before), shapeOf(person)];
  const eyesOf = ({ earHeight, head }: typeof is) => earHeight + head.leftEye.centre[2];
  const carried = new Carried(plan, before, {
    rise_m: eyesOf(is) - eyesOf(was),
    eyes_m: eyesOf(was),
    scale: is.head.scale / was.head.scale,
  });
  carried.all();
  const { name } = person;
  const label = `next sitter: ${name}, ${formatLength(eyesOf(is), units)} to the eyes`;
  const fields = [{ path: ["people", index] as FieldPath, value: person }, ...carried.fields];
  const result = made(plan, { kind: "set", label, fields });
  const why = result.ok ? hindrance(plan, result.after, name, units) : null;
  return {
    made: why === null ? result : refused(why),
    eyes_m: eyesOf(is),
    rise_m: carried.by.rise_m,
    moves: carried.moves,
    stays: carried.stays,
  };
}

/** Somebody whose eyes alone are known is built as tall as the sitter before in that proportion. */
function personAfter(before: Person, next: NextSitter): Person {
  const { eyeHeight: _, ...rest } = before;
  const seat = before.pose === "seated" ? before.seatHeight : 0;
  const shape = shapeOf(before);
  const eyes = shape.earHeight + shape.head.leftEye.centre[2];
  const { eyeHeight } = next;
  const grown = eyeHeight === undefined ? 1 : (eyeHeight - seat) / (eyes - seat);
  const stature = next.stature ?? Math.round(1000 * before.stature * grown) / 1000;
  // a height of the eyes that was measured belongs to whoever was measured
  const measured = eyeHeight ?? (next.stature === undefined ? before.eyeHeight : undefined);
  return {
    ...rest,
    name: next.name ?? before.name,
    stature,
    headSize: next.headSize ?? before.headSize,
    ...(measured === undefined ? {} : { eyeHeight: measured }),
  };
}

interface By {
  readonly rise_m: number;
  /** of the sitter before */
  readonly eyes_m: number;
  /** how much larger the head is */
  readonly scale: number;
}

/** What goes along, and as which fields. */
class Carried {
  readonly fields: { path: FieldPath; value: unknown }[] = [];
  readonly moves: string[] = [];
  readonly stays: string[] = [];
  readonly #head: Vec3;
  readonly #gone: Readonly<Vec3>[] = [];
  readonly plan: Plan;
  readonly by: By;

  constructor(plan: Plan, { position: [x, y] }: Person, by: By) {
    this.plan = plan;
    this.by = by;
    this.#head = [x, y, by.eyes_m];
  }

  all(): void {
    const { lights, panels, camera } = this.plan;
    lights.forEach((light, i) => {
      if (!this.#looksAtFace(light)) return;
      if (this.#go(["lights", i], light, light.name)) this.#gone.push(light.position);
    });
    panels.forEach((panel, i) => {
      if (this.#isHeldByFace(panel)) this.#go(["panels", i], panel, panel.name);
    });
    const goes = !camera.pinned;
    if (goes) {
      this.fields.push({ path: ["camera", "position"], value: this.#asSeen(camera.position) });
      if ("at" in camera.direction)
        this.fields.push({
          path: ["camera", "direction"],
          value: { at: this.#asSeen(camera.direction.at) },
        });
      this.moves.push("camera");
    } else this.stays.push("camera: pinned");
    this.plan.meters.forEach((meter, i) => {
      const path = ["meters", i];
      const isAtFace = far(meter.position, this.#head, 2) < BY_FACE_M && !meter.pinned;
      const isAtLens = goes && far(meter.position, camera.position) < AT_THING_M && !meter.pinned;
      if (isAtFace) this.fields.push({ path: [...path, "position"], value: this.#up(meter.position) });
      if (isAtLens) this.fields.push({ path: [...path, "position"], value: this.#asSeen(meter.position) });
      if (isAtFace || isAtLens) this.moves.push(meter.name);
      if ("at" in meter.direction) this.#aimAlong(path, meter.direction.at, goes);
    });
  }

  #go(
    path: FieldPath,
    thing: Pick<Plan["lights"][number], "position" | "direction" | "pinned">,
    name: string,
  ): boolean {
    if (thing.pinned) {
      this.stays.push(`${name}: pinned`);
      return false;
    }
    this.fields.push({ path: [...path, "position"], value: this.#up(thing.position) });
    if ("at" in thing.direction)
      this.fields.push({ path: [...path, "direction"], value: { at: this.#up(thing.direction.at) } });
    this.moves.push(name);
    return true;
  }

  /** A meter that was turned to a light, a face or the lens still is. */
  #aimAlong(path: FieldPath, at: Readonly<Vec3>, cameraGoes: boolean): void {
    const isAt = (place: Readonly<Vec3>) => far(at, place) < AT_THING_M;
    const to =
      this.#gone.some(isAt) || far(at, this.#head) < BY_FACE_M
        ? this.#up(at)
        : cameraGoes && isAt(this.plan.camera.position)
          ? this.#asSeen(at)
          : null;
    if (to !== null) this.fields.push({ path: [...path, "direction"], value: { at: to } });
  }

  #up([x, y, z]: Readonly<Vec3>): Vec3 {
    return [x, y, z + this.by.rise_m];
  }

  /** As large and as high in the picture as the face before: away from the eyes by as much more as the head is larger. */
  #asSeen(point: Readonly<Vec3>): Vec3 {
    const [x, y, z] = point.map((at, k) => this.#head[k] + this.by.scale * (at - this.#head[k]));
    return this.#up([x, y, z]);
  }

  #looksAtFace({ position, direction }: Plan["lights"][number]): boolean {
    const { bearing_deg, tilt_deg } = directionOf(direction, position);
    const { forward } = axesOf(bearing_deg, tilt_deg, 0);
    const to = this.#head.map((at, k) => at - position[k]);
    const along = to[0] * forward[0] + to[1] * forward[1] + to[2] * forward[2];
    return along > 0 && Math.sqrt(Math.max(0, Math.hypot(...to) ** 2 - along ** 2)) < BY_FACE_M;
  }

  #isHeldByFace(panel: Plan["panels"][number]): boolean {
    const { position, direction, roll, width, height } = panel;
    const { bearing_deg, tilt_deg } = directionOf(direction, position);
    const { right, up } = axesOf(bearing_deg, tilt_deg, roll);
    const foot = position[2] - (Math.abs(right[2]) * width + Math.abs(up[2]) * height) / 2;
    return foot > STANDS_M && far(position, this.#head, 2) < PANEL_BY_FACE_M;
  }
}

function far(a: readonly number[], b: readonly number[], axes = 3): number {
  return Math.hypot(...a.slice(0, axes).map((at, k) => at - b[k]));
}

/** What is in the way of what was carried, and what helps. */
function hindrance(before: Plan, after: Plan, name: string, units: LengthUnits): string | null {
  const { room } = after;
  const length = (m: number) => formatLength(m, units);
  const cure = (way: string) => `; seat ${name}, or ${way}`;
  if (room !== null) {
    const tops = [
      ...after.lights.map((light, i) => ({ ...light, top: rimOf(light), was: before.lights[i].position })),
      ...after.panels.map((panel, i) => ({ ...panel, top: topOf(panel), was: before.panels[i].position })),
    ];
    const over = tops.find(({ top, position, was }) => position[2] > was[2] && top > room.height);
    if (over !== undefined)
      return `the top of ${over.name} would be ${length(over.top)} up, the ceiling is at ${length(room.height)}${cure(`lower ${over.name} first`)}`;
  }
  for (const [i, light] of after.lights.entries()) {
    const touched = frontTouches(after, before.lights[i], light);
    if (touched !== null) return `${light.name}: ${touched}${cure(`take ${light.name} back first`)}`;
  }
  for (const [i, panel] of after.panels.entries()) {
    const touched = touchedBy(after, panel, before.panels[i]);
    if (touched !== null) return `${panel.name}: ${touched}${cure(`take ${panel.name} back first`)}`;
  }
  return null;
}

function rimOf({ face, ...light }: Plan["lights"][number]): number {
  if (face.shape === "point") return light.position[2];
  return topOf({
    ...light,
    width: face.width,
    height: face.shape === "rectangle" ? face.height : face.width,
  });
}

/** Of a flat thing, its tilt counted. */
function topOf(
  thing: Pick<Plan["panels"][number], "position" | "direction" | "roll" | "width" | "height">,
): number {
  const { position, direction, roll, width, height } = thing;
  const { bearing_deg, tilt_deg } = directionOf(direction, position);
  const { right, up } = axesOf(bearing_deg, tilt_deg, roll);
  return position[2] + (Math.abs(right[2]) * width + Math.abs(up[2]) * height) / 2;
}
