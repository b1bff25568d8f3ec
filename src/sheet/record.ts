/** The record sheet: what was planned, what was set and what was read and shot, so that it can be built again from paper. */
import type { Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { besideMakers } from "./beside.ts";
import { headingPiece, LEADING, NO_HEADING, type Piece, paragraphPiece } from "./flow.ts";
import { fullNames } from "./full-names.ts";
import { measurePlaces } from "./place.ts";
import { PAPER_SIZE } from "./placement.ts";
import { peopleTable, readingTable } from "./reading-tables.ts";
import { layOut, type RecordContent } from "./record-layouts.ts";
import { othersPieces, picturesPiece, plannedAlone } from "./record-pictures.ts";
import { changedTable, readTable, takenTable } from "./record-tables.ts";
import type { RecordGiven } from "./record-types.ts";
import type { SetupContext } from "./setup-order.ts";
import { rebuildSection } from "./sheet-contents.ts";
import { pageOf, QUIET, textOf } from "./svg.ts";
import { isCrowd, placementTable, tableNotes } from "./tables.ts";
import { fitText, wrapTo } from "./text.ts";
import { MARGIN } from "./title.ts";
import { roomWords, settingMeter } from "./words.ts";

export interface RecordOptions {
  readonly paper: "a4" | "letter";
  readonly units: LengthUnits;
}

const TITLE = 5.4;
const TITLE_LEADING = 6.6;
const SMALL = 2.8;
const FOOT = 6;

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
  const limits = { top: MARGIN + 8, bottom: paperHeight - MARGIN - FOOT };
  const heading = headPiece(given, roomWords(plan, units), width);
  const content = recordContent(context, given, width);
  const { pages } = layOut(content, context, heading, width, limits);
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

function headPiece({ title, about }: RecordGiven, room: string, width: number): Piece {
  const lines = wrapTo(title, 2, width, TITLE, 600);
  // the room by itself: without its size no distance from a wall is found again, and names may be long
  const said = [...wrapTo(["Record sheet", ...about].join(" · "), 2, width, 3), room];
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

function recordContent(context: SetupContext, given: RecordGiven, width: number): RecordContent {
  const { plan } = context;
  const { frames, notes } = given;
  const [pick, ...others] = frames;
  const beside = besideMakers(context, undefined);
  const pictures =
    pick === undefined
      ? plannedAlone(given, beside, width)
      : { piece: picturesPiece(given, pick, width), left: beside };
  return {
    told: [
      { heading: NO_HEADING, rows: [pictures.piece] },
      ...(pick === undefined ? [] : takenTable(pick, width)),
      readTable(given.readings, width),
      changedTable(given, width),
      ...(notes.trim() === ""
        ? []
        : [{ heading: headingPiece("Notes", width), rows: paragraphs(notes, width) }]),
      ...(others.length === 0
        ? []
        : [{ heading: headingPiece("Also kept", width), rows: othersPieces(others, width) }]),
    ],
    places: placementTable(context, width),
    others: [
      ...(isCrowd(plan) ? [peopleTable(context, width)] : []),
      ...fullNames(context, width),
      ...(plan.meters.length > 0 ? [readingTable(context, width)] : []),
      rebuildSection(context, width),
    ],
    makers: pictures.left,
    notes: tableNotes(context).map(
      (note) => (across: number) => paragraphPiece(note, across, { size: SMALL, fill: QUIET }),
    ),
  };
}

function paragraphs(text: string, width: number): Piece[] {
  return text.split(/\n+/).flatMap((line) => (line.trim() === "" ? [] : [paragraphPiece(line, width)]));
}
