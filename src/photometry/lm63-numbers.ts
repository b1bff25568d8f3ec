/** The numbers of a photometric file, each with the line that it stands in. */

export interface LineNumbers {
  readonly values: readonly number[];
  /** 1-based */
  readonly lineOf: readonly number[];
  readonly lastLine: number;
}

/** More than any file has; so much text is another thing. */
const MOST_NUMBERS = 1_100_000;

/** All numbers from line `from` (0-based) on, told apart by spaces, commas and line ends. */
export function readNumbers(
  lines: readonly string[],
  from: number,
): LineNumbers | { readonly fault: { line: number; what: string } } {
  const values: number[] = [];
  const lineOf: number[] = [];
  let lastLine = from;
  for (let i = from; i < lines.length; i++) {
    for (const word of lines[i].split(/[\s,]+/)) {
      if (word === "") continue;
      if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(word))
        return { fault: { line: i + 1, what: `"${word.slice(0, 20)}" is not a number` } };
      const value = Number(word);
      if (!Number.isFinite(value))
        return { fault: { line: i + 1, what: `${word.slice(0, 20)} is too large` } };
      if (values.length === MOST_NUMBERS) return { fault: { line: i + 1, what: "has too many numbers" } };
      values.push(value);
      lineOf.push(i + 1);
      lastLine = i + 1;
    }
  }
  return { values, lineOf, lastLine };
}
