/** Keys on a sheet: what they do to what is held, and to the paper. */
import { type Bench, holdAlso, holdThese, takeHold } from "./bench.ts";
import type { Command } from "./commands.ts";
import { keyEdit, type Sheet } from "./handling.ts";
import { editHeld, heldOn, runCommand } from "./held.ts";
import { listObjects } from "./objects.ts";
import { NEARER, type PaperSight, type Px, sightWords } from "./paper-sight.ts";

const COMMANDS: Readonly<Record<string, Command>> = {
  d: "duplicate",
  m: "mirror",
  p: "pin",
  Delete: "take away",
  Backspace: "take away",
};

const PAN: Readonly<Record<string, readonly [x: number, y: number]>> = {
  ArrowLeft: [1, 0],
  ArrowRight: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};
const PAN_PX = 60;

interface Key {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly target: EventTarget | null;
}

/** Answers whether the key meant something here. */
export function paperKey(bench: Bench, paper: PaperSight, sheet: Sheet, key: Key): boolean {
  if (key.ctrlKey || key.metaKey) {
    if (key.key.toLowerCase() !== "a" || key.shiftKey || key.altKey) return false;
    holdEverything(bench);
    return true;
  }
  const owner = (key.target as SVGElement | null)?.dataset?.owner;
  if (lookKey(bench, paper, sheet, key.key)) return true;
  if (key.key === "Escape") {
    // with nothing held it may mean something to the page
    if (heldOn(bench).length === 0) return false;
    takeHold(bench, null);
    return true;
  }
  if (owner !== undefined && (key.key === "Enter" || key.key === " ")) {
    const isHeld = heldOn(bench).some((object) => object.owner === owner);
    if (key.shiftKey) holdAlso(bench, owner);
    // space and a drag move the paper: what is held stays held
    else if (key.key === "Enter" || !isHeld) takeHold(bench, owner);
    return true;
  }
  const command = key.altKey ? undefined : COMMANDS[key.key];
  if (command !== undefined) {
    if (heldOn(bench).length > 0) runCommand(bench, command);
    return true;
  }
  if (owner === undefined) return panKey(paper, key);
  return handleKey(bench, sheet, key);
}

function holdEverything(bench: Bench): void {
  const { plan } = bench.session.get();
  const { selected } = bench.view.get();
  const owners = listObjects(plan).map((object) => object.owner);
  const first = selected !== null && owners.includes(selected) ? [selected] : [];
  holdThese(bench, [...new Set([...first, ...owners])]);
  bench.say.set(`${owners.length} things held`);
}

function lookKey(bench: Bench, paper: PaperSight, sheet: Sheet, key: string): boolean {
  const factor = key === "+" || key === "=" ? NEARER : key === "-" || key === "−" ? 1 / NEARER : null;
  if (factor === null && key !== "0") return false;
  if (factor === null) paper.fit();
  else paper.zoom(factor, heldAt(bench, paper, sheet));
  bench.say.set(sightWords(sheet, paper.times));
  return true;
}

/** Where the foremost of what is held lies in the window. */
function heldAt(bench: Bench, paper: PaperSight, sheet: Sheet): Px | null {
  const [foremost] = heldOn(bench);
  if (foremost === undefined) return null;
  return paper.projection.toScreen(foremost.position[sheet.across], foremost.position[sheet.up]);
}

function panKey(paper: PaperSight, { key, altKey }: Key): boolean {
  const way = PAN[key];
  if (way === undefined || altKey) return false;
  paper.pan(way[0] * PAN_PX, way[1] * PAN_PX);
  return true;
}

function handleKey(bench: Bench, sheet: Sheet, key: Key): boolean {
  const { plan } = bench.session.get();
  const held = heldOn(bench);
  if (held.length === 0 || keyEdit(plan, held, sheet, key) === null) return false;
  const mergeKey = `keys ${held.map((object) => object.owner).join()}`;
  editHeld(bench, mergeKey, (free) => keyEdit(plan, free, sheet, key));
  return true;
}
