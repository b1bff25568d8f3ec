/** Names that the sheet shortens, in full: what is cut off cannot be typed in again. */
import { CELL_GAP, headingPiece, paragraphPiece, type Section, TEXT } from "./flow.ts";
import { meterWidths, peopleWidths } from "./reading-tables.ts";
import type { SetupContext } from "./setup-order.ts";
import { isCrowd, NAME_LINES, placementWidths } from "./tables.ts";
import { wrapText } from "./text.ts";
import { TITLE } from "./title.ts";

/** What is shortened somewhere, in the order of the page; nothing where all names have room. */
export function fullNames(context: SetupContext, width: number): Section[] {
  const names = shortened(context, width);
  if (names.length === 0) return [];
  const rows = names.map((name) => paragraphPiece(name, width, { lead: "–", after: 0.4 }));
  return [{ heading: headingPiece("Names in full", width), rows }];
}

function shortened({ plan, places }: SetupContext, width: number): string[] {
  const [first] = placementWidths(width);
  const [inCrowd] = peopleWidths(width);
  const [meter] = meterWidths(width);
  const columns: readonly (readonly [readonly { readonly name: string }[], number])[] = [
    [places.people, isCrowd(plan) ? inCrowd : first],
    [[...places.marks, ...places.lights, ...places.panels], first],
    [plan.meters, meter],
  ];
  return [
    ...(isCut(plan.title, TITLE.lines, width, TITLE.size) ? [plan.title] : []),
    ...columns.flatMap(([things, column]) =>
      things.map(({ name }) => name).filter((name) => isCut(name, NAME_LINES, column - CELL_GAP, TEXT)),
    ),
  ];
}

function isCut(name: string, lines: number, width: number, size: number): boolean {
  return wrapText(name, width, size, 600).length > lines;
}
