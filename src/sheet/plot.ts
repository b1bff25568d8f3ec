/** A drawing on paper: at scale, with rulers, tapes and names. */
import { formatLength, type LengthUnits } from "../units/index.ts";
import { clipLine, clipOutline } from "./clip.ts";
import type { Drawing, Extent, Label, PaperPoint, Shape, ShapeKind } from "./drawing.ts";
import { around, type Box, type Candidate, LabelPlacer, type Placed, type Segment } from "./labels.ts";
import { rulerMarks, unitLength } from "./scale.ts";
import {
  COOL,
  HAIR,
  INK,
  lineOf,
  PAPER,
  type Pen,
  pathOf,
  QUIET,
  rectOf,
  textOf,
  WARM,
  WARM_WASH,
} from "./svg.ts";
import { fitText, textWidth, type Weight } from "./text.ts";

/** Room for a ruler's numbers, left of a drawing and beneath it, mm. */
export const RULER = { left: 8, below: 6.5 } as const;
const NAME_SIZE = 3;
const RULER_SIZE = 2.6;
const LONGEST_NAME = 34;
/** How far a front or panel may be drawn past the room's outline before it is cut off, mm. */
const OVERHANG = 3;

/** A tape on the drawing: from a wall, a mark or the floor to an object. */
export interface Tape {
  readonly owner: string;
  readonly from: PaperPoint;
  readonly to: PaperPoint;
  readonly length_m: number;
}

export interface Plot {
  readonly parts: readonly string[];
  /** owners that no room was found for */
  readonly unnamed: readonly string[];
}

export interface PlotOptions {
  /** where the extent's lower left corner lies, mm on the page */
  readonly left: number;
  readonly bottom: number;
  readonly mmPerMetre: number;
  readonly units: LengthUnits;
  /** what the rulers count from, metres */
  readonly zero: PaperPoint;
  readonly tapes: readonly Tape[];
  /** names in the order in which they are given room */
  readonly labels: readonly Label[];
  /** names may run this far past the extent, mm */
  readonly slack: { readonly right: number; readonly top: number };
}

const STYLE: Record<ShapeKind, Pen> = {
  room: { stroke: INK, width: 0.5 },
  backdrop: { stroke: INK, width: 0.5 },
  field: { stroke: QUIET, width: 0.2, dash: "0.5 1" },
  axis: { stroke: COOL, width: 0.25 },
  panel: { stroke: INK, width: 0.45, fill: PAPER },
  body: { stroke: INK, width: 0.2, fill: PAPER },
  head: { stroke: INK, width: 0.3, fill: PAPER },
  nose: { stroke: INK, width: 0.2 },
  mark: { stroke: INK, width: 0.25 },
  camera: { stroke: INK, width: 0.3, fill: PAPER },
  meter: { stroke: INK, width: 0.2, fill: PAPER },
  front: { stroke: WARM, width: 0.4 },
};
/** What is in one layer is drawn from far to near. */
const LAYERS: readonly (readonly ShapeKind[])[] = [
  ["room"],
  ["backdrop"],
  ["field"],
  ["body", "head", "nose", "panel", "camera"],
  ["mark"],
  ["axis"],
  ["meter"],
  ["front"],
];

