/** A set-up as it is, carried over into another room: all of it moved together, and what still does not fit drawn nearer to
 * the face that it is about, along its own line, so that light comes from where it came from. */
import { checkPlan, frontCorners, type Plan, type Room, type Vec3 } from "../plan/index.ts";
import { measurePlaces } from "../sheet/index.ts";
import {
  type Axis,
  airOf,
  backdropTaken,
  cameraTaken,
  lightTaken,
  overhang,
  panelTaken,
  personTaken,
  pointTaken,
  SIZES,
  type Taken,
} from "./replan-room.ts";
import { ReplanError } from "./replan-types.ts";

/** What had to come nearer, and for want of what. */
export interface Drawn {
  readonly name: string;
  readonly cause: (typeof SIZES)[number];
}

export interface Fitted {
  readonly plan: Plan;
  readonly drawn: readonly Drawn[];
  /** lights and panels for which there is no place; they stand in the plan no more, as meters and marks that have none */
  readonly left: readonly string[];
}

/** Nearer than this a face is drawn out of shape (common practice, no source). */
const NEAREST_CAMERA_M = 1;
/** Nearer than this a sitter's own shadow is on the backdrop (common practice, no source). */
const NEAREST_BACKDROP_M = 0.5;
const NEAREST_PANEL_M = 0.3;
/** A plan keeps micrometres. */
const SLACK_M = 1e-5;

/** The plan in another room. Readings made where it stood stay behind: they are of that room.
 * Errors  ReplanError where people, camera or backdrop cannot be in the room at all */
export function fitInto(plan: Plan, room: Room | null, person: number): Fitted {
  const moved = shifted({ ...plan, room, readings: [] }, shiftInto(plan, room));
  demandPeople(moved);
  const face = measurePlaces(moved).noses[person]?.tip;
  if (face === undefined) throw new Error(`nobody is person ${person}`);
  const drawn: Drawn[] = [];

  const draw = <Thing extends Standing>(
    name: string,
    thing: Thing,
    was: Thing | undefined,
    how: How<Thing>,
  ) => {
    const nearer = drawnNearer(thing, was ?? thing, [plan.room, room], face, how);
    if (nearer === null) return null;
    if (nearer.cause !== null) drawn.push({ name, cause: nearer.cause });
    return nearer.thing;
  };
  const drawAll = <Thing extends Standing & { readonly name: string }>(
    things: readonly Thing[],
    were: readonly Thing[],
    how: How<Thing>,
  ) =>
    things.flatMap((thing, i) => {
      const nearer = draw(thing.name, thing, were[i], how);
      return nearer === null ? [] : [nearer];
    });

  const camera = draw("camera", moved.camera, plan.camera, {
    take: cameraTaken,
    isFar: ({ position }) => onFloor(position, face) >= NEAREST_CAMERA_M,
    isLevel: true,
  });
  if (camera === null) throw tooSmall("the camera would be nearer than 1 m to the face");
  const backdrop =
    moved.backdrop === null
      ? null
      : draw("backdrop", cutToRoom(moved.backdrop, room), plan.backdrop ?? undefined, {
          take: backdropTaken,
          isFar: ({ position }) => onFloor(position, face) >= NEAREST_BACKDROP_M,
          isLevel: true,
        });
  if (moved.backdrop !== null && backdrop === null)
    throw tooSmall("the backdrop would be nearer than 50 cm to the face");
  const fitted: Plan = {
    ...moved,
    camera: withLens(camera, moved.camera, face),
    backdrop,
    lights: drawAll(moved.lights, plan.lights, {
      take: (light) => lightTaken(light, plan),
      isFar: (light) => isClearOfPeople(light, moved),
    }),
    panels: drawAll(moved.panels, plan.panels, {
      take: panelTaken,
      isFar: ({ position }) => onFloor(position, face) >= NEAREST_PANEL_M,
    }),
    meters: drawAll(moved.meters, plan.meters, {
      take: ({ position }) => pointTaken(position),
      isFar: () => true,
    }),
    marks: moved.marks.filter(({ position }) =>
      [0, 1].every((axis) => overhang(pointTaken(position), room, axis as Axis) <= SLACK_M),
    ),
  };
  const placed = [...fitted.lights, ...fitted.panels].map(({ name }) => name);
  const left = [...moved.lights, ...moved.panels]
    .map(({ name }) => name)
    .filter((name) => !placed.includes(name));
  return { plan: checkedPlan(fitted), drawn, left };
}

type Standing = { readonly position: readonly number[] };

/** How a thing is drawn nearer. */
interface How<Thing> {
  readonly take: (thing: Thing) => Taken;
  /** whether it is still far enough from people */
  readonly isFar: (thing: Thing) => boolean;
  /** its height stays: a camera's decides how a face looks */
  readonly isLevel?: boolean;
}

/** Hundredths of the way; the last tenth is nowhere for anything. */
const NEAREST_PERCENT = 10;

/** The thing as far out on its line as the room lets it stand; what reached out of the room that it comes from may again by as
 * much. Null where there is no place on the line. */
function drawnNearer<Thing extends Standing>(
  thing: Thing,
  was: Thing,
  [from, to]: readonly [Room | null, Room | null],
  face: Readonly<Vec3>,
  { isFar, isLevel, take }: How<Thing>,
): { thing: Thing; cause: Drawn["cause"] | null } | null {
  const allowed = AXES.map((axis) => Math.max(0, overhang(take(was), from, axis)) + SLACK_M);
  let cause: Drawn["cause"] | null = null;
  for (let percent = 100; percent >= NEAREST_PERCENT; percent--) {
    const nearer =
      percent === 100 ? thing : { ...thing, position: between(thing.position, face, percent / 100, isLevel) };
    const axis = AXES.find((each) => overhang(take(nearer), to, each) > (allowed[each] ?? 0));
    if (axis === undefined && (percent === 100 || isFar(nearer))) return { thing: nearer, cause };
    // what is in the way at first is why it comes nearer at all
    if (axis !== undefined) cause ??= SIZES[axis];
    else return null;
  }
  return null;
}

