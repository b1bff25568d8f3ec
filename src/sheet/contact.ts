/** The contact sheet of moves: small true frames in a grid, and under each what moves and what that changes. */
import { type SheetPicture, stacked } from "./beside.ts";
import { LEADING, type Piece, paragraphPiece, TEXT } from "./flow.ts";
import { imageOf } from "./picture.ts";
import { PAPER_SIZE } from "./placement.ts";
import { INK, pageOf, QUIET, rectOf, textOf } from "./svg.ts";
import { fitText, textWidth, wrapTo } from "./text.ts";

export interface ContactCell {
  /** "key up 15 cm" */
  readonly does: string;
  /** why it cannot be made; then there is neither picture nor change */
  readonly why: string | null;
  /** where the light comes from after it, and what that makes of the face */
  readonly direction: string;
  /** how strong it is after it, in stops from the plan as it stands */
  readonly power: string;
  /** whether the nose goes along with the lens, and what is warned of */
  readonly notes: readonly string[];
  readonly picture: SheetPicture | null;
}

export interface ContactSheet {
  readonly title: string;
  /** whose face, under what exposure */
  readonly about: string;
  /** the plan as it stands, then the moves in reading order */
  readonly cells: readonly ContactCell[];
}

export interface ContactOptions {
  readonly paper: "a4" | "letter";
  /** printed as it is given: the sheet has no clock of its own */
  readonly date?: string;
}

/** Width over height of a small frame: a head with room for a step to either side. */
export const CONTACT_SHAPE = 1.2;

const MARGIN = 12;
const ACROSS = 3;
const GAP = 5;
const ROW_GAP = 4;
const TITLE = 5.4;
const HEAD = 16;
const FOOT = 6;
const SMALL = 2.8;
const LABEL = textWidth("direction", TEXT) + 1.5;
/** Lines of each part of a caption at most: long names leave frames their room. */
const MOST_LINES = { does: 3, told: 4, note: 3 };
const MOST_NOTES = 2;

/** One page as SVG, in millimetres; cells from the top left, three a row.
 * Errors   none: a caption that is too long ends in an ellipsis, a move that cannot be made says why in place of a frame */
export function contactPage(sheet: ContactSheet, { paper, date }: ContactOptions): string {
  const [paperWidth, paperHeight] = PAPER_SIZE[paper];
  const width = paperWidth - 2 * MARGIN;
  const cellWidth = (width - (ACROSS - 1) * GAP) / ACROSS;
  const captions = sheet.cells.map((cell) => captionOf(cell, cellWidth));
  const rows = Math.ceil(sheet.cells.length / ACROSS);
  const tall = Array.from({ length: rows }, (_, row) =>
    Math.max(...captions.slice(row * ACROSS, (row + 1) * ACROSS).map((piece) => piece.height)),
  );
  const room = paperHeight - 2 * MARGIN - HEAD - FOOT - rows * ROW_GAP - tall.reduce((a, b) => a + b, 0);
  const frameHeight = Math.min(cellWidth / CONTACT_SHAPE, room / rows);
  const frameWidth = frameHeight * CONTACT_SHAPE;
  const parts: string[] = [];
  let y = MARGIN + HEAD;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < ACROSS; column++) {
      const index = row * ACROSS + column;
      const cell = sheet.cells[index];
      if (cell === undefined) break;
      const x = MARGIN + column * (cellWidth + GAP);
      parts.push(...frameParts(cell, x, y, frameWidth, frameHeight));
      parts.push(...captions[index].draw(x, y + frameHeight + 1));
    }
    y += frameHeight + tall[row] + ROW_GAP;
  }
  const about = ["Contact sheet of moves", ...(date === undefined ? [] : [date]), sheet.about].join(" · ");
  return pageOf(paperWidth, paperHeight, `${sheet.title}, contact sheet of moves`, [
    textOf(MARGIN, MARGIN + TITLE - 1, fitText(sheet.title, width, TITLE, 600), { size: TITLE, weight: 600 }),
    textOf(MARGIN, MARGIN + TITLE + 4.4, fitText(about, width, TEXT), { size: TEXT, fill: QUIET }),
    ...parts,
    textOf(MARGIN, paperHeight - MARGIN, fitText(FOOTING, width, SMALL), { size: SMALL, fill: QUIET }),
  ]);
}

const FOOTING = "Each frame is one step from the first, computed from the plan: estimates only.";

function frameParts(cell: ContactCell, x: number, y: number, width: number, height: number): string[] {
  if (cell.picture !== null) return imageOf(cell.picture, x, y, width, height);
  return [
    rectOf(x, y, width, height, { stroke: INK, width: 0.2 }),
    ...paragraphPiece(cell.why ?? "no picture", width - 8, { fill: QUIET }).draw(x + 4, y + 4),
  ];
}

function captionOf(cell: ContactCell, width: number): Piece {
  const said = [
    ...(cell.direction === "" ? [] : [labelled("direction", cell.direction, width)]),
    ...(cell.power === "" ? [] : [labelled("power", cell.power, width)]),
    ...cell.notes.slice(0, MOST_NOTES).map((note) => lines(note, MOST_LINES.note, width, { fill: QUIET })),
  ];
  return stacked([lines(cell.does, MOST_LINES.does, width, { weight: 600 }), ...said], 1);
}

function labelled(label: string, text: string, width: number): Piece {
  const said = lines(text, MOST_LINES.told, width - LABEL, {});
  return {
    height: said.height,
    draw: (x, y) => [textOf(x, y + TEXT, label, { size: TEXT, fill: QUIET }), ...said.draw(x + LABEL, y)],
  };
}

function lines(
  text: string,
  most: number,
  width: number,
  style: { readonly weight?: 400 | 600; readonly fill?: string },
): Piece {
  const { weight = 400, fill = INK } = style;
  const set = wrapTo(text, most, width, TEXT, weight);
  return {
    height: set.length * LEADING,
    draw: (x, y) =>
      set.map((line, i) => textOf(x, y + TEXT + i * LEADING, line, { size: TEXT, weight, fill })),
  };
}
