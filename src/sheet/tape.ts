/** Rulers along a drawing's rim and tapes across it. */
import type { LengthUnits } from "../units/index.ts";
import type { Extent, PaperPoint } from "./drawing.ts";
import type { Candidate } from "./labels.ts";
import { rulerMarks, unitLength } from "./scale.ts";
import { HAIR, lineOf, QUIET, rectOf, textOf } from "./svg.ts";

const RULER_SIZE = 2.6;

/** A tape on the drawing: from a wall, a mark or the floor to an object. */
export interface Tape {
  readonly owner: string;
  readonly from: PaperPoint;
  readonly to: PaperPoint;
  readonly length_m: number;
}

export function tapeParts([x1, y1]: [number, number], [x2, y2]: [number, number], tape: Tape): string[] {
  const style = { stroke: QUIET, width: 0.15 };
  const length = Math.hypot(x2 - x1, y2 - y1) || 1;
  const [nx, ny] = [(-0.9 * (y2 - y1)) / length, (0.9 * (x2 - x1)) / length];
  return [
    lineOf(x1, y1, x2, y2, style, ` data-owner="${tape.owner}" data-kind="tape"`),
    lineOf(x1 - nx, y1 - ny, x1 + nx, y1 + ny, style),
  ];
}

/** On an upright tape, or over a level one, its middle first; beside it where that is taken. */
export function* along(
  from: PaperPoint,
  to: PaperPoint,
  width: number,
  height: number,
): Generator<Candidate> {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const isLevel = Math.abs(dx) > Math.abs(dy);
  const aside = isLevel ? height / 2 + 0.5 : width / 2 + 0.6;
  // a number on its own tape has to cross it, which the placer charges for
  const ways = isLevel ? [-1, 0, 1] : [0, -1, 1];
  for (const share of [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9]) {
    for (const [rank, way] of ways.entries()) {
      const [x, y] = [from[0] + share * dx, from[1] + share * dy];
      const cost = 10 * Math.abs(share - 0.5) + (isLevel ? 3 : 6) * Math.min(rank, 1);
      yield isLevel ? { x, y: y + way * aside, cost } : { x: x + way * aside, y, cost };
    }
  }
}

/** What the rulers need of a plot. */
export interface RulerOptions {
  readonly mmPerMetre: number;
  readonly units: LengthUnits;
  /** what the rulers count from, metres */
  readonly zero: PaperPoint;
}

export function ruler(
  extent: Extent,
  { units, mmPerMetre, zero }: RulerOptions,
  toPage: (p: PaperPoint) => [number, number],
): string[] {
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