const AXES: readonly Axis[] = [2, 0, 1];

/** In the digits that a person can set. */
function between(
  position: readonly number[],
  face: Readonly<Vec3>,
  share: number,
  isLevel = false,
): number[] {
  return position.map((x, axis) => {
    const to = face[axis] ?? 0;
    return axis === 2 && isLevel ? x : Math.round(100 * (to + share * (x - to))) / 100;
  });
}

function onFloor([x = 0, y = 0]: readonly number[], face: Readonly<Vec3>): number {
  return Math.hypot(x - face[0], y - face[1]);
}

/** As the search has it: from the upright through each mark, up to the crown. */
function isClearOfPeople(light: Plan["lights"][number], plan: Plan): boolean {
  const air = airOf(plan).people;
  return plan.people.every(({ position: [x, y], stature }) =>
    [light.position, ...frontCorners(light)].every(
      (point) => Math.hypot(point[0] - x, point[1] - y, Math.max(0, point[2] - stature)) >= air,
    ),
  );
}

/** Half of what the room is smaller or larger by, as far as walls allow; where not all of it fits between them, what is too
 * much is shared between the sides. In a room of the same size it stays where it is. */
function shiftInto(plan: Plan, room: Room | null): readonly [number, number] {
  if (room === null) return [0, 0];
  const people = plan.people.map(personTaken);
  const all = [
    ...people,
    cameraTaken(plan.camera),
    ...plan.lights.map((light) => lightTaken(light, plan)),
    ...plan.panels.map(panelTaken),
    ...(plan.backdrop === null ? [] : [backdropTaken(cutToRoom(plan.backdrop, room))]),
  ];
  const along = (axis: 0 | 1): number => {
    const size = SIZES[axis];
    const span = (things: readonly Taken[]) =>
      [
        -Math.min(...things.map(({ low }) => low[axis])),
        room[size] - Math.max(...things.map(({ high }) => high[axis])),
      ] as const;
    const [low, high] = span(all);
    const middle = (low + high) / 2;
    const wanted = plan.room === null ? middle : (room[size] - plan.room[size]) / 2;
    if (wanted === 0 && plan.room !== null) return 0;
    const [least, most] = span(people);
    const best = low <= high ? within(wanted, low, high) : middle;
    return Math.round(100 * (least <= most ? within(best, least, most) : best)) / 100;
  };
  return [along(0), along(1)];
}

function within(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}

function shifted(plan: Plan, [right, into]: readonly [number, number]): Plan {
  if (right === 0 && into === 0) return plan;
  const by = ([x = 0, y = 0, ...up]: readonly number[]) => [x + right, y + into, ...up];
  const move = <Thing extends { position: readonly number[]; direction?: Plan["camera"]["direction"] }>(
    thing: Thing,
  ): Thing => ({
    ...thing,
    position: by(thing.position),
    ...(thing.direction !== undefined && "at" in thing.direction
      ? { direction: { at: by(thing.direction.at) } }
      : {}),
  });
  return {
    ...plan,
    lights: plan.lights.map(move),
    panels: plan.panels.map(move),
    people: plan.people.map(move),
    meters: plan.meters.map(move),
    marks: plan.marks.map(move),
    camera: move(plan.camera),
    backdrop: plan.backdrop && move(plan.backdrop),
  };
}

/** Paper is cut, and hung as high as there is room. */
function cutToRoom<B extends NonNullable<Plan["backdrop"]>>(backdrop: B, room: Room | null): B {
  if (room === null) return backdrop;
  const isAcross = Math.abs(Math.sin((backdrop.bearing * Math.PI) / 180)) < Math.SQRT1_2;
  return {
    ...backdrop,
    width: Math.min(backdrop.width, isAcross ? room.width : room.depth),
    top: Math.min(backdrop.top, room.height),
  };
}

/** A camera that came nearer frames the same with a shorter lens. */
function withLens(camera: Plan["camera"], before: Plan["camera"], face: Readonly<Vec3>): Plan["camera"] {
  const apart = ({ position }: Plan["camera"]) => Math.hypot(...position.map((x, k) => x - (face[k] ?? 0)));
  const share = apart(camera) / apart(before);
  if (share === 1) return camera;
  return { ...camera, focalLength: Math.max(1, Math.round(camera.focalLength * share)) };
}

function demandPeople({ people, room }: Plan): void {
  if (room === null) return;
  for (const person of people) {
    const taken = personTaken(person);
    if (overhang(taken, room, 2) > SLACK_M)
      throw new ReplanError(
        `the room is too low for ${person.name}: ${room.height.toFixed(2)} m high, and ${taken.high[2].toFixed(2)} m are needed`,
        "give a higher room, or let the sitter sit",
      );
    if ([0, 1].some((axis) => overhang(taken, room, axis as Axis) > SLACK_M))
      throw tooSmall(`${person.name} has no 30 cm to every side`);
  }
}

function tooSmall(why: string): ReplanError {
  return new ReplanError(
    `the room is too small: ${why}`,
    "give a larger room, or plan a closer picture with fewer people",
  );
}

export function checkedPlan(plan: Plan): Plan {
  const checked = checkPlan(plan);
  if (!checked.ok) throw new Error(`planned again it is no plan: ${JSON.stringify(checked.problems[0])}`);
  return checked.plan;
}
