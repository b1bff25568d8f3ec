/** The placement sheet: one plan as pages that are read at arm's length, in a dim room, on a print or a phone. */
import type { Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import { besideMakers, FACES_BESIDE, fillRegions, type SheetPicture } from "./beside.ts";
import { overheadCautions, usualCautions } from "./cautions.ts";
import { drawingPart } from "./drawing-page.ts";
import { headingPiece, type Piece, paragraphPiece, type Section, type Spot, setColumn } from "./flow.ts";
import { holdSection, type SheetHold } from "./hold.ts";
import { measurePlaces } from "./place.ts";
import { faceTable, readingTable } from "./reading-tables.ts";
import { type SetupContext, setupOrder } from "./setup-order.ts";
import { pageOf, QUIET, textOf } from "./svg.ts";
import { placementTable, tableNotes } from "./tables.ts";
import { fitText, wrapTo } from "./text.ts";
import { settingMeter } from "./words.ts";

export interface SheetOptions {
  readonly paper: "a4" | "letter";
  readonly units: LengthUnits;
  /** printed as it is given: the sheet has no clock of its own */
  readonly date?: string;
  readonly picture?: SheetPicture;
  /** how far one of the people may drift; none is printed where it is left out */
  readonly hold?: SheetHold;
}

export const PAPER_SIZE = { a4: [210, 297], letter: [215.9, 279.4] } as const;
const MARGIN = 12;
const TITLE = 5.4;
const TITLE_LEADING = 6.6;
const SMALL = 2.8;
const FOOT = 6;
const COLUMN_GAP = 8;
const NO_HEADING: Piece = { height: 0, draw: () => [] };

type Emit = (page: number, parts: readonly string[]) => void;

/** The sheet's pages as SVG, in millimetres.
 * Shape    reading: of the same plan, meters and people in the plan's order
 * Units    page mm; drawings at one round scale that is printed beside them; lengths as options.units says
 * Errors   none: what does not fit goes on to another page, a long name is shortened, and what could not be named on
 *          the drawing is listed under it
 * Accuracy every printed distance within 5 mm of the plan, every drawn one within 0.3 mm of its scale [SH4] [SH5] */
export function placementSheet(plan: Plan, reading: PlanReading, options: SheetOptions): string[] {
  const [paperWidth, paperHeight] = PAPER_SIZE[options.paper];
  const width = paperWidth - 2 * MARGIN;
  const places = measurePlaces(plan);
  const meter = settingMeter(plan, places.noses);
  const context: SetupContext = { plan, reading, places, units: options.units, meter };
  const pages: string[][] = [];
  const emit: Emit = (page, parts) => {
    while (pages.length <= page) pages.push([]);
    pages[page].push(...parts);
  };

  const top = title(context, options, width, emit);
  const limits = { top: MARGIN + 8, bottom: paperHeight - MARGIN - FOOT };
  const drawn = drawingPart(context, MARGIN, top, width, limits.bottom - top, options.hold);
  emit(0, drawn.parts);
  const left = fillRegions(besideMakers(context, options.picture), drawn.beside, (parts) => emit(0, parts));
  const tables = [
    ...unnamedNote(context, drawn.unnamed, width),
    ...tableSections(context, width, options.hold),
  ];
  const from = setColumn(tables, { page: 0, y: drawn.bottom + 4 }, MARGIN, limits, emit);
  const half = (width - COLUMN_GAP) / 2;
  const rest: Section = { heading: NO_HEADING, rows: left.map((make) => make(half)) };
  const column = (sections: readonly Section[], start: Spot, x: number) =>
    setColumn(sections, start, x, limits, emit);
  column([...orderSections(context, half), rest], from, MARGIN);
  column(cautionSections(context, half), from, MARGIN + half + COLUMN_GAP);

  return pages.map((parts, i) => {
    const count = `page ${i + 1} of ${pages.length}`;
    return pageOf(paperWidth, paperHeight, `${plan.title}, placement sheet, ${count}`, [
      ...(i === 0
        ? []
        : [textOf(MARGIN, MARGIN + 3, fitText(plan.title, width, 4, 600), { size: 4, weight: 600 })]),
      ...parts,
      textOf(MARGIN, paperHeight - MARGIN, ESTIMATES, { size: SMALL, fill: QUIET }),
      textOf(paperWidth - MARGIN, paperHeight - MARGIN, count, { size: SMALL, fill: QUIET, anchor: "end" }),
    ]);
  });
}

const ESTIMATES = "Computed from the plan: estimates only. Local rules and competent people decide.";

/** Returns where the rest of the page begins. */
function title({ plan, units }: SetupContext, { date }: SheetOptions, width: number, emit: Emit): number {
  const lines = wrapTo(plan.title, 2, width, TITLE, 600);
  const length = (m: number) => formatLength(m, units);
  const { room } = plan;
  const about = [
    "Placement sheet",
    ...(date === undefined ? [] : [date]),
    room === null
      ? "open space, no walls given"
      : `room ${length(room.width)} wide, ${length(room.depth)} deep, ${length(room.height)} high`,
  ].join(" · ");
  const bottom = MARGIN + lines.length * TITLE_LEADING;
  emit(0, [
    ...lines.map((line, i) =>
      textOf(MARGIN, MARGIN + TITLE + i * TITLE_LEADING - 1, line, { size: TITLE, weight: 600 }),
    ),
    textOf(MARGIN, bottom + 2.6, fitText(about, width, 3), { size: 3, fill: QUIET }),
  ]);
  return bottom + 7;
}

function unnamedNote({ plan, places }: SetupContext, owners: readonly string[], width: number): Section[] {
  if (owners.length === 0) return [];
  const all = [...places.lights, ...places.people, ...places.marks, ...places.panels, places.camera];
  const names = owners.map((owner) => all.find((p) => p.owner === owner)?.name ?? nameOfMeter(plan, owner));
  const text = `No room on the drawing for every name and tape of: ${names.join(", ")}. The tables have them all.`;
  return [{ heading: NO_HEADING, rows: [paragraphPiece(text, width, { size: SMALL, fill: QUIET })] }];
}

function nameOfMeter(plan: Plan, owner: string): string {
  return plan.meters.find((_, i) => owner === `meters[${i}]`)?.name ?? owner;
}

function tableSections(context: SetupContext, width: number, hold: SheetHold | undefined): Section[] {
  const { plan, reading } = context;
  const notes = tableNotes(context).map((note) => paragraphPiece(note, width, { size: SMALL, fill: QUIET }));
  const sections = [placementTable(context, width), { heading: NO_HEADING, rows: notes }];
  if (plan.people.length > FACES_BESIDE) sections.push(faceTable(reading.people, width));
  if (plan.meters.length > 0) sections.push(readingTable(context, width));
  if (hold !== undefined) sections.push(holdSection(context, hold, width));
  return sections;
}

function orderSections(context: SetupContext, width: number): Section[] {
  const { warnings } = context.reading;
  const over = overheadCautions(context.plan, context.places.noses);
  // lights over people have their own heading, in the other column
  const others = warnings.filter((w) =>
    over.every(({ path, people }) => w.path !== path || !people.some((p) => w.state.includes(p))),
  );
  const called = others.map((w) => `${w.state}: ${w.margin}; ${w.remedy}.`);
  const sections = [listSection("Order of setting up", setupOrder(context), width, (i) => String(i + 1))];
  if (called.length > 0) sections.push(listSection("Called out by the reading", called, width, () => "!"));
  return sections;
}

function cautionSections({ plan, places }: SetupContext, width: number): Section[] {
  const over = overheadCautions(plan, places.noses).map((caution) => caution.text);
  const sections = [listSection("Every time", usualCautions(plan), width, () => "–")];
  return over.length === 0 ? sections : [listSection("Over people", over, width, () => "!"), ...sections];
}

function listSection(
  heading: string,
  items: readonly string[],
  width: number,
  lead: (i: number) => string,
): Section {
  return {
    heading: headingPiece(heading, width),
    rows: items.map((item, i) => paragraphPiece(item, width, { lead: lead(i) })),
  };
}
