import type { Edit, ListName, Plan, Vec3 } from "../plan/index.ts";
import { bridgeOf } from "./layer-height.ts";
import { LIST_OF, type ObjectKind, type PlanObject } from "./objects.ts";

export type Addable = Exclude<ObjectKind, "camera" | "backdrop">;
export const ADDABLE: readonly Addable[] = ["light", "person", "panel", "meter", "mark"];

/** A new object of an ordinary kind, put where it can be seen and taken hold of; a mark under the chosen person.
 * Answers the edit and the new owner. */
export function addEdit(plan: Plan, kind: Addable, person: number): { edit: Edit; owner: string } {
  const list = LIST_OF[kind] as ListName;
  const name = freeName(
    kind,
    plan[list].map((each) => each.name),
  );
  const item = { name, ...made(plan, kind, person) };
  return { edit: { kind: "add", label: `add ${name}`, list, item }, owner: `${list}[${plan[list].length}]` };
}

export function removeEdit(object: PlanObject): Edit | null {
  const label = `take away ${object.name}`;
  if (object.kind === "backdrop")
    return { kind: "set", label, fields: [{ path: ["backdrop"], value: null }] };
  const list = LIST_OF[object.kind];
  return list === undefined ? null : { kind: "remove", label, list, index: object.path[1] as number };
}

function made(plan: Plan, kind: Addable, person: number): object {
  const middle = middleOf(plan);
  const face = bridgeOf(plan, 0) ?? [middle[0], middle[1], 1.5];
  const beside = (across: number, ahead: number, height: number): Vec3 => {
    const room = plan.room ?? { width: Infinity, depth: Infinity, height: Infinity };
    const inside = (value: number, most: number) =>
      Math.round(Math.min(Math.max(value, 0), most) * 100) / 100;
    return [
      inside(face[0] + across, room.width),
      inside(face[1] - ahead, room.depth),
      inside(height, room.height),
    ];
  };
  switch (kind) {
    case "light":
      // a 400 Ws head behind a 90 cm diffuser, two stops down: near f/8 at a face 1.7 m away
      return {
        position: beside(1.1, 1.1, face[2] + 0.6),
        direction: { at: face },
        face: { shape: "disc", width: 0.9 },
        output: { wattSeconds: 400, stopsDown: 2 },
      };
    case "person":
      return { position: [middle[0], middle[1]] };
    case "panel":
      return { position: beside(-0.8, 0, 1.2), direction: { bearing: 90, tilt: 0 } };
    case "mark":
      return { position: plan.people[person]?.position ?? middle };
    case "meter":
      return { position: beside(0, 0.25, face[2]), direction: { bearing: 180, tilt: 0 }, receptor: "dome" };
  }
}

/** Where somebody would stand: well into the room, in open space two metres and a half before the lens. */
function middleOf(plan: Plan): readonly [number, number] {
  const cm = (value: number) => Math.round(value * 100) / 100;
  if (plan.room !== null) return [cm(plan.room.width / 2), cm(plan.room.depth * 0.55)];
  return [plan.camera.position[0], cm(plan.camera.position[1] + 2.5)];
}

/** The name itself where nothing has it, else with the first number that is free: "key" -> "key 2" -> "key 3". */
export function freeName(like: string, taken: readonly string[]): string {
  if (!taken.includes(like)) return like;
  const [, stem = like] = /^(.*\S) \d+$/.exec(like) ?? [];
  for (let n = 2; ; n++) {
    // a name has at most 80 characters
    const name = `${stem.slice(0, 80 - ` ${n}`.length)} ${n}`;
    if (!taken.includes(name)) return name;
  }
}
