import type { Plan, Vec3 } from "../plan/index.ts";
import { stagePerson } from "../staging/index.ts";
import type { View } from "./bench.ts";
import type { AskedMaps } from "./results.ts";
import { theOne } from "./wording.ts";

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

/** Where the side's layers stand: as chosen, else through the person; through the camera where nobody stands. */
export function layerAcross(plan: Plan, view: View): number {
  if (view.layerAcross_m !== null) return view.layerAcross_m;
  return centimetre(plan.people[chosenPerson(plan, view)]?.position[0] ?? plan.camera.position[0]);
}

export interface Reference {
  /** as View.reference has it: owner of a meter, null for the face */
  readonly owner: string | null;
  readonly name: string;
}

/** What stops can be counted from: the chosen person's face, and the place of every meter that reads light arriving
 * there. A spot meter reads light elsewhere than where it stands. */
export function references(plan: Plan, view: View): readonly Reference[] {
  const who = plan.people[chosenPerson(plan, view)];
  const face = who === undefined ? "f/1" : `${theOne(who.name)}'s face`;
  const meters = plan.meters.flatMap(({ name, receptor }, i) =>
    receptor === "spot" ? [] : [{ owner: `meters[${i}]`, name: `the ${name} meter` }],
  );
  return [{ owner: null, name: face }, ...meters];
}

/** The maps that the layers on screen need. */
export function mapsFor(plan: Plan, view: View): AskedMaps {
  if (!view.showPower && !view.showDirection) return { floor: null, side: null };
  const person = chosenPerson(plan, view);
  const owner = references(plan, view).find((choice) => choice.owner === view.reference)?.owner ?? null;
  const reference =
    owner === null
      ? ({ kind: "person", index: person } as const)
      : ({ kind: "meter", index: Number(/\d+/.exec(owner)?.[0]) } as const);
  return {
    floor: { plane: "floor", at: layerHeight(plan, view), person, reference },
    side: { plane: "side", at: layerAcross(plan, view), person, reference },
  };
}
