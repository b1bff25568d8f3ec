import type { Drawing, Extent } from "../sheet/index.ts";
import type { Projection } from "./projection.ts";

export interface PlacedLabel {
  readonly owner: string;
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
}

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Mean advance of the drawing's type at its size, pixels, rounded up; only decides what stands clear of what. */
const CHARACTER_PX = 6.6;
const LINE_PX = 15;
/** Under this many pixels a metre meters at a face and marks under somebody have no room for their names; the list still has them. */
const NAMES_ALL_PX = 45;
const GAP_PX = 5;
/** A longer name is cut: it stands whole beside the drawing. */
const LONGEST_NAME = 26;

/** Each name beside its object: on the first side where it lies inside the sheet and clear of objects and names. */
export function placeNames(
  drawing: Drawing,
  projection: Projection,
  inside: Box,
  occupied: readonly Box[],
): PlacedLabel[] {
  const boxes = new Map(drawing.labels.map((label) => [label, boxOf(label.clear, projection)]));
  const names = drawing.labels.filter((label) => {
    const isMark = label.owner.startsWith("marks");
    // from the side all marks lie on one line, under everybody's feet
    if (isMark && drawing.view === "side") return false;
    const isSmall = isMark || label.owner.startsWith("meters");
    return (projection.scale >= NAMES_ALL_PX || !isSmall) && touches(boxes.get(label) as Box, inside);
  });
  // of what is only partly seen, the part that is seen has the name beside it
  const things = names.map((label) => within(boxes.get(label) as Box, inside));
  const taken: Box[] = [...occupied];
  return names.map((label, index) => {
    const around = things[index];
    const text = shortened(label.text);
    const width = text.length * CHARACTER_PX;
    const middle = (around.y0 + around.y1) / 2;
    const centre = (around.x0 + around.x1) / 2;
    const choices: Omit<PlacedLabel, "owner" | "text">[] = [
      { x: around.x1 + GAP_PX, y: middle + 4, anchor: "start" },
      { x: around.x0 - GAP_PX, y: middle + 4, anchor: "end" },
      { x: centre, y: around.y1 + LINE_PX, anchor: "middle" },
      { x: centre, y: around.y0 - GAP_PX - 2, anchor: "middle" },
      { x: around.x1 + GAP_PX, y: around.y0 + 4, anchor: "start" },
      { x: around.x1 + GAP_PX, y: around.y1 + 4, anchor: "start" },
      { x: around.x0 - GAP_PX, y: around.y1 + 4, anchor: "end" },
    ];
    let best = choices[0];
    let least = Number.POSITIVE_INFINITY;
    for (const choice of choices) {
      const box = textBox(choice, width);
      const others = things.filter((_, other) => other !== index);
      const cost =
        10 * outside(box, inside) +
        3 * sum(taken, (other) => overlap(box, other)) +
        sum(others, (other) => overlap(box, other));
      if (cost < least - 1) {
        least = cost;
        best = choice;
      }
    }
    taken.push(textBox(best, width));
    return { owner: label.owner, text, ...best };
  });
}

function shortened(name: string): string {
  return name.length <= LONGEST_NAME ? name : `${name.slice(0, LONGEST_NAME - 1).trimEnd()}…`;
}

/** The room that a name on the drawing takes. */
export function nameBox(label: PlacedLabel): Box {
  return textBox(label, label.text.length * CHARACTER_PX);
}

/** The room that a tape's number takes. */
export function numberBox(at: { x: number; y: number }, text: string, isUpright: boolean): Box {
  const half = (text.length * CHARACTER_PX) / 2 + 3;
  const [w, h] = isUpright ? [8, half] : [half, 8];
  return { x0: at.x - w, x1: at.x + w, y0: at.y - h, y1: at.y + h };
}

function boxOf(extent: Extent, projection: Projection): Box {
  const a = projection.toScreen(extent.across0, extent.up1);
  const b = projection.toScreen(extent.across1, extent.up0);
  return { x0: a.x, y0: a.y, x1: b.x, y1: b.y };
}

function textBox(at: { x: number; y: number; anchor: PlacedLabel["anchor"] }, width: number): Box {
  const x0 = at.anchor === "start" ? at.x : at.anchor === "end" ? at.x - width : at.x - width / 2;
  return { x0, x1: x0 + width, y0: at.y - LINE_PX + 3, y1: at.y + 3 };
}

/** The part of a line that lies in the box, by its ends; the line itself where none does. */
export function partWithin(
  a: { x: number; y: number },
  b: { x: number; y: number },
  box: Box,
): [{ x: number; y: number }, { x: number; y: number }] {
  let [from, to] = [0, 1];
  for (const [start, step, low, high] of [
    [a.x, b.x - a.x, box.x0, box.x1],
    [a.y, b.y - a.y, box.y0, box.y1],
  ] as const) {
    if (step === 0) continue;
    const ends = [(low - start) / step, (high - start) / step] as const;
    from = Math.max(from, Math.min(...ends));
    to = Math.min(to, Math.max(...ends));
  }
  if (from >= to) return [a, b];
  const at = (t: number) => ({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) });
  return [at(from), at(to)];
}

/** How much of one lies under the other, square pixels. */
export function overlap(a: Box, b: Box): number {
  const across = Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0);
  const down = Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0);
  return across > 0 && down > 0 ? across * down : 0;
}

function touches(a: Box, b: Box): boolean {
  return a.x0 <= b.x1 && a.x1 >= b.x0 && a.y0 <= b.y1 && a.y1 >= b.y0;
}

function within(a: Box, b: Box): Box {
  return {
    x0: Math.max(a.x0, b.x0),
    x1: Math.min(a.x1, b.x1),
    y0: Math.max(a.y0, b.y0),
    y1: Math.min(a.y1, b.y1),
  };
}

function outside(box: Box, inside: Box): number {
  const whole = (box.x1 - box.x0) * (box.y1 - box.y0);
  return whole - overlap(box, inside);
}

function sum(boxes: readonly Box[], cost: (box: Box) => number): number {
  return boxes.reduce((total, box) => total + cost(box), 0);
}
