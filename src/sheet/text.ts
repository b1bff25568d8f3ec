/** How wide text set in Inter is, never under-estimated, and how it is cut and wrapped. Sizes in mm. */
import { FIRST, OTHERS, REGULAR, SEMIBOLD } from "./inter-advances.generated.ts";

export type Weight = 400 | 600;

/** Wider than any letter of Latin, Greek or Cyrillic in Inter, and than a full-width sign. */
const UNKNOWN = 1100;
/** Few pairs are set wider than their letters are; another sans serif that stands in may be a little wider. */
const MARGIN = 1.02;

export function textWidth(text: string, size_mm: number, weight: Weight = 400): number {
  const table = weight === 600 ? SEMIBOLD : REGULAR;
  let sum = 0;
  for (const sign of text) {
    const advance = table[sign.codePointAt(0)! - FIRST] ?? OTHERS[sign]?.[weight === 600 ? 1 : 0] ?? 0;
    sum += advance > 0 ? advance : UNKNOWN;
  }
  return (MARGIN * sum * size_mm) / 1000;
}

/** The text, or as much of its beginning as fits, with an ellipsis. */
export function fitText(text: string, width_mm: number, size_mm: number, weight: Weight = 400): string {
  if (textWidth(text, size_mm, weight) <= width_mm) return text;
  const signs = [...text];
  while (signs.length > 0 && textWidth(`${signs.join("").trimEnd()}…`, size_mm, weight) > width_mm)
    signs.pop();
  return `${signs.join("").trimEnd()}…`;
}

/** Lines no wider than the width; a word that is too long for a line is cut into pieces. */
export function wrapText(text: string, width_mm: number, size_mm: number, weight: Weight = 400): string[] {
  const lines: string[] = [];
  let line = "";
  for (const bound of bindNumbers(text).split(/ +/)) {
    if (bound === "") continue;
    const word = bound.replaceAll(BOUND, " ");
    const longer = line === "" ? word : `${line} ${word}`;
    if (textWidth(longer, size_mm, weight) <= width_mm) {
      line = longer;
      continue;
    }
    if (line !== "") lines.push(line);
    line = "";
    for (const sign of word) {
      if (line !== "" && textWidth(line + sign, size_mm, weight) > width_mm) {
        lines.push(line);
        line = "";
      }
      line += sign;
    }
  }
  if (line !== "") lines.push(line);
  return lines;
}

/** Stands for a space at which no line may end. */
const BOUND = "\u0001";

/** A number stays with its unit, feet with inches, a stop with its tenths. */
function bindNumbers(text: string): string {
  return text
    .replace(/([\d¼½¾]) (?=(?:m|mm|Ws|K|%|ft|stops?)(?![\p{L}]))/gu, `$1${BOUND}`)
    .replace(/ISO (?=\d)/g, `ISO${BOUND}`)
    .replace(/′ (?=[\d¼½¾])/g, `′${BOUND}`)
    .replace(/ \+ (?=0\.\d)/g, `${BOUND}+${BOUND}`);
}

/** Wraps to at most so many lines; what is left over becomes an ellipsis. */
export function wrapTo(
  text: string,
  most: number,
  width_mm: number,
  size_mm: number,
  weight: Weight = 400,
): string[] {
  const lines = wrapText(text, width_mm, size_mm, weight);
  if (lines.length <= most) return lines;
  const rest = lines.slice(most - 1).join(" ");
  return [...lines.slice(0, most - 1), fitText(rest, width_mm, size_mm, weight)];
}
