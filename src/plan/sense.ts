/** What a plan must be beyond its fields: names told apart, things inside the room, numbers that fit each other.
 * Works on documents that have other faults too, so that all problems come at once. */
import { round6 } from "./decimals.ts";
import { isCountable, isLoose, isNumber, type Loose } from "./fill-in.ts";
import { photometryProblems } from "./photometry.ts";
import type { Finding } from "./problems.ts";
import { LISTS, type ListName } from "./schema.ts";
import { briefSense } from "./sense-brief.ts";
import { type Add, lobe, names, type Path, RESERVED } from "./sense-parts.ts";
import { readingSense } from "./sense-readings.ts";

export function senseFindings(plan: Loose): Finding[] {
  const out: Finding[] = [];
  const add: Add = (path, say) => void out.push({ path, say });
  for (const list of LISTS) if (isCountable(plan[list], list)) names(plan[list], [list], add);
  each(plan, "lights", (light, path) => {
    placed(plan, light, path, add);
    if (light.name === "ambient") add([...path, "name"], () => RESERVED);
    lobe(light, path, add);
    for (const { field, what } of photometryProblems(light, plan.photometry))
      add([...path, ...field], () => what);
  });
  each(plan, "panels", (panel, path) => {
    placed(plan, panel, path, add);
    shares(panel, path, add);
  });
  each(plan, "people", (person, path) => {
    placed(plan, person, path, add);
    if (person.pose === "standing") underCeiling(plan, person.stature, [...path, "stature"], add);
    underCeiling(plan, person.eyeHeight, [...path, "eyeHeight"], add);
  });
  each(plan, "meters", (meter, path) => placed(plan, meter, path, add));
  each(plan, "marks", (mark, path) => placed(plan, mark, path, add));
  each(plan, "readings", (reading, path) => {
    placed(plan, reading, path, add);
    readingSense(plan, reading, path, add);
  });
  if (isLoose(plan.camera)) placed(plan, plan.camera, ["camera"], add);
  if (isLoose(plan.backdrop)) {
    placed(plan, plan.backdrop, ["backdrop"], add);
    underCeiling(plan, plan.backdrop.top, ["backdrop", "top"], add);
    sweep(plan.backdrop, add);
  }
  circuits(plan, add);
  if (isLoose(plan.brief)) briefSense(plan, plan.brief, add);
  return out;
}

/** Told apart by name, and there for every head that is plugged into one. */
function circuits(plan: Loose, add: Add) {
  const list = Array.isArray(plan.circuits) ? plan.circuits.filter(isLoose) : [];
  names(list, ["circuits"], add);
  each(plan, "lights", ({ head }, path) => {
    const circuit = isLoose(head) ? head.circuit : null;
    if (typeof circuit !== "string" || list.some(({ name }) => name === circuit)) return;
    add([...path, "head", "circuit"], () => {
      return `must be the name of one of the plan's circuits; there is no "${circuit.slice(0, 80)}"`;
    });
  });
}

function each(plan: Loose, list: ListName, visit: (item: Loose, path: Path) => void) {
  const items = plan[list];
  if (!isCountable(items, list)) return;
  items.forEach((item, i) => {
    if (isLoose(item)) visit(item, [list, i]);
  });
}

const AXES = ["x", "y", "z"] as const;
const SIDES = ["width", "depth", "height"] as const;

/** On a wall, the floor or the ceiling counts as inside; without a room, everywhere is. */
function placed(plan: Loose, thing: Loose, path: Path, add: Add) {
  const { position, direction } = thing;
  if (!Array.isArray(position)) return;
  const { room } = plan;
  position.slice(0, 3).forEach((value: unknown, k) => {
    const limit = isLoose(room) ? room[SIDES[k]] : undefined;
    if (!isNumber(value) || !isNumber(limit) || (value >= 0 && value <= limit)) return;
    const where = k === 2 && value < 0 ? "under the floor" : "outside the room";
    add([...path, "position", k], () => {
      return `must be a number from 0 to ${limit} m; ${AXES[k]} = ${value} m is ${where}`;
    });
  });
  const at = isLoose(direction) ? direction.at : undefined;
  if (Array.isArray(at) && at.length === position.length && at.every((v, k) => isSamePlace(v, position[k])))
    add(
      [...path, "direction", "at"],
      () => "must be another point than the position itself; aim at something",
    );
}

function isSamePlace(a: unknown, b: unknown): boolean {
  return isNumber(a) && isNumber(b) && round6(a) === round6(b);
}

function shares({ reflectance, transmittance }: Loose, path: Path, add: Add) {
  const channels: unknown[] = Array.isArray(reflectance) ? reflectance : [reflectance];
  if (!isNumber(transmittance) || !channels.every(isNumber)) return;
  const most = Math.max(...channels.map(round6));
  if (most > 1 || transmittance > 1 || round6(most + round6(transmittance)) <= 1) return;
  add([...path, "transmittance"], () => {
    return `must be a number from 0 to ${round6(1 - most)}: with the reflectance, ${most}, it may come to 1 at most; it is ${transmittance}`;
  });
}

function underCeiling({ room }: Loose, height: unknown, path: Path, add: Add) {
  const limit = isLoose(room) ? room.height : undefined;
  if (!isNumber(height) || !isNumber(limit) || height <= limit) return;
  add(path, () => `must be at most ${limit} m, the height of the room; it is ${height} m`);
}

function sweep({ sweepRadius, top }: Loose, add: Add) {
  if (!isNumber(sweepRadius) || !isNumber(top) || sweepRadius <= top) return;
  add(["backdrop", "sweepRadius"], () => {
    return `must be at most ${top} m, the height of the top edge; it is ${sweepRadius} m`;
  });
}
