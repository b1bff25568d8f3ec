/** The record's tables: what was taken, what was metered and what was changed, each beside what was planned. */
import { type Cell, headingPiece, paragraphPiece, rowPiece, type Section, tableHead } from "./flow.ts";
import type { RecordChange, RecordFrame, RecordGiven, RecordPart, RecordReading } from "./record-types.ts";
import { QUIET } from "./svg.ts";
import { shares } from "./tables.ts";

/** Direction and power are told apart, always. */
const PARTS: readonly RecordPart[] = ["direction", "power", "camera", "other"];

const bold = (text: string): Cell => [{ text, weight: 600 }];
const plain = (text: string): Cell => (text === "" ? [] : [{ text }]);
const quiet = (text: string): Cell => (text === "" ? [] : [{ text, fill: QUIET }]);

export function takenTable({ compared }: RecordFrame, width: number): Section[] {
  if (compared.length === 0) return [];
  const widths = shares([19, 30, 46, 46, 45], width);
  const heading = tableHead("Planned against taken", ["", "", "planned", "taken", "difference"], widths);
  const rows = inParts(compared, (each, part) =>
    rowPiece(
      [
        quiet(part),
        [{ text: each.what, weight: 600 }, ...quiet(each.whose)],
        plain(each.planned),
        plain(each.taken),
        difference(each.difference),
      ],
      widths,
    ),
  );
  return [{ heading, rows }];
}

/** What differs stands out by its weight; what is as planned, or cannot be told, does not. */
function difference(text: string): Cell {
  return text === "as planned" || text === "cannot tell" ? quiet(text) : bold(text);
}

export function readTable(readings: readonly RecordReading[], width: number): Section {
  if (readings.length === 0)
    return said("Planned against metered", "No meter reading was written down.", width);
  const widths = shares([38, 62, 26, 26, 34], width);
  const heading = tableHead(
    "Planned against metered",
    ["reading", "where the meter was held", "by the plan", "read", "difference"],
    widths,
  );
  const rows = readings.map((each) =>
    rowPiece(
      [
        [{ text: each.of, weight: 600, most: 2 }, ...quiet(each.name)],
        [{ text: each.where }, ...quiet(each.note)],
        plain(each.planned ?? "nothing arrives"),
        bold(each.read),
        difference(each.difference),
      ],
      widths,
    ),
  );
  return { heading, rows };
}

export function changedTable({ changes, plannedAs }: RecordGiven, width: number): Section {
  const title = "Planned against set";
  if (plannedAs === null)
    return said(title, "No earlier state of the plan is kept to tell changes by.", width);
  if (changes.length === 0) return said(title, `Set as planned: nothing differs from ${plannedAs}.`, width);
  const widths = shares([19, 48, 40, 40, 39], width);
  const heading = tableHead(
    `${title}: changes from ${plannedAs}`,
    ["", "what", "planned", "set", "change"],
    widths,
  );
  const rows = inParts(changes, (each, part) =>
    rowPiece(
      [
        quiet(part),
        [{ text: each.what, weight: 600, most: 2 }, ...quiet(whichOf(each))],
        plain(each.planned),
        plain(each.set),
        bold(each.change),
      ],
      widths,
    ),
  );
  return { heading, rows };
}

/** Nothing where it says no more than the rest of the row does. */
function whichOf({ what, which }: RecordChange): string {
  return which === what || which === "there" ? "" : which;
}

/** Part after part; the first row of each names it. */
function inParts<Row extends { readonly part: RecordPart }, Piece>(
  rows: readonly Row[],
  make: (row: Row, part: string) => Piece,
): Piece[] {
  return PARTS.flatMap((part) =>
    rows.filter((row) => row.part === part).map((row, i) => make(row, i === 0 ? part : "")),
  );
}

function said(title: string, text: string, width: number): Section {
  return { heading: headingPiece(title, width), rows: [paragraphPiece(text, width)] };
}
