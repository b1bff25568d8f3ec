/** Who of a plan is who in a photograph. */
import type { Plan } from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import { placeOf } from "./compare-planned.ts";
import type { PhotoReading } from "./types.ts";

export interface Match {
  /** in the plan */
  readonly person: number;
  /** in the photograph */
  readonly face: number;
}

/** Each person with the face nearest to where the plan has theirs, the nearest pair first; in the order of the plan. Where
 * there is one of each they belong together wherever they stand. */
export function matchFaces(plan: Plan, { image, faces }: PhotoReading): Match[] {
  const shape = image.height / image.width;
  const pairs = plan.people.flatMap((each, person) => {
    const place = placeOf(plan, stagePerson(each, plan));
    return faces.map(({ box }, face) => {
      const x = (box.left + box.width / 2) / image.width;
      const y = (box.top + box.height / 2) / image.height;
      const off = place === null ? Number.POSITIVE_INFINITY : Math.hypot(place.x - x, shape * (place.y - y));
      return { person, face, off };
    });
  });
  pairs.sort((a, b) => a.off - b.off);
  const found: Match[] = [];
  for (const { person, face } of pairs)
    if (found.every((each) => each.person !== person && each.face !== face)) found.push({ person, face });
  return found.sort((a, b) => a.person - b.person);
}
