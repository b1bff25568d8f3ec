/** What the same look is to be planned for again: in which room, with what. */
import { KITS } from "../gear/index.ts";
import { checkPlan, FORMAT, type Gear, type Plan, type Room, VERSION } from "../plan/index.ts";
import type { ReplanAsk } from "../shoots/index.ts";
import { type RoomSize, USUAL_ROOM } from "./start-room.ts";

/** A room that is known from another plan. */
export interface KnownRoom {
  readonly name: string;
  readonly room: Room;
}

/** The rooms of plans that are known, each once. */
export function knownRooms(
  list: readonly { readonly key: string; readonly title: string }[],
  plans: ReadonlyMap<string, Plan | null>,
): KnownRoom[] {
  const known: KnownRoom[] = [];
  for (const { key, title } of list) {
    const room = plans.get(key)?.room ?? null;
    if (room !== null && !known.some((each) => JSON.stringify(each.room) === JSON.stringify(room)))
      known.push({ name: title, room });
  }
  return known;
}

/** "same", "sized", or a known room by its number. */
export type RoomChoice = "same" | "sized" | number;
/** "stands": what stands in the plan; "brief": what its brief has on hand; or a usual kit by its name. */
export type GearChoice = string;

export interface ReplanForm {
  readonly room: RoomChoice;
  readonly size: RoomSize;
  readonly gear: GearChoice;
}

export function formFor(plan: Plan): ReplanForm {
  const { depth, height, width } = plan.room ?? USUAL_ROOM;
  return { room: "sized", size: { width, depth, height }, gear: "stands" };
}

export function roomChoices(plan: Plan, rooms: readonly KnownRoom[]): [value: string, text: string][] {
  return [
    ["sized", "a room of another size"],
    ...rooms.flatMap(({ name, room }, i): [string, string][] =>
      JSON.stringify(room) === JSON.stringify(plan.room) ? [] : [[String(i), `the room of ${name}`]],
    ),
    ["same", plan.room === null ? "open space, as it is" : "the same room"],
  ];
}

export function gearChoices({ brief }: Plan): [value: string, text: string][] {
  const listed = brief?.gear ? [...brief.gear.lights, ...brief.gear.panels].map(({ name }) => name) : [];
  return [
    ["stands", "what stands in the plan"],
    ...(listed.length === 0 ? [] : [["brief", `on hand: ${listed.join(", ")}`] as [string, string]]),
    ...KITS.map(({ name }): [string, string] => [name, `${name} (common practice, no source)`]),
  ];
}

/** Walls as they are in the plan, or ordinary ones; what was measured of a room is measured of that one. Problems say what a
 * room may be. */
export function sizedRoom(plan: Plan, size: RoomSize): { room: Room } | { why: string } {
  const { width, depth, height } = size;
  const reflectance = plan.room?.reflectance;
  const bounce = plan.room?.bounce;
  const checked = checkPlan({
    format: FORMAT,
    version: VERSION,
    room: {
      width,
      depth,
      height,
      ...(reflectance === undefined ? {} : { reflectance }),
      ...(bounce === undefined ? {} : { bounce }),
    },
  });
  if (checked.ok && checked.plan.room !== null) return { room: checked.plan.room };
  const what = checked.ok ? "must be a room" : (checked.problems[0]?.what ?? "must be a room");
  return { why: `${what.replace(/^must/, "It must")}.` };
}

/** What the form asks for. A size that is the plan's own is its own room. */
export function askOf(plan: Plan, form: ReplanForm, rooms: readonly KnownRoom[]): ReplanAsk {
  return { room: roomOf(plan, form, rooms), gear: gearOf(plan, form.gear) };
}

function roomOf(plan: Plan, { room, size }: ReplanForm, rooms: readonly KnownRoom[]): Room | null {
  if (room === "same") return plan.room;
  if (room !== "sized") return rooms[room]?.room ?? plan.room;
  const own = plan.room;
  if (own !== null && own.width === size.width && own.depth === size.depth && own.height === size.height)
    return own;
  const sized = sizedRoom(plan, size);
  return "room" in sized ? sized.room : own;
}

function gearOf({ brief }: Plan, choice: GearChoice): Gear | null {
  if (choice === "brief") return brief?.gear ?? null;
  return KITS.find(({ name }) => name === choice)?.gear ?? null;
}
