/** What can be asked of what is held, as edits: each is one step however many things it is asked of. */
import {
  type Edit,
  type ListName,
  mirrored,
  mirroredBearing,
  type Plan,
  type Upright,
} from "../plan/index.ts";
import { freeName, removeEdit } from "./adding.ts";
import { LIST_OF, namesOf, type PlanObject, thingOf } from "./objects.ts";

export type Command = "duplicate" | "mirror" | "pin" | "take away";

/** `holds`: what is held afterwards. `gone`: what is taken away. `why`: what was left as it is, in one sentence. */
export interface Asked {
  readonly edit: Edit | null;
  readonly holds?: readonly string[];
  readonly gone?: readonly PlanObject[];
  readonly why: string | null;
}

export function commandEdit(
  plan: Plan,
  held: readonly PlanObject[],
  command: Command,
  person: number,
): Asked {
  switch (command) {
    case "duplicate":
      return duplicate(plan, held);
    case "mirror":
      return mirror(plan, held, person);
    case "pin":
      return pin(held);
    case "take away":
      return takeAway(held);
  }
}

/** "key is pinned and stays", "key and 1 more are pinned and stay"; null where nothing is pinned. */
export function pinnedWords(held: readonly PlanObject[]): string | null {
  const pinned = held.filter((object) => object.pinned);
  if (pinned.length === 0) return null;
  return `${namesOf(pinned)} ${pinned.length > 1 ? "are pinned and stay" : "is pinned and stays"}.`;
}

export const unpinned = (held: readonly PlanObject[]) => held.filter((object) => !object.pinned);

/** Pinned when any of them is not; else the pins are taken out. */
function pin(held: readonly PlanObject[]): Asked {
  const value = held.some((object) => !object.pinned);
  const label = `${value ? "pin" : "unpin"} ${namesOf(held)}`;
  const fields = held.map(({ path }) => ({ path: [...path, "pinned"], value }));
  return { edit: { kind: "set", label, fields }, why: null };
}

function takeAway(held: readonly PlanObject[]): Asked {
  const goes = unpinned(held).filter((object) => object.kind !== "camera");
  const stays = held.some((object) => object.kind === "camera") ? "The camera stays: a plan has one." : null;
  const why = pinnedWords(held) ?? stays;
  if (goes.length === 0) return { edit: null, why };
  // from the end of each list, so that the numbers of the others hold
  const edits = goes
    .toSorted((a, b) => Number(b.path[1] ?? 0) - Number(a.path[1] ?? 0))
    .flatMap((object) => removeEdit(object) ?? []);
  return {
    edit: { kind: "several", label: `take away ${namesOf(goes)}`, edits },
    holds: [],
    gone: goes,
    why,
  };
}

/** Copies stand a step aside, all by the same step; what they aim at stays. */
const ASIDE_M = 0.3;
const ASIDE_OF_SOMEBODY_M = 0.6;

function duplicate(plan: Plan, held: readonly PlanObject[]): Asked {
  const copied = held.filter((object) => LIST_OF[object.kind] !== undefined);
  const single = held.find((object) => LIST_OF[object.kind] === undefined);
  const why = single === undefined ? null : `A plan has one ${single.kind}: it is not duplicated.`;
  if (copied.length === 0) return { edit: null, why };
  const [dx, dy] = roomAside(plan, copied);
  const taken: Partial<Record<ListName, string[]>> = {};
  const holds: string[] = [];
  const edits = copied.map((object): Edit => {
    const list = LIST_OF[object.kind] as ListName;
    const names = taken[list] ?? plan[list].map((each) => each.name);
    taken[list] = names;
    holds.push(`${list}[${names.length}]`);
    const name = freeName(object.name, names);
    names.push(name);
    const { position } = object;
    const place = [
      millimetre(position[0] + dx),
      millimetre(position[1] + dy),
      ...(object.lifts ? [position[2]] : []),
    ];
    const item = { ...thingOf(plan, object), name, position: place, pinned: false };
    return { kind: "add", label: `add ${name}`, list, item };
  });
  return { edit: { kind: "several", label: `duplicate ${namesOf(copied)}`, edits }, holds, why };
}

