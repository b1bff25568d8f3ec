/** What stands on a placement sheet beside and under its drawings, and how it is set on the pages. */

import { type Caution, cautionsFor, ESTIMATES_ONLY, safetyRows } from "../safety/index.ts";
import { besideMakers, COLUMN_GAP, fillRegions, type Maker, type SheetPicture, stacked } from "./beside.ts";
import type { DrawingPart } from "./drawing-page.ts";
import { backgroundTable, movesTable, reachSection } from "./extra-sections.ts";
import type { SheetExtras } from "./extras.ts";
import {
  type Emit,
  headingPiece,
  type Limits,
  NO_HEADING,
  type Piece,
  pairedPiece,
  paragraphPiece,
  type Section,
  setColumn,
  setColumns,
} from "./flow.ts";
import { fullNames } from "./full-names.ts";
import { holdSection } from "./hold.ts";
import { peopleTable, readingTable } from "./reading-tables.ts";
import { rebuildLines } from "./rebuild.ts";
import { safetyParagraphs } from "./safety-section.ts";
import { type SetupContext, setupOrder } from "./setup-order.ts";
import { QUIET } from "./svg.ts";
import { isCrowd, placementTable, tableNotes } from "./tables.ts";
import { MARGIN } from "./title.ts";

/** What takes the page's whole width. */
export type Wide = "people" | "places" | "meters" | "background" | "hold";

/** Between what is said of one thing and of the next, in a paragraph. */
const BETWEEN = " · ";

/** Every order of what there is that takes the whole width: where everything stands comes first, unless something else
 * fits better. */
export function ordersOf({ wide }: SheetContents): Wide[][] {
  return permuted(WIDE.filter((key) => wide[key].length > 0));
}

const WIDE: readonly Wide[] = ["people", "places", "meters", "background", "hold"];

function permuted(keys: readonly Wide[]): Wide[][] {
  if (keys.length < 2) return [[...keys]];
  return keys.flatMap((first) =>
    permuted(keys.filter((key) => key !== first)).map((rest) => [first, ...rest]),
  );
}

const GAP: Piece = { height: 0.8, draw: () => [] };

export interface SheetContents {
  readonly beside: readonly Maker[];
  readonly wide: Readonly<Record<Wide, readonly Section[]>>;
  /** in two columns */
  readonly halves: readonly Section[];
  /** at the end, over the whole width */
  readonly last: readonly Section[];
  readonly half: number;
}

export function sheetContents(
  context: SetupContext,
  options: SheetExtras & { readonly picture?: SheetPicture },
  width: number,
  half: number,
): SheetContents {
  const { plan, reading, places, units } = context;
  const { background = [], moves = [], reach = [], picture } = options;
  const { warnings } = reading;
  const cautions = cautionsFor(plan, places.noses, units);
  const textsOf = (kind: Caution["kind"]) =>
    cautions.filter((each) => each.kind === kind).map(({ text }) => text);
  // where things stand is told by the cautions, in the units of the sheet
  const called = warnings.filter(({ about }) => about === "light");
  const first = [
    ...textsOf("overhead"),
    ...textsOf("here"),
    ...called.map((w) => `${w.state}: ${w.margin}; ${w.remedy}.`),
  ];
  // the foot of every page says that already
  const usual = textsOf("usual").filter((text) => text !== ESTIMATES_ONLY);
  const sums = safetyParagraphs(safetyRows(plan, units), half);
  const notes = tableNotes(context).map((note) =>
    paragraphPiece(note, width, { size: 2.8, fill: QUIET, after: 0.4 }),
  );
  const table = placementTable(context, width);
  return {
    beside: [
      ...besideMakers(context, picture),
      ...[
        (w: number) => listed("Called out", first, w, "!"),
        (w: number) => (reach.length > 0 ? [reachSection(context, reach, w)] : []),
        (w: number) => (moves.length > 0 ? [movesTable(moves, w)] : []),
      ].map(whole),
    ].map(remembered),
    wide: {
      people: isCrowd(plan) ? [peopleTable(context, width)] : [],
      places: [
        { heading: table.heading, rows: [...table.rows, GAP, ...notes] },
        ...fullNames(context, width),
      ],
      meters: plan.meters.length > 0 ? [readingTable(context, width)] : [],
      background: background.length > 0 ? [backgroundTable(context, background, width)] : [],
      hold: holdSections(context, options, width),
    },
    halves: [
      listSection("Order of setting up", setupOrder(context), half, (i) => String(i + 1)),
      ...(sums.length > 0
        ? [{ heading: headingPiece("Weights and mains, load against load", half), rows: sums }]
        : []),
    ],
    last: [pairedSection("Every time", usual, width, half), rebuildSection(context, width)],
    half,
  };
}

