import type { Edit, ListName, Plan, Vec3 } from "../plan/index.ts";
import { bridgeOf } from "./layer-height.ts";
import type { ObjectKind, PlanObject } from "./objects.ts";

export type Addable = Exclude<ObjectKind, "camera" | "backdrop">;

const LIST: Record<Addable, ListName> = {
  light: "lights",
  person: "people",
  panel: "panels",
  meter: "meters",
};

/** A new object of an ordinary kind, put where it can be seen and taken hold of. Answers the edit and the new owner. */
export function addEdit(plan: Plan, kind: Addable): { edit: Edit; owner: string } {
  const list = LIST[kind];
  const name = freeName(plan, list, kind);
  const item = { name, ...made(plan, kind) };
  return { edit: { kind: "add", label: `add ${name}`, list, item }, owner: `${list}[${plan[list].length}]` };
}

export function removeEdit(object: PlanObject): Edit | null {
  if (object.kind === "camera") return null;
  const label = `take away ${object.name}`;
  if (object.kind === "backdrop")
    return { kind: "set", label, fields: [{ path: ["backdrop"], value: null }] };
  return { kind: "remove", label, list: LIST[object.kind], index: object.path[1] as number };
}

function made(plan: Plan, kind: Addable): object {
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

function freeName(plan: Plan, list: ListName, kind: Addable): string {
  const taken = new Set(plan[list].map((each) => each.name));
  for (let n = 1; ; n++) {
    const name = n === 1 ? kind : `${kind} ${n}`;
    if (!taken.has(name)) return name;
  }
}
