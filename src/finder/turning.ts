/** Going round somebody's head, and which way that is in the picture. */
import { axesOf, directionOf, type Plan, type Vec3 } from "../plan/index.ts";
import { type StagedPerson, stagePerson } from "../staging/index.ts";
import type { Side } from "./move.ts";

const DEGREE = Math.PI / 180;

/** The chosen person, and the middle of the head: half-way between the ear openings, which no turn of it moves. */
export interface Sitter {
  readonly index: number;
  readonly name: string;
  readonly staged: StagedPerson;
  readonly head: Vec3;
}

export function sitterIn(plan: Plan, index: number): Sitter | null {
  const person = plan.people[index];
  if (person === undefined) return null;
  const staged = stagePerson(person, plan);
  const [x, y, z] = staged.headOffset as unknown as Vec3;
  return { index, name: person.name, staged, head: [x, y, z] };
}

/** To which side of the picture something goes that goes along (x, y); null where it goes to neither. */
export function pictureSide({ camera }: Plan, x: number, y: number): Side | null {
  const { bearing_deg, tilt_deg } = directionOf(camera.direction, camera.position);
  const { right } = axesOf(bearing_deg, tilt_deg, 0);
  const across = right[0] * x + right[1] * y;
  return Math.abs(across) < 1e-9 ? null : across > 0 ? "right" : "left";
}

/** Where a point lies as the nose sees it, degrees: + azimuth to the person's own left, + elevation up. */
export function fromNose(
  { staged, head }: Sitter,
  point: Readonly<Vec3>,
): { azimuth: number; elevation: number } {
  const r = staged.headRotation;
  const d = [0, 1, 2].map((k) => (point[k] as number) - (head[k] as number)) as unknown as Vec3;
  const along = (axis: number) =>
    (r[axis] as number) * d[0] + (r[3 + axis] as number) * d[1] + (r[6 + axis] as number) * d[2];
  const [ahead, left, up] = [along(0), along(1), along(2)];
  return {
    azimuth: Math.atan2(left, ahead) / DEGREE,
    elevation: Math.atan2(up, Math.hypot(ahead, left)) / DEGREE,
  };
}
