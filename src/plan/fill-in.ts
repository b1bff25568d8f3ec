/** What is left out and depends on the rest of the plan: names by number, where the camera stands, how high paper
 * hangs. Works on documents that are not checked yet, and leaves alone whatever it does not understand. */
import { faceOfFile } from "./photometry.ts";
import { LISTS, type ListName, MOST, ONE_OF } from "./schema.ts";

export type Loose = Readonly<Record<string, unknown>>;

export function isLoose(value: unknown): value is Loose {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

export function isNumber(value: unknown): value is number {
  return typeof value === "number" && Number.isFinite(value);
}

/** A list over its count is told as such, and what is in it need not be looked at. */
export function isCountable(items: unknown, list: ListName): items is readonly unknown[] {
  return Array.isArray(items) && items.length <= MOST[list];
}

const EYE_HEIGHT = 1.5;
const PAPER_TOP = 2.6;

export function fillIn(document: Loose): Loose {
  const filled: Record<string, unknown> = { ...document };
  for (const list of LISTS) {
    const items = document[list];
    if (isCountable(items, list)) filled[list] = named(items, ONE_OF[list]);
  }
  if (isCountable(filled.lights, "lights"))
    filled.lights = filled.lights.map((light) => withFace(light, document.photometry));
  const room = isLoose(document.room) ? document.room : {};
  const camera = document.camera === undefined ? {} : document.camera;
  if (isLoose(camera) && camera.position === undefined)
    filled.camera = { ...camera, position: cameraPlace(room.width, room.depth, room.height) };
  const { backdrop } = document;
  if (isLoose(backdrop) && backdrop.top === undefined && isNumber(room.height))
    filled.backdrop = { ...backdrop, top: Math.min(PAPER_TOP, room.height) };
  return filled;
}

function withFace(light: unknown, photometry: unknown): unknown {
  if (!isLoose(light) || light.face !== undefined) return light;
  const face = faceOfFile(light, photometry);
  return face ? { ...light, face } : light;
}

/** light 1 for the first, and so on; a number that is taken already is passed over. */
function named(items: readonly unknown[], word: string): unknown[] {
  const taken = new Set(items.map((item) => (isLoose(item) ? item.name : undefined)));
  return items.map((item, i) => {
    if (!isLoose(item) || item.name !== undefined) return item;
    let n = i + 1;
    while (taken.has(`${word} ${n}`)) n++;
    taken.add(`${word} ${n}`);
    return { name: `${word} ${n}`, ...withoutName(item) };
  });
}

function withoutName(item: Loose): Loose {
  const { name: _, ...rest } = item;
  return rest;
}

function cameraPlace(width: unknown, depth: unknown, height: unknown): [number, number, number] {
  if (!isNumber(width) || !isNumber(depth) || !isNumber(height)) return [0, 0, EYE_HEIGHT];
  return [width / 2, Math.min(1, depth / 4), Math.min(EYE_HEIGHT, height / 2)];
}
