/** Gear to begin with, as many have it (common practice, no source): things of the shelf that everybody begins with, under
 * their own names and with their own numbers. */
import type { Gear, GearFront, GearLight, GearPanel } from "../plan/index.ts";
import { gearFront, gearLight, gearPanel } from "./brief.ts";
import type { Kind, PieceOf } from "./schema.ts";
import { STARTER_SHELF } from "./starter.ts";

export interface Kit {
  readonly name: string;
  readonly gear: Gear;
}

export const USUAL_FRONT = front("dish 55");
export const USUAL_LIGHT = light("head", "studio head 400 Ws", ["octa 120"]);
export const USUAL_PANEL = panel("V-flat leaf, white");
const BLACK_PANEL = panel("V-flat leaf, black");

const KEY = light("key", "studio head 400 Ws", ["octa 120", "dish 55"]);
const SECOND = light("second", "studio head 400 Ws", ["strip 30 × 120", "octa 120"]);
const FLASH = light("flash", "small flash 60 Ws", ["umbrella 100"]);

export const KITS: readonly [Kit, ...Kit[]] = [
  { name: "one head and a white board", gear: { lights: [KEY], panels: [USUAL_PANEL] } },
  {
    name: "two heads and two boards",
    gear: { lights: [KEY, SECOND], panels: [USUAL_PANEL, BLACK_PANEL] },
  },
  { name: "one small flash", gear: { lights: [FLASH], panels: [] } },
];

function light(name: string, head: string, fronts: readonly string[]): GearLight {
  return gearLight(name, starter("heads", head), fronts.map(front), starter("stands", "stand"));
}

function front(name: string): GearFront {
  return gearFront(starter("modifiers", name));
}

function panel(name: string): GearPanel {
  return gearPanel(name, starter("panels", name));
}

function starter<K extends Kind>(kind: K, name: string): PieceOf<K> {
  const pieces: readonly PieceOf<K>[] = STARTER_SHELF[kind];
  const found = pieces.find((piece) => piece.name === name);
  if (found === undefined) throw new RangeError(`${name} is not among the ${kind} to begin with`);
  return found;
}