const millimetre = (value: number) => Math.round(value * 1000) / 1000;

/** The first side on which every copy stands inside the room; where there is none, the copies lie on what they copy. */
function roomAside(plan: Plan, objects: readonly PlanObject[]): readonly [number, number] {
  const step = objects.some((object) => object.kind === "person") ? ASIDE_OF_SOMEBODY_M : ASIDE_M;
  const sides = [
    [step, 0],
    [-step, 0],
    [0, -step],
    [0, step],
  ] as const;
  const { room } = plan;
  if (room === null) return sides[0];
  const isInside = ([dx, dy]: readonly [number, number]) =>
    objects.every(({ position: [x, y] }) => {
      return x + dx >= 0 && x + dx <= room.width && y + dy >= 0 && y + dy <= room.depth;
    });
  return sides.find(isInside) ?? [0, 0];
}

/** Left and right changed over, as the sitter sees them: across the upright plane along which he faces. */
function mirror(plan: Plan, held: readonly PlanObject[], person: number): Asked {
  const sitter = plan.people[person];
  if (sitter === undefined)
    return { edit: null, why: "Nobody stands here: there is no axis to mirror across." };
  const plane: Upright = { through: sitter.position, bearing_deg: sitter.facing };
  const others = unpinned(held).filter((object) => object.owner !== `people[${person}]`);
  if (others.length === 0) {
    return {
      edit: null,
      why: pinnedWords(held) ?? `${sitter.name} is the axis: hold what stands at the side.`,
    };
  }
  const edits = others.map((object) => mirrorEdit(plan, object, plane));
  const outside = others.find((_, i) => isOutside(plan, edits[i]));
  if (outside !== undefined)
    return {
      edit: null,
      why: `${outside.name} would stand outside the room on the other side of ${sitter.name}.`,
    };
  const label = `mirror ${namesOf(others)} across ${sitter.name}`;
  return { edit: { kind: "several", label, edits }, why: pinnedWords(held) };
}

type Fields = Extract<Edit, { kind: "set" }>;

function mirrorEdit(plan: Plan, object: PlanObject, plane: Upright): Fields {
  const put = (values: object, ...inside: readonly string[]) =>
    Object.entries(values).map(([key, value]) => ({ path: [...object.path, ...inside, key], value }));
  const thing = thingOf(plan, object) as Parameters<typeof mirrored>[0];
  const fields = put(mirrored(thing, plane));
  if (object.kind === "backdrop")
    fields.push(...put({ bearing: mirroredBearing(object.bearing_deg, plane) }));
  if (object.kind === "person") {
    fields.push(...put({ facing: mirroredBearing(object.bearing_deg, plane) }));
    const head = plan.people[object.path[1] as number]?.head;
    // + is the person's own left: on the other side it is the own right
    if (head !== undefined) fields.push(...put({ turn: 0 - head.turn, tilt: 0 - head.tilt }, "head"));
  }
  return { kind: "set", label: `mirror ${object.name}`, fields };
}

function isOutside({ room }: Plan, { fields }: Fields): boolean {
  const position = fields.find(({ path }) => path.at(-1) === "position")?.value as
    | readonly number[]
    | undefined;
  if (room === null || position === undefined) return false;
  const [x = 0, y = 0] = position;
  return x < 0 || x > room.width || y < 0 || y > room.depth;
}

/** What an owner is called once others were taken away; null when it was one of them. */
export function ownerAfter(owner: string | null, gone: readonly PlanObject[]): string | null {
  const match = /^(\w+)\[(\d+)\]$/.exec(owner ?? "");
  if (owner === null || gone.some((object) => object.owner === owner)) return null;
  if (match === null) return owner;
  const before = gone.filter(({ path }) => path[0] === match[1] && Number(path[1]) < Number(match[2]));
  return `${match[1]}[${Number(match[2]) - before.length}]`;
}
