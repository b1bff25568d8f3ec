/** How a record is laid out: what was told, the drawings and the tables, so that no page is left half empty. */
import { fillRegions, type Maker } from "./beside.ts";
import { type DrawingPart, drawingParts } from "./drawing-page.ts";
import {
  type Emit,
  type Limits,
  NO_HEADING,
  type Piece,
  type Section,
  type Spot,
  setColumn,
} from "./flow.ts";
import type { SetupContext } from "./setup-order.ts";
import { MARGIN } from "./title.ts";

/** The drawings begin on the page in hand where at least this share of it is left: no smaller can be read. */
const ROOM_TO_DRAW = 0.45;

export interface Laid {
  readonly pages: readonly (readonly string[])[];
  /** of all pages but the last, how much of the emptiest is left, mm */
  readonly emptiest: number;
  /** 1 : so much, of the drawings */
  readonly scale: number;
}

/** The best of a few ways. */
export function layOut(
  content: RecordContent,
  context: SetupContext,
  heading: Piece,
  width: number,
  limits: Limits,
): Laid {
  const laid = LAYOUTS.map((lay): Laid => {
    const pages: string[][] = [];
    const ends: number[] = [];
    const emit: Emit = (page, piece, x, y) => {
      while (pages.length <= page) {
        pages.push([]);
        ends.push(limits.top);
      }
      pages[page].push(...piece.draw(x, y));
      ends[page] = Math.max(ends[page], y + piece.height);
    };
    emit(0, heading, MARGIN, MARGIN);
    const scale = lay(content, context, width, { page: 0, y: MARGIN + heading.height }, limits, emit);
    return { pages, scale, emptiest: Math.max(0, ...ends.slice(0, -1).map((end) => limits.bottom - end)) };
  });
  return laid.reduce((best, each) => (isBetter(each, best) ? each : best));
}

/** Fewer pages; of as many, the ones that leave less of a page empty and draw larger. */
function isBetter(a: Laid, b: Laid): boolean {
  if (a.pages.length !== b.pages.length) return a.pages.length < b.pages.length;
  return costOf(a) < costOf(b) - CLEARLY;
}

/** A drawing at half the scale weighs as much as so much of a page left empty, mm. */
const HALF_SCALE = 80;
/** Layouts that differ by less than this are as good: the one that is read more easily is taken, mm. */
const CLEARLY = 25;

function costOf({ emptiest, scale }: Laid): number {
  return emptiest + HALF_SCALE * Math.log2(scale);
}

export interface RecordContent {
  /** what was planned, taken, metered and changed */
  readonly told: readonly Section[];
  readonly places: Section;
  /** with where everything stands, all that it takes to build it again */
  readonly others: readonly Section[];
  /** for beside the drawings */
  readonly makers: readonly Maker[];
  /** how the table of places is meant */
  readonly notes: readonly Maker[];
}

/** Sets everything and says at what scale the drawings came out. */
type Layout = (
  content: RecordContent,
  context: SetupContext,
  width: number,
  from: Spot,
  limits: Limits,
  emit: Emit,
) => number;

/** Those that are read more easily first. */
const LAYOUTS: readonly Layout[] = [drawnFirst, drawnOnNext, drawnLast];

/** Drawings under what was told, where they have room, and the tables under them. */
function drawnFirst(...[content, context, width, from, limits, emit]: Parameters<Layout>): number {
  const to = setColumn(content.told, from, MARGIN, limits, emit);
  return drawnOver(content, context, width, roomToDraw(to, limits), limits, emit);
}

/** Drawings at the top of the next page, as large as can be. */
function drawnOnNext(...[content, context, width, from, limits, emit]: Parameters<Layout>): number {
  const { page } = setColumn(content.told, from, MARGIN, limits, emit);
  return drawnOver(content, context, width, { page: page + 1, y: limits.top }, limits, emit);
}

function drawnOver(...[content, context, width, from, limits, emit]: Parameters<Layout>): number {
  const { makers, notes, others, places } = content;
  return drawn([...makers, ...notes], context, width, from, limits, emit, [places, ...others]);
}

/** Tables fill what is left of the page, and the drawings come last. */
function drawnLast(...[content, context, width, from, limits, emit]: Parameters<Layout>): number {
  const { makers, notes, others, places, told } = content;
  const noted = { ...places, rows: [...places.rows, ...notes.map((make) => make(width))] };
  const to = setColumn([...told, noted, ...others], from, MARGIN, limits, emit);
  return drawn(makers, context, width, roomToDraw(to, limits), limits, emit, []);
}

function roomToDraw(at: Spot, { bottom, top }: Limits): Spot {
  return at.y < bottom - ROOM_TO_DRAW * (bottom - top) ? at : { page: at.page + 1, y: top };
}

/** How it stood: drawn as large as leaves everything that comes after it on the same page, or else the first of it. */
function drawn(
  makers: readonly Maker[],
  context: SetupContext,
  width: number,
  from: Spot,
  limits: Limits,
  emit: Emit,
  sections: readonly Section[],
): number {
  const parts = drawingParts(context, MARGIN, from.y, width, limits.bottom - from.y, undefined);
  const under = ({ bottom }: DrawingPart): Spot => ({ page: from.page, y: bottom + 3 });
  const holds = (wanted: readonly Section[]) => (part: DrawingPart) =>
    setColumn(wanted, under(part), MARGIN, limits, () => undefined).page === from.page;
  const part =
    parts.find(holds(sections)) ?? parts.find(holds(sections.slice(0, 1))) ?? parts[parts.length - 1];
  emit(from.page, { height: part.bottom - from.y, draw: () => [...part.plot().parts] }, MARGIN, from.y);
  const left = fillRegions(makers, part.beside, (piece, x, y) => emit(from.page, piece, x, y));
  const rest = { heading: NO_HEADING, rows: left.map((make) => make(width)) };
  setColumn([...sections, rest], under(part), MARGIN, limits, emit);
  return part.scale;
}
