/** What a tape and a protractor measure at every object of a plan. */
import { directionOf, type Plan, type Vec3 } from "../plan/index.ts";
import { noseTip, type StagedPerson, stagePerson } from "../staging/index.ts";

export type Wall = "left" | "right" | "near" | "far";

/** A point of the floor from the two nearest walls, one of each pair. */
export interface FromWalls {
  readonly side: Wall;
  readonly side_m: number;
  readonly depth: Wall;
  readonly depth_m: number;
}

/** A point of the floor from a mark, along the axes of the plan. */
export interface FromMark {
  /** whose mark; null where nobody stands: the plan's zero point */
  readonly person: string | null;
  /** over the floor, straight */
  readonly distance_m: number;
  readonly right_m: number;
  readonly into_m: number;
}

/** As seen from the tip of a nose, in the head's own axes: 0/0 straight ahead, + to own left, + up. */
export interface FromNose {
  readonly person: string;
  /** in space, from the nose to the object's centre */
  readonly distance_m: number;
  readonly side_deg: number;
  readonly elevation_deg: number;
}

export interface Place {
  readonly owner: string;
  readonly name: string;
  /** null in open space */
  readonly walls: FromWalls | null;
  /** the mark that lies nearest; for a mark itself the first one, null for that */
  readonly mark: FromMark | null;
  /** of its centre above the floor */
  readonly height_m: number;
  /** the nose that is nearest */
  readonly nose: FromNose | null;
  readonly bearing_deg: number;
  readonly tilt_deg: number;
  readonly roll_deg: number;
}

export interface MarkPlace extends Place {
  readonly noseHeight_m: number;
}

export interface Places {
  readonly people: readonly MarkPlace[];
  /** tapes of their own on the floor */
  readonly marks: readonly Place[];
  readonly lights: readonly Place[];
  readonly panels: readonly Place[];
  readonly camera: Place;
  readonly backdrop: Place | null;
  readonly noses: readonly Nose[];
}

export interface Nose {
  readonly name: string;
  readonly tip: Readonly<Vec3>;
  readonly staged: StagedPerson;
}

export function measurePlaces(plan: Plan): Places {
  const noses = plan.people.map((person): Nose => {
    const staged = stagePerson(person, plan);
    return { name: person.name, tip: noseTip(staged), staged };
  });
  const at = (
    owner: string,
    name: string,
    position: Readonly<Vec3>,
    bearing_deg: number,
    tilt_deg: number,
    roll_deg: number,
  ): Place => ({
    owner,
    name,
    walls: fromWalls(plan, position),
    mark: fromMark(plan.people, position),
    height_m: position[2],
    nose: fromNose(noses, position),
    bearing_deg: ((bearing_deg % 360) + 360) % 360,
    tilt_deg,
    roll_deg,
  });
  const aimed = (
    owner: string,
    thing: { name: string; position: Vec3; direction: Plan["camera"]["direction"]; roll: number },
  ) => {
    const d = directionOf(thing.direction, thing.position);
    return at(owner, thing.name, thing.position, d.bearing_deg, d.tilt_deg, thing.roll);
  };
  const { backdrop } = plan;
  return {
    noses,
    people: plan.people.map((p, i) => ({
      ...at(`people[${i}]`, p.name, [p.position[0], p.position[1], 0], p.facing, 0, 0),
      mark: i === 0 ? null : fromMark(plan.people.slice(0, 1), p.position),
      noseHeight_m: noses[i].tip[2],
    })),
    marks: plan.marks.map((m, i) => at(`marks[${i}]`, m.name, [m.position[0], m.position[1], 0], 0, 0, 0)),
    lights: plan.lights.map((l, i) => aimed(`lights[${i}]`, l)),
    panels: plan.panels.map((p, i) => aimed(`panels[${i}]`, p)),
    camera: aimed("camera", { name: "camera", ...plan.camera }),
    backdrop:
      backdrop === null
        ? null
        : at(
            "backdrop",
            backdrop.kind,
            [backdrop.position[0], backdrop.position[1], backdrop.top],
            backdrop.bearing,
            0,
            0,
          ),
  };
}

/** A point of the floor from the walls, where there are any, and from the nearest mark. */
export function measureFloor(
  plan: Plan,
  position: Readonly<Vec3>,
): { walls: FromWalls | null; mark: FromMark } {
  return { walls: fromWalls(plan, position), mark: fromMark(plan.people, position) };
}

function fromWalls({ room }: Plan, [x, y]: Readonly<Vec3>): FromWalls | null {
  if (room === null) return null;
  const isLeft = x <= room.width - x;
  const isNear = y <= room.depth - y;
  return {
    side: isLeft ? "left" : "right",
    side_m: isLeft ? x : room.width - x,
    depth: isNear ? "near" : "far",
    depth_m: isNear ? y : room.depth - y,
  };
}

function fromMark(people: Plan["people"], [x, y]: readonly number[]): FromMark {
  let best: FromMark | null = null;
  for (const { name, position } of people) {
    const [right_m, into_m] = [x - position[0], y - position[1]];
    const distance_m = Math.hypot(right_m, into_m);
    if (best === null || distance_m < best.distance_m) best = { person: name, distance_m, right_m, into_m };
  }
  return best ?? { person: null, distance_m: Math.hypot(x, y), right_m: x, into_m: y };
}

export function fromNose(noses: readonly Nose[], point: Readonly<Vec3>): FromNose | null {
  let best: FromNose | null = null;
  for (const { name, tip, staged } of noses) {
    const d = [0, 1, 2].map((k) => point[k] - tip[k]);
    const distance_m = Math.hypot(d[0], d[1], d[2]);
    if (best !== null && distance_m >= best.distance_m) continue;
    const h = staged.headRotation;
    const [ahead, left, up] = [0, 1, 2].map((c) => h[c] * d[0] + h[3 + c] * d[1] + h[6 + c] * d[2]);
    best = {
      person: name,
      distance_m,
      side_deg: (Math.atan2(left, ahead) * 180) / Math.PI,
      elevation_deg: (Math.atan2(up, Math.hypot(ahead, left)) * 180) / Math.PI,
    };
  }
  return best;
}