export function plotDrawing(drawing: Drawing, options: PlotOptions): Plot {
  const { left, bottom, mmPerMetre } = options;
  const { extent } = drawing;
  const toPage = ([across, up]: PaperPoint): [number, number] => [
    left + (across - extent.across0) * mmPerMetre,
    bottom - (up - extent.up0) * mmPerMetre,
  ];
  const rim = grown(extent, OVERHANG / mmPerMetre);
  const parts: string[] = [];
  const lines: Segment[] = [];

  parts.push(...ruler(drawing, options, toPage));
  const fronts = drawing.shapes.filter((s) => s.kind === "front" && s.closed && !s.off);
  for (const front of fronts) {
    const outline = clipOutline(front.points, rim);
    if (outline.length > 0) parts.push(pathOf(outline.map(toPage), true, { fill: WARM_WASH }));
  }
  for (const kinds of LAYERS) {
    const layer = drawing.shapes.filter((s) => kinds.includes(s.kind)).toSorted((a, b) => a.depth - b.depth);
    for (const shape of layer) {
      const { kind } = shape;
      for (const [points, closed] of cut(shape, kind === "axis" || kind === "field" ? extent : rim)) {
        const onPage = points.map(toPage);
        const dash = shape.off ? { dash: "1 0.8" } : {};
        parts.push(pathOf(onPage, closed, { ...STYLE[kind], ...dash }, dataOf(shape)));
        lines.push(...segmentsOf(onPage, closed));
      }
    }
  }

  const [x0, y1] = toPage([extent.across0, extent.up0]);
  const [x1, y0] = toPage([extent.across1, extent.up1]);
  const area = {
    x0: x0 + 0.6,
    y0: y0 + 0.6 - options.slack.top,
    x1: x1 - 0.6 + options.slack.right,
    y1: y1 - 0.6,
  };
  for (const tape of options.tapes) {
    const [a, b] = [toPage(tape.from), toPage(tape.to)];
    lines.push([...a, ...b]);
    parts.push(...tapeParts(a, b, tape));
  }
  const placer = new LabelPlacer(area, lines);
  for (const shape of drawing.shapes) {
    if (shape.kind === "mark" || shape.kind === "meter" || shape.kind === "head")
      placer.keepClear(boxOf(shape.points.map(toPage)));
  }
  const unnamed: string[] = [];
  for (const tape of options.tapes) {
    const text = formatLength(tape.length_m, options.units);
    const placed = write(placer, text, 600, along(toPage(tape.from), toPage(tape.to)));
    if (placed === null) unnamed.push(tape.owner);
    else parts.push(...wordParts(placed, text, 600));
  }
  const clears = options.labels.map(({ clear }) =>
    boxOf([toPage([clear.across0, clear.up1]), toPage([clear.across1, clear.up0])]),
  );
  for (const [i, label] of options.labels.entries()) {
    const look = lookOf(label);
    const text = fitText(label.text, LONGEST_NAME, NAME_SIZE, look.weight);
    const own = clears[i];
    const clear = within(own, { x0, y0, x1, y1 });
    const size = [textWidth(text, NAME_SIZE, look.weight), NAME_SIZE] as const;
    const others = clears.filter((other) => other !== own);
    const placed = write(placer, text, look.weight, around(clear, others, ...size));
    if (placed === null) unnamed.push(label.owner);
    else parts.push(...wordParts(placed, text, look.weight, look.fill));
  }
  return { parts, unnamed };
}

function write(placer: LabelPlacer, text: string, weight: Weight, where: Iterable<Candidate>): Placed | null {
  return placer.place(textWidth(text, NAME_SIZE, weight), NAME_SIZE, where);
}

/** Lights stand out, meters stand back. */
function lookOf({ owner }: Label): { weight: Weight; fill: string } {
  return { weight: owner.startsWith("lights") ? 600 : 400, fill: owner.startsWith("meters") ? QUIET : INK };
}

function wordParts({ box, leader, crosses }: Placed, text: string, weight: Weight, fill = INK): string[] {
  const parts: string[] = [];
  if (leader !== null) parts.push(lineOf(...leader, { stroke: QUIET, width: 0.15 }));
  if (crosses)
    parts.push(rectOf(box.x0 - 0.3, box.y0, box.x1 - box.x0 + 0.6, box.y1 - box.y0, { fill: PAPER }));
  parts.push(textOf(box.x0, box.y0 + 0.78 * NAME_SIZE, text, { size: NAME_SIZE, weight, fill }));
  return parts;
}

function tapeParts([x1, y1]: [number, number], [x2, y2]: [number, number], tape: Tape): string[] {
  const style = { stroke: QUIET, width: 0.15 };
  const length = Math.hypot(x2 - x1, y2 - y1) || 1;
  const [nx, ny] = [(-0.9 * (y2 - y1)) / length, (0.9 * (x2 - x1)) / length];
  return [
    lineOf(x1, y1, x2, y2, style, ` data-owner="${tape.owner}" data-kind="tape"`),
    lineOf(x1 - nx, y1 - ny, x1 + nx, y1 + ny, style),
  ];
}

