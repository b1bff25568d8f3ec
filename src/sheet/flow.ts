/** Sets pieces one under the other, over as many pages as it takes. All lengths in mm. */
import { HAIR, INK, lineOf, QUIET, textOf } from "./svg.ts";
import { textWidth, type Weight, wrapText, wrapTo } from "./text.ts";

export const TEXT = 3;
export const LEADING = 3.5;
const HEADING = 3.6;

/** Something with a height that can be drawn at a place. */
export interface Piece {
  readonly height: number;
  draw(x: number, y: number): string[];
}

export const NO_HEADING: Piece = { height: 0, draw: () => [] };

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
  /** sections go on overleaf wherever the foot comes: for when that saves a page */
  readonly isTorn?: boolean;
}

const AFTER_SECTION = 2.4;
/** A section that begins above this share of the page may be torn. */
const TEAR = 0.6;
/** Less than this share of the page is no room for columns that go on overleaf. */
const FOOT_SHARE = 0.12;

/** Receives what belongs where; nothing is drawn while it is only tried how much fits. */
export type Emit = (page: number, piece: Piece, x: number, y: number) => void;

/** Sets sections down one column and says where it ended. */
export function setColumn(
  sections: readonly Section[],
  from: Spot,
  x: number,
  limits: Limits,
  emit: Emit,
): Spot {
  let { page, y } = from;
  for (const { heading, rows } of sections) {
    if (rows.length === 0) continue;
    // what can be whole on the next page is not torn at the foot of this one
    const whole = heading.height + rows.reduce((sum, row) => sum + row.height, 0);
    if (
      limits.isTorn !== true &&
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
        emit(page, heading, x, y);
        y += heading.height;
        isHeadingDue = false;
      }
      emit(page, row, x, y);
      y += row.height;
    }
    y += AFTER_SECTION;
  }
  return { page, y };
}

/** Sets sections down two columns side by side, as even as rows allow, and says where the longer one ended. */
export function setColumns(
  sections: readonly Section[],
  from: Spot,
  lefts: readonly [number, number],
  limits: Limits,
  emit: Emit,
): Spot {
  let { page, y } = from;
  let rest = sections.filter(({ rows }) => rows.length > 0);
  while (rest.length > 0) {
    const room = limits.bottom - y;
    const whole = limits.bottom - limits.top;
    // columns that would be torn after a row or two at the foot of a page begin on the next
    if (room < FOOT_SHARE * whole && y > limits.top && filled(rest, room, false).left.length > 0) {
      page++;
      y = limits.top;
      continue;
    }
    const { placed, left, height } = filled(rest, leastHeight(rest, room), y <= limits.top);
    for (const { piece, column, down } of placed) emit(page, piece, lefts[column], y + down);
    rest = left;
    y = rest.length > 0 ? limits.top : y + height;
    if (rest.length > 0) page++;
  }
  return { page, y };
}

/** To a millimetre; all the room where that is not enough. */
function leastHeight(sections: readonly Section[], room: number): number {
  const isEnough = (height: number) => filled(sections, height, false).left.length === 0;
  if (!isEnough(room)) return room;
  let [low, high] = [0, room];
  while (high - low > 1) {
    const middle = (low + high) / 2;
    if (isEnough(middle)) high = middle;
    else low = middle;
  }
  return high;
}

interface Filled {
  readonly placed: { readonly piece: Piece; readonly column: 0 | 1; readonly down: number }[];
  /** what found no room */
  readonly left: Section[];
  readonly height: number;
}

/** `isTop`: there is no higher column to wait for, so that what is too high for one is set all the same. */
function filled(sections: readonly Section[], height: number, isTop: boolean): Filled {
  const placed: Filled["placed"] = [];
  let column: 0 | 1 = 0;
  let [down, deepest] = [0, 0];
  for (const [i, { heading, rows }] of sections.entries()) {
    let isHeadingDue = true;
    for (const [k, row] of rows.entries()) {
      const needed = () => row.height + (isHeadingDue ? heading.height : 0);
      while (down + needed() > height && !(isTop && down === 0)) {
        if (column === 1)
          return {
            placed,
            left: [{ heading, rows: rows.slice(k) }, ...sections.slice(i + 1)],
            height: deepest,
          };
        [column, down, isHeadingDue] = [1, 0, true];
      }
      if (isHeadingDue) {
        placed.push({ piece: heading, column, down });
        down += heading.height;
        isHeadingDue = false;
      }
      placed.push({ piece: row, column, down });
      down += row.height;
      deepest = Math.max(deepest, down);
    }
    down += AFTER_SECTION;
  }
  return { placed, left: [], height: deepest + AFTER_SECTION };
}

export function headingPiece(text: string, width: number): Piece {
  return {
    height: 5.5,
    draw: (x, y) => [
      textOf(x, y + HEADING, text, { size: HEADING, weight: 600 }),
      lineOf(x, y + 4.9, x + width, y + 4.9, { stroke: INK, width: 0.25 }),
    ],
  };
}

export interface ParagraphStyle {
  readonly size?: number;
  readonly weight?: Weight;
  readonly fill?: string;
  /** before the first line; later lines stand under the text */
  readonly lead?: string;
  /** of the text after the lead, mm; room for two digits where nothing is said */
  readonly indent?: number;
  readonly after?: number;
}

export function paragraphPiece(text: string, width: number, style: ParagraphStyle = {}): Piece {
  const { size = TEXT, weight = 400, fill = INK, lead, indent: least = 5, after = 1 } = style;
  const indent = lead === undefined ? 0 : Math.max(least, textWidth(lead, size, 600) + 1.5);
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

/** A list in two columns, as even as its items allow, and not torn. */
export function pairedPiece(items: readonly Piece[], lefts: readonly [number, number]): Piece {
  const heightOf = (list: readonly Piece[]) => list.reduce((sum, { height }) => sum + height, 0);
  const isEnough = (count: number) => heightOf(items.slice(0, count)) >= heightOf(items.slice(count));
  const count = [...items.keys(), items.length].find(isEnough) ?? items.length;
  const cuts = [count - 1, count].map((n) => [items.slice(0, n), items.slice(n)]);
  const heights = cuts.map((columns) => Math.max(...columns.map(heightOf)));
  const columns = heights[0] < heights[1] ? cuts[0] : cuts[1];
  return {
    height: Math.min(...heights),
    draw: (x, y) =>
      columns.flatMap((column, k) => {
        let top = y;
        return column.flatMap((piece) => {
          const parts = piece.draw(x + lefts[k], top);
          top += piece.height;
          return parts;
        });
      }),
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

/** Air at the right of a column. */
export const CELL_GAP = 2.5;
const ROW_PAD = 0.5;

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
