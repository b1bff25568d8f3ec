import type { Plan, Vec3 } from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import type { View } from "./bench.ts";

/** Heights that people set are read to the centimetre. */
const centimetre = (value: number) => Math.round(value * 100) / 100;

/** Whose face the layers and the reading are about. */
export function chosenPerson(plan: Plan, view: View): number {
  return view.person < plan.people.length ? view.person : 0;
}

/** The bridge of a person's nose, where light on a face is read. */
export function bridgeOf(plan: Plan, person: number): Vec3 | null {
  const who = plan.people[person];
  if (who === undefined) return null;
  const { shape, headRotation: r, headOffset } = stagePerson(who, plan);
  const [x, y, z] = shape.head.landmarks.noseBridge;
  const along = (row: number) =>
    (r[row] as number) * x + (r[row + 1] as number) * y + (r[row + 2] as number) * z;
  return [
    (headOffset[0] as number) + along(0),
    (headOffset[1] as number) + along(3),
    (headOffset[2] as number) + along(6),
  ];
}

/** Height of the layers: as chosen, else the height of the face; of the camera where nobody stands. */
export function layerHeight(plan: Plan, view: View): number {
  if (view.layerHeight_m !== null) return view.layerHeight_m;
  const bridge = bridgeOf(plan, chosenPerson(plan, view));
  return centimetre(bridge?.[2] ?? plan.camera.position[2]);
}