/** Along a tape, its middle first. */
function* along(from: [number, number], to: [number, number]): Generator<Candidate> {
  for (const share of [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9]) {
    for (const aside of [0, -2, 2, -4, 4]) {
      const isLevel = Math.abs(to[0] - from[0]) > Math.abs(to[1] - from[1]);
      yield {
        x: from[0] + share * (to[0] - from[0]) + (isLevel ? 0 : 2 * aside),
        y: from[1] + share * (to[1] - from[1]) + (isLevel ? aside : 0),
        cost: 10 * Math.abs(share - 0.5) + 1.5 * Math.abs(aside),
      };
    }
  }
}

function cut(shape: Shape, rim: Extent): [readonly PaperPoint[], boolean][] {
  if (shape.closed) {
    const outline = clipOutline(shape.points, rim);
    return outline.length > 0 ? [[outline, true]] : [];
  }
  const all = shape.points.every(
    ([a, u]) => a >= rim.across0 && a <= rim.across1 && u >= rim.up0 && u <= rim.up1,
  );
  if (all) return [[shape.points, false]];
  return shape.points.slice(1).flatMap((to, i): [PaperPoint[], boolean][] => {
    const part = clipLine([shape.points[i], to], rim);
    return part === null ? [] : [[part, false]];
  });
}

function ruler(
  drawing: Drawing,
  options: PlotOptions,
  toPage: (p: PaperPoint) => [number, number],
): string[] {
  const { extent } = drawing;
  const { units, mmPerMetre, zero } = options;
  const unit = unitLength(units);
  const style = { stroke: QUIET, width: 0.2 };
  const text = { size: RULER_SIZE, fill: QUIET };
  const parts: string[] = [];
  for (const mark of rulerMarks(extent.across0 - zero[0], extent.across1 - zero[0], mmPerMetre, units)) {
    const [x, y] = toPage([zero[0] + mark * unit, extent.up0]);
    parts.push(lineOf(x, y, x, y + 1.2, style));
    parts.push(textOf(x, y + 4.2, signed(mark), { ...text, anchor: "middle" }));
  }
  for (const mark of rulerMarks(extent.up0 - zero[1], extent.up1 - zero[1], mmPerMetre, units)) {
    const [x, y] = toPage([extent.across0, zero[1] + mark * unit]);
    parts.push(lineOf(x - 1.2, y, x, y, style));
    parts.push(textOf(x - 1.8, y + 0.36 * RULER_SIZE, signed(mark), { ...text, anchor: "end" }));
  }
  const [x0, y1] = toPage([extent.across0, extent.up0]);
  const [x1, y0] = toPage([extent.across1, extent.up1]);
  parts.push(rectOf(x0, y0, x1 - x0, y1 - y0, { stroke: HAIR, width: 0.15 }));
  return parts;
}

function signed(mark: number): string {
  return mark < 0 ? `−${-mark}` : String(mark);
}

function grown(e: Extent, by: number): Extent {
  return { across0: e.across0 - by, across1: e.across1 + by, up0: e.up0 - by, up1: e.up1 + by };
}

function within(box: Box, rim: Box): Box {
  const [x0, y0] = [Math.max(box.x0, rim.x0), Math.max(box.y0, rim.y0)];
  return { x0, y0, x1: Math.max(x0, Math.min(box.x1, rim.x1)), y1: Math.max(y0, Math.min(box.y1, rim.y1)) };
}

function boxOf(points: readonly (readonly [number, number])[]): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

function segmentsOf(points: readonly (readonly [number, number])[], closed: boolean): Segment[] {
  const out: Segment[] = [];
  const count = closed ? points.length : points.length - 1;
  for (let i = 0; i < count; i++) out.push([...points[i], ...points[(i + 1) % points.length]]);
  return out;
}

function dataOf(shape: Shape): string {
  return ` data-owner="${shape.owner}" data-kind="${shape.kind}"`;
}