function holdSections(
  context: SetupContext,
  { hold, noHold }: SheetExtras,
  width: number,
): readonly Section[] {
  if (hold !== undefined) return [holdSection(context, hold, width)];
  if (noHold === undefined) return [];
  return [{ heading: headingPiece("Hold zone", width), rows: [paragraphPiece(noHold, width)] }];
}

export function rebuildSection({ plan, units }: SetupContext, width: number): Section {
  const lines = rebuildLines(plan, units).map(({ of, text }) => `${of}: ${text}`);
  // one after the other in a paragraph, which takes half the room of a list: nobody reads it on set
  const heading = headingPiece("To work it out again: what else is in the plan", width);
  return { heading, rows: [paragraphPiece(lines.join(BETWEEN), width)] };
}

/** A list over the whole width, in two columns. */
function pairedSection(heading: string, said: readonly string[], width: number, half: number): Section {
  const items = said.map((text) => paragraphPiece(text, half, { lead: "–", indent: 3, after: 0.2 }));
  return {
    heading: headingPiece(heading, width),
    rows: items.length === 0 ? [] : [pairedPiece(items, [0, width - half])],
  };
}

/** Sets it all under and beside a drawing. */
export function setContents(
  contents: SheetContents,
  part: DrawingPart,
  order: readonly Wide[],
  first: readonly Section[],
  limits: Limits,
  emit: Emit,
): void {
  const left = fillRegions(contents.beside, part.beside, (piece, x, y) => emit(0, piece, x, y));
  const wide = [...first, ...order.flatMap((key) => contents.wide[key])];
  const from = setColumn(wide, { page: 0, y: part.bottom + 3 }, MARGIN, limits, emit);
  const rest = left.map((make): Section => ({ heading: NO_HEADING, rows: [make(contents.half)] }));
  const lefts = [MARGIN, MARGIN + contents.half + COLUMN_GAP] as const;
  const to = setColumns([...contents.halves, ...rest], from, lefts, limits, emit);
  setColumn(contents.last, to, MARGIN, limits, emit);
}

/** Many drawings are tried, and columns of few widths are left beside them. */
function remembered(make: Maker): Maker {
  const made = new Map<number, Piece>();
  return (width) => {
    const piece = made.get(width) ?? make(width);
    made.set(width, piece);
    return piece;
  };
}

/** Sections that are not torn, as one piece. */
function whole(make: (width: number) => readonly Section[]): Maker {
  return (width) => {
    const pieces = make(width).flatMap(({ heading, rows }) => [heading, ...rows]);
    return stacked(pieces, pieces.length === 0 ? 0 : 3);
  };
}

function listed(heading: string, items: readonly string[], width: number, lead: string): Section[] {
  return items.length === 0 ? [] : [listSection(heading, items, width, () => lead)];
}

function listSection(
  heading: string,
  items: readonly string[],
  width: number,
  lead: (i: number) => string,
): Section {
  return {
    heading: headingPiece(heading, width),
    rows: items.map((item, i) => paragraphPiece(item, width, { lead: lead(i), after: 0.6 })),
  };
}
