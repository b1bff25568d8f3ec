/** The operations of the trade as edits: each knows what it is called and which fields it touches.
 * Entries are given by their number in the plan's list, because a name can change. */
import type { Edit } from "./edits.ts";
import type { Vec3 } from "./parts.ts";
import type { Backdrop, Camera, Head, Light, ListName, Meter, Panel, Person, Plan, Room } from "./schema.ts";
import { ONE_OF } from "./schema.ts";

type Place = readonly number[];
const metres = (place: Place) => place.map((v) => v.toFixed(2)).join(", ");
const degrees = (value: number) => `${Number(value.toFixed(1))}°`;
const nameOf = (plan: Plan, list: ListName, index: number) =>
  plan[list][index]?.name ?? `${ONE_OF[list]} ${index + 1}`;

/** One edit that puts each field of `patch` in its place under `path`. */
function put(label: string, path: readonly (string | number)[], patch: object): Edit {
  const fields = Object.entries(patch).map(([key, value]) => ({ path: [...path, key], value }));
  return { kind: "set", label, fields };
}

/** A light that aims at a point goes on aiming at it. */
export function moveLight(plan: Plan, index: number, position: Readonly<Vec3>): Edit {
  return put(`${nameOf(plan, "lights", index)} moved to ${metres(position)}`, ["lights", index], {
    position,
  });
}

/** Turns it, where it stands, toward a point. */
export function aimLight(plan: Plan, index: number, at: Readonly<Vec3>): Edit {
  return put(`${nameOf(plan, "lights", index)} aimed at ${metres(at)}`, ["lights", index], {
    direction: { at },
  });
}

export function turnLightInPlace(plan: Plan, index: number, bearing_deg: number, tilt_deg: number): Edit {
  const label = `${nameOf(plan, "lights", index)} turned to ${degrees(bearing_deg)}, tilt ${degrees(tilt_deg)}`;
  return put(label, ["lights", index], { direction: { bearing: bearing_deg, tilt: tilt_deg } });
}

export function setLight(plan: Plan, index: number, patch: Partial<Light>): Edit {
  return put(`${nameOf(plan, "lights", index)}: ${fieldsIn(patch)}`, ["lights", index], patch);
}

export function movePanel(plan: Plan, index: number, position: Readonly<Vec3>): Edit {
  return put(`${nameOf(plan, "panels", index)} moved to ${metres(position)}`, ["panels", index], {
    position,
  });
}

export function setPanel(plan: Plan, index: number, patch: Partial<Panel>): Edit {
  return put(`${nameOf(plan, "panels", index)}: ${fieldsIn(patch)}`, ["panels", index], patch);
}

export function movePerson(plan: Plan, index: number, position: readonly [number, number]): Edit {
  return put(`${nameOf(plan, "people", index)} moved to ${metres(position)}`, ["people", index], {
    position,
  });
}

export function setPerson(plan: Plan, index: number, patch: Partial<Person>): Edit {
  return put(`${nameOf(plan, "people", index)}: ${fieldsIn(patch)}`, ["people", index], patch);
}

/** Turn, tip, tilt or what the nose follows; what is left out stays. */
export function turnHead(plan: Plan, index: number, patch: Partial<Head>): Edit {
  const parts = Object.entries(patch).map(([key, v]) => `${key} ${typeof v === "number" ? degrees(v) : v}`);
  return put(
    `${nameOf(plan, "people", index)}'s head: ${parts.join(", ")}`,
    ["people", index, "head"],
    patch,
  );
}

export function moveCamera(position: Readonly<Vec3>): Edit {
  return put(`camera moved to ${metres(position)}`, ["camera"], { position });
}

export function setCamera(patch: Partial<Camera>): Edit {
  return put(`camera: ${fieldsIn(patch)}`, ["camera"], patch);
}

export function moveMeter(plan: Plan, index: number, position: Readonly<Vec3>): Edit {
  return put(`${nameOf(plan, "meters", index)} moved to ${metres(position)}`, ["meters", index], {
    position,
  });
}

export function setMeter(plan: Plan, index: number, patch: Partial<Meter>): Edit {
  return put(`${nameOf(plan, "meters", index)}: ${fieldsIn(patch)}`, ["meters", index], patch);
}

/** Null is open space. */
export function setRoom(room: Room | null): Edit {
  const label = room
    ? `room ${metres([room.width, room.depth, room.height]).replaceAll(", ", " x ")} m`
    : "no room";
  return put(label, [], { room });
}

export function setBackdrop(backdrop: Backdrop | null): Edit {
  return put(backdrop ? `backdrop: ${backdrop.kind}` : "no backdrop", [], { backdrop });
}

export function rename(plan: Plan, list: ListName, index: number, name: string): Edit {
  return put(`${nameOf(plan, list, index)} renamed ${name}`, [list, index], { name });
}

/** What is left out of `item` gets its default, its name included. */
export function addTo(
  list: ListName,
  item: { readonly name?: string; readonly [field: string]: unknown },
): Edit {
  return { kind: "add", label: `${item.name ?? ONE_OF[list]} added`, list, item };
}

export function removeFrom(plan: Plan, list: ListName, index: number): Edit {
  return { kind: "remove", label: `${nameOf(plan, list, index)} taken away`, list, index };
}

/** Field names as words: fNumber -> f number. */
function fieldsIn(patch: object): string {
  const words = Object.entries(patch).map(([key, value]) => {
    const word = key.replace(/[A-Z]/g, (capital) => ` ${capital.toLowerCase()}`);
    return typeof value === "object" ? word : `${word} ${value}`;
  });
  return words.join(", ");
}
