/** The record sheet: what was planned, what was set and what was read and shot, so that it can be built again from paper. */
import type { Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { besideMakers, FACES_BESIDE, fillRegions, type Maker } from "./beside.ts";
import { type DrawingPart, drawingParts } from "./drawing-page.ts";
import {
  type Emit,
  headingPiece,
  LEADING,
  type Limits,
  NO_HEADING,
  type Piece,
  paragraphPiece,
  type Section,
  type Spot,
  setColumn,
} from "./flow.ts";
import { measurePlaces } from "./place.ts";
import { PAPER_SIZE } from "./placement.ts";
import { faceTable, readingTable } from "./reading-tables.ts";
import { othersPieces, picturesPiece } from "./record-pictures.ts";
import { changedTable, readTable, takenTable } from "./record-tables.ts";
import type { RecordGiven } from "./record-types.ts";
import type { SetupContext } from "./setup-order.ts";
import { MARGIN, rebuildSection } from "./sheet-contents.ts";
import { pageOf, QUIET, textOf } from "./svg.ts";
import { placementTable, tableNotes } from "./tables.ts";
import { fitText, wrapTo } from "./text.ts";
import { settingMeter } from "./words.ts";

export interface RecordOptions {
  readonly paper: "a4" | "letter";
  readonly units: LengthUnits;
}

const TITLE = 5.4;
const TITLE_LEADING = 6.6;
const SMALL = 2.8;
const FOOT = 6;
/** The drawings begin on the page in hand where at least this share of it is left. */
const ROOM_TO_DRAW = 0.6;

/** The record's pages as SVG, in millimetres.
 * Shape    plan: as it was set for the pick; reading: of that plan, meters and people in its order
 * Units    page mm; drawings at one round scale that is printed beside them; lengths as options.units says
 * Errors   none: what was not done (no photograph, no reading, no change) is said; what does not fit goes on to a further page
 * Accuracy distances and drawings as on the placement sheet [SH4] [SH5] */
export function recordSheet(
  plan: Plan,
  reading: PlanReading,
  given: RecordGiven,
  { paper, units }: RecordOptions,
): string[] {
  const [paperWidth, paperHeight] = PAPER_SIZE[paper];
  const width = paperWidth - 2 * MARGIN;
  const places = measurePlaces(plan);
  const context: SetupContext = { plan, reading, places, units, meter: settingMeter(plan, places.noses) };
  const pages: string[][] = [];
  const emit: Emit = (page, piece, x, y) => {
    while (pages.length <= page) pages.push([]);
    pages[page].push(...piece.draw(x, y));
  };
  const limits = { top: MARGIN + 8, bottom: paperHeight - MARGIN - FOOT };
  const heading = headPiece(given, width);
  emit(0, heading, MARGIN, MARGIN);
  const first = { page: 0, y: MARGIN + heading.height };
  const told = setColumn(toldSections(given, width), first, MARGIN, limits, emit);
  const isRoomLeft = told.y < limits.bottom - ROOM_TO_DRAW * (limits.bottom - limits.top);
  setUpPart(context, width, isRoomLeft ? told : { page: told.page + 1, y: limits.top }, limits, emit);
  return pages.map((parts, i) => {
    const count = `page ${i + 1} of ${pages.length}`;
    return pageOf(paperWidth, paperHeight, `${given.title}, record sheet, ${count}`, [
      ...(i === 0
        ? []
        : [textOf(MARGIN, MARGIN + 3, fitText(given.title, width, 4, 600), { size: 4, weight: 600 })]),
      ...parts,
      textOf(MARGIN, paperHeight - MARGIN, ESTIMATES, { size: SMALL, fill: QUIET }),
      textOf(paperWidth - MARGIN, paperHeight - MARGIN, count, { size: SMALL, fill: QUIET, anchor: "end" }),
    ]);
  });
}

const ESTIMATES = "What is planned is computed: estimates only; local codes and licensed people decide.";

function headPiece({ title, about }: RecordGiven, width: number): Piece {
  const lines = wrapTo(title, 2, width, TITLE, 600);
  const said = wrapTo(["Record sheet", ...about].join(" · "), 2, width, 3);
  const below = lines.length * TITLE_LEADING;
  return {
    height: below + 2.8 + said.length * LEADING,
    draw: (x, y) => [
      ...lines.map((line, i) =>
        textOf(x, y + TITLE + i * TITLE_LEADING - 1, line, { size: TITLE, weight: 600 }),
      ),
      ...said.map((line, i) => textOf(x, y + below + 2.6 + i * LEADING, line, { size: 3, fill: QUIET })),
    ],
  };
}

/** How it stood: drawn as large as leaves everything that it takes to build it again on the same page, or else the table of
 * where everything stands. */
function setUpPart(context: SetupContext, width: number, from: Spot, limits: Limits, emit: Emit): void {
  const { plan, reading } = context;
  const parts = drawingParts(context, MARGIN, from.y, width, limits.bottom - from.y, undefined);
  const places = placementTable(context, width);
  const sections = [
    places,
    ...(plan.people.length > FACES_BESIDE ? [faceTable(reading.people, width)] : []),
    ...(plan.meters.length > 0 ? [readingTable(context, width)] : []),
    rebuildSection(context, width),
  ];
  const under = ({ bottom }: DrawingPart): Spot => ({ page: from.page, y: bottom + 3 });
  const holds = (wanted: readonly Section[]) => (part: DrawingPart) =>
    setColumn(wanted, under(part), MARGIN, limits, () => undefined).page === from.page;
  const drawn = parts.find(holds(sections)) ?? parts.find(holds([places])) ?? parts[parts.length - 1];
  emit(from.page, { height: 0, draw: () => [...drawn.plot().parts] }, MARGIN, from.y);
  const makers: Maker[] = [
    ...besideMakers(context, undefined),
    ...tableNotes(context).map(
      (note) => (across: number) => paragraphPiece(note, across, { size: SMALL, fill: QUIET }),
    ),
  ];
  const left = fillRegions(makers, drawn.beside, (piece, x, y) => emit(from.page, piece, x, y));
  const rest = { heading: NO_HEADING, rows: left.map((make) => make(width)) };
  setColumn([...sections, rest], under(drawn), MARGIN, limits, emit);
}

function toldSections(given: RecordGiven, width: number): Section[] {
  const { frames, notes } = given;
  const [pick, ...others] = frames;
  return [
    { heading: NO_HEADING, rows: [picturesPiece(given, pick ?? null, width)] },
    ...(pick === undefined ? [] : takenTable(pick, width)),
    readTable(given.readings, width),
    changedTable(given, width),
    ...(notes.trim() === ""
      ? []
      : [{ heading: headingPiece("Notes", width), rows: paragraphs(notes, width) }]),
    ...(others.length === 0
      ? []
      : [{ heading: headingPiece("Also kept", width), rows: othersPieces(others, width) }]),
  ];
}

function paragraphs(text: string, width: number): Piece[] {
  return text.split(/\n+/).flatMap((line) => (line.trim() === "" ? [] : [paragraphPiece(line, width)]));
}
