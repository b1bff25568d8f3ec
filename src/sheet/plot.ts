/** A drawing on paper: at scale, with rulers, tapes and names. */
import { formatLength } from "../units/index.ts";
import { clipLine, clipOutline } from "./clip.ts";
import type { Drawing, Extent, Label, PaperPoint, Shape, ShapeKind } from "./drawing.ts";
import { around, type Box, type Candidate, LabelPlacer, type Placed, type Segment } from "./labels.ts";
import { COOL, INK, lineOf, PAPER, type Pen, pathOf, QUIET, rectOf, textOf, WARM, WARM_WASH } from "./svg.ts";
import { along, type RulerOptions, ruler, type Tape, tapeParts } from "./tape.ts";
import { fitText, textWidth, type Weight } from "./text.ts";

/** Room for a ruler's numbers, left of a drawing and beneath it, mm. */
export const RULER = { left: 8, below: 6.5 } as const;
const NAME_SIZE = 3;
const LONGEST_NAME = 34;
/** How far a front or panel may be drawn past the room's outline before it is cut off, mm. */
const OVERHANG = 1.5;

export interface Plot {
  readonly parts: readonly string[];
  /** owners that no room was found for */
  readonly unnamed: readonly string[];
}

export interface PlotOptions extends RulerOptions {
  /** where the extent's lower left corner lies, mm on the page */
  readonly left: number;
  readonly bottom: number;
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
  tape: { stroke: INK, width: 0.2, fill: PAPER },
  camera: { stroke: INK, width: 0.3, fill: PAPER },
  meter: { stroke: INK, width: 0.2, fill: PAPER },
  front: { stroke: WARM, width: 0.4 },
  hold: { stroke: INK, width: 0.5, dash: "1.6 0.7" },
  holdCircle: { stroke: INK, width: 0.15 },
};
/** What is in one layer is drawn from far to near. */
const LAYERS: readonly (readonly ShapeKind[])[] = [
  ["room"],
  ["backdrop"],
  ["field"],
  ["tape"],
  ["body", "head", "nose", "panel", "camera"],
  ["mark"],
  ["axis"],
  ["meter"],
  ["front"],
  ["hold", "holdCircle"],
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

  parts.push(...ruler(extent, options, toPage));
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
    if (shape.kind === "mark" || shape.kind === "tape" || shape.kind === "meter" || shape.kind === "head")
      placer.keepClear(boxOf(shape.points.map(toPage)));
  }
  const unnamed: string[] = [];
  for (const tape of options.tapes) {
    const text = formatLength(tape.length_m, options.units);
    const width = textWidth(text, NAME_SIZE, 600);
    const placed = write(placer, text, 600, along(toPage(tape.from), toPage(tape.to), width, NAME_SIZE));
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
    const placed = write(
      placer,
      text,
      look.weight,
      around(clear, inside(toPage(label.at), clear), others, ...size),
    );
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

function grown(e: Extent, by: number): Extent {
  return { across0: e.across0 - by, across1: e.across1 + by, up0: e.up0 - by, up1: e.up1 + by };
}

function inside([x, y]: readonly [number, number], box: Box): [number, number] {
  return [Math.min(box.x1, Math.max(box.x0, x)), Math.min(box.y1, Math.max(box.y0, y))];
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
