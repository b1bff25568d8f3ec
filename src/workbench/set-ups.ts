/** What each thing of a plan is set up by, as a short mark: it tells whether a thing was changed after somebody set it up. */
import { type Plan, standing } from "../plan/index.ts";

/** Everything of the plan that has a place, by list and name ("lights/key", "camera"), with a mark that stays the same as long
 * as nothing by which that thing is set up changes. What a light is calibrated to, or how its dial is marked, moves no stand.
 * Errors  none for a plan that was checked */
export function setUpsOf(plan: Plan): ReadonlyMap<string, string> {
  const { people, marks, backdrop, camera, panels } = plan;
  const { position, direction, roll, orientation, focalLength } = camera;
  const listed = (list: string, things: readonly { readonly name: string }[]) =>
    things.map((thing) => [`${list}/${thing.name}`, thing] as const);
  const setBy: (readonly [thing: string, by: unknown])[] = [
    ...listed("people", people),
    ...listed("marks", marks),
    ...(backdrop === null ? [] : [["backdrop", backdrop] as const]),
    ["camera", { position, direction, roll, orientation, focalLength }],
    ...listed("lights", standing(plan)),
    ...listed("panels", panels),
  ];
  return new Map(setBy.map(([thing, by]) => [thing, digest(JSON.stringify(by, inOrder))]));
}

/** An edit may put the fields of a thing in another order. */
function inOrder(_: string, value: unknown): unknown {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** FNV-1a: short, and another one whenever something changed but for one chance in four thousand million. */
function digest(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash >>> 0).toString(16);
}
