/** Sets pieces one under the other, over as many pages as it takes. All lengths in mm. */
import { HAIR, INK, lineOf, QUIET, textOf } from "./svg.ts";
import { textWidth, type Weight, wrapText, wrapTo } from "./text.ts";

export const TEXT = 3.1;
export const LEADING = 4.2;
const HEADING = 3.6;

/** Something with a height that can be drawn at a place. */
export interface Piece {
  readonly height: number;
  draw(x: number, y: number): string[];
}

export interface Section {
  /** stands over the first row, and again where the rows go on in a new place */
  readonly heading: Piece;
  readonly rows: readonly Piece[];
}

/** A place in the running pages. */
export interface Spot {
  readonly page: number;
  readonly y: number;
}

export interface Limits {
  readonly top: number;
  readonly bottom: number;
}

const AFTER_SECTION = 4;
/** A section that begins above this share of the page may be torn. */
const TEAR = 0.6;

/** Sets sections down one column and says where it ended; `emit` receives what belongs on each page. */
export function setColumn(
  sections: readonly Section[],
  from: Spot,
  x: number,
  limits: Limits,
  emit: (page: number, parts: readonly string[]) => void,
): Spot {
  let { page, y } = from;
  for (const { heading, rows } of sections) {
    if (rows.length === 0) continue;
    // what can be whole on the next page is not torn at the foot of this one
    const whole = heading.height + rows.reduce((sum, row) => sum + row.height, 0);
    if (
      y + whole > limits.bottom &&
      whole <= limits.bottom - limits.top &&
      y > limits.top + TEAR * (limits.bottom - limits.top)
    ) {
      page++;
      y = limits.top;
    }
    let isHeadingDue = true;
    for (const row of rows) {
      const needed = row.height + (isHeadingDue ? heading.height : 0);
      if (y + needed > limits.bottom && y > limits.top) {
        page++;
        y = limits.top;
        isHeadingDue = true;
      }
      if (isHeadingDue) {
        emit(page, heading.draw(x, y));
        y += heading.height;
        isHeadingDue = false;
      }
      emit(page, row.draw(x, y));
      y += row.height;
    }
    y += AFTER_SECTION;
  }
  return { page, y };
}

export function headingPiece(text: string, width: number): Piece {
  return {
    height: 6.4,
    draw: (x, y) => [
      textOf(x, y + HEADING, text, { size: HEADING, weight: 600 }),
      lineOf(x, y + 5.1, x + width, y + 5.1, { stroke: INK, width: 0.25 }),
    ],
  };
}

export interface ParagraphStyle {
  readonly size?: number;
  readonly weight?: Weight;
  readonly fill?: string;
  /** before the first line; later lines stand under the text */
  readonly lead?: string;
  readonly after?: number;
}

export function paragraphPiece(text: string, width: number, style: ParagraphStyle = {}): Piece {
  const { size = TEXT, weight = 400, fill = INK, lead, after = 1 } = style;
  const indent = lead === undefined ? 0 : Math.max(5, textWidth(lead, size, 600) + 1.5);
  const leading = (LEADING / TEXT) * size;
  const lines = wrapText(text, width - indent, size, weight);
  return {
    height: lines.length * leading + after,
    draw: (x, y) => [
      ...(lead === undefined ? [] : [textOf(x, y + size, lead, { size, weight: 600, fill })]),
      ...lines.map((line, i) => textOf(x + indent, y + size + i * leading, line, { size, weight, fill })),
    ],
  };
}

export interface CellLine {
  readonly text: string;
  readonly weight?: Weight;
  readonly fill?: string;
  /** at most so many lines of it; the rest becomes an ellipsis */
  readonly most?: number;
}
export type Cell = readonly CellLine[];

const CELL_GAP = 2.5;
const ROW_PAD = 1.1;

/** One row of a table; lines wrap inside their column. */
export function rowPiece(cells: readonly Cell[], widths: readonly number[], size = TEXT, rule = HAIR): Piece {
  const leading = (LEADING / TEXT) * size;
  const set = cells.map((cell, i) =>
    cell.flatMap(({ text, weight = 400, fill = INK, most = 4 }) =>
      wrapTo(text, most, widths[i] - CELL_GAP, size, weight).map((line) => ({ line, weight, fill })),
    ),
  );
  const lines = Math.max(1, ...set.map((cell) => cell.length));
  const height = lines * leading + 2 * ROW_PAD;
  const whole = widths.reduce((sum, w) => sum + w, 0);
  return {
    height,
    draw: (x, y) => {
      const parts: string[] = [];
      let left = x;
      set.forEach((cell, i) => {
        cell.forEach(({ line, weight, fill }, k) => {
          parts.push(textOf(left, y + ROW_PAD + size + k * leading, line, { size, weight, fill }));
        });
        left += widths[i];
      });
      parts.push(lineOf(x, y + height, x + whole, y + height, { stroke: rule, width: 0.15 }));
      return parts;
    },
  };
}

/** Heading and column heads of a table as one piece. */
export function tableHead(title: string, heads: readonly string[], widths: readonly number[]): Piece {
  const whole = widths.reduce((sum, w) => sum + w, 0);
  const heading = headingPiece(title, whole);
  const row = rowPiece(
    heads.map((text) => [{ text, fill: QUIET }]),
    widths,
    2.7,
  );
  return {
    height: heading.height + row.height,
    draw: (x, y) => [...heading.draw(x, y), ...row.draw(x, y + heading.height)],
  };
}
