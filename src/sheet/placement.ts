/** The placement sheet: one plan as pages that are read at arm's length, in a dim room, on a print or a phone. */
import type { Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { COLUMN_GAP, type SheetPicture } from "./beside.ts";
import { type DrawingPart, drawingParts } from "./drawing-page.ts";
import type { SheetExtras } from "./extras.ts";
import { type Limits, NO_HEADING, paragraphPiece, type Section } from "./flow.ts";
import { measurePlaces } from "./place.ts";
import type { SetupContext } from "./setup-order.ts";
import { ordersOf, type SheetContents, setContents, sheetContents, type Wide } from "./sheet-contents.ts";
import { pageOf, QUIET, textOf } from "./svg.ts";
import { fitText } from "./text.ts";
import { MARGIN, title } from "./title.ts";
import { settingMeter } from "./words.ts";

export interface SheetOptions extends SheetExtras {
  readonly paper: "a4" | "letter";
  readonly units: LengthUnits;
  /** printed as it is given: the sheet has no clock of its own */
  readonly date?: string;
  readonly picture?: SheetPicture;
}

export const PAPER_SIZE = { a4: [210, 297], letter: [215.9, 279.4] } as const;
const SMALL = 2.8;
const FOOT = 5;
/** Pages after the first that a sheet is meant to have: a smaller drawing is no gain beyond that. */
const WANTED = 1;

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
  const limits = { top: MARGIN + 7, bottom: paperHeight - MARGIN - FOOT };
  const heading = title(context, options.date, width);
  const drawings = drawingParts(
    context,
    MARGIN,
    heading.bottom,
    width,
    limits.bottom - heading.bottom,
    options.hold,
  );
  const contents = sheetContents(context, options, width, (width - COLUMN_GAP) / 2);
  const { part, order, limits: within } = fewestPages(drawings, contents, limits);
  const drawn = part.plot();

  const pages: string[][] = [[...heading.parts, ...drawn.parts]];
  const unnamed = unnamedNote(context, drawn.unnamed, width);
  setContents(contents, part, order, unnamed, within, (page, piece, x, y) => {
    while (pages.length <= page) pages.push([]);
    pages[page].push(...piece.draw(x, y));
  });
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

interface Chosen {
  readonly part: DrawingPart;
  readonly order: readonly Wide[];
  readonly limits: Limits;
}

/** The largest drawing that makes the fewest pages, and what stands under it: sections whole, unless to tear them saves a
 * page. */
function fewestPages(drawings: readonly DrawingPart[], contents: SheetContents, limits: Limits): Chosen {
  const orders = ordersOf(contents);
  let best: Chosen = { part: drawings[0], order: orders[0], limits };
  let least = Infinity;
  for (const tried of [limits, { ...limits, isTorn: true }])
    for (const part of drawings)
      for (const order of orders) {
        if (least <= WANTED) return best;
        let last = 0;
        setContents(contents, part, order, [], tried, (page) => {
          last = Math.max(last, page);
        });
        if (last >= least) continue;
        least = last;
        best = { part, order, limits: tried };
      }
  return best;
}

const ESTIMATES = "Computed from the plan: estimates only; local codes and licensed people decide.";

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
