/** What the charts of patterns must look like, whatever the numbers: whole regions, and mirrored ones. */
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import type { Pattern } from "../src/reading/index.ts";
import { AZIMUTHS, type Cell, cellsAt, ELEVATIONS, LETTER, SOURCES, type Source } from "./pattern-grid.ts";

/** Whole where TAPEMARK_LONG=1 is set, else one source: a tenth of the counts or so. */
const sources = (process.env.TAPEMARK_LONG === "1" ? Object.keys(SOURCES) : ["medium"]) as readonly Source[];

describe.each(sources)("[RF11] the chart of a %s light", (source) => {
  let rows: Cell[][];
  beforeAll(() => {
    rows = ELEVATIONS.map((el) => AZIMUTHS.map((az) => cellsAt(source, az, el)[0]));
  }, 60_000);

  it("[RF11] is mirrored: what differs from its mirror image lies on the border of those two names", () => {
    const last = AZIMUTHS.length - 1;
    let differ = 0;
    for (const [j, row] of rows.entries())
      for (let i = 0; i < last / 2; i++) {
        const [a, b] = [row[i], row[last - i]];
        if (a.pattern === b.pattern) continue;
        differ++;
        const where = `${AZIMUTHS[i]} ${ELEVATIONS[j]}: ${a.pattern} ${b.pattern}`;
        expect(isNear(rows, j, i, b.pattern) || isNear(rows, j, last - i, a.pattern), where).toBe(true);
      }
    // a spiral of points on a front is not its own mirror image: of 126 pairs a few on a border fall either way
    expect(differ).toBeLessThanOrEqual(10);
  });

  it("[RF11] every name has one region, or one on each side", () => {
    for (const [pattern, count] of regionsOf(rows)) expect(count, pattern).toBeLessThanOrEqual(2);
  });

  it("[RF11] each name that the book has a light for is there", () => {
    const names = new Set(rows.flat().map((cell) => cell.pattern));
    for (const name of ["flat", "butterfly", "loop", "rembrandt", "split", "under"] as const)
      expect(names, name).toContain(name);
  });

  it("[RF11] the printed chart is this one", () => {
    const text = readFileSync("docs/pattern-charts.md", "utf8");
    const printed = text.split(`## ${source}`)[1].split("```")[1].trim().split("\n").slice(1);
    const letters = printed.map((line) => line.trim().split(/\s+/).slice(1));
    rows.forEach((row, j) => {
      expect(letters[j].map((cell) => cell[0]).join("")).toBe(row.map((c) => LETTER[c.pattern]).join(""));
    });
  });
});

/** Whether a cell or one beside it has that name, or is a quarter of a stop from it. */
function isNear(rows: readonly (readonly Cell[])[], j: number, i: number, pattern: Pattern): boolean {
  for (let y = j - 1; y <= j + 1; y++)
    for (let x = i - 1; x <= i + 1; x++) {
      const cell = rows[y]?.[x];
      if (cell?.pattern === pattern || cell?.between === pattern) return true;
    }
  return false;
}

/** How many joined regions with a firm name in them each name has; corners join. */
function regionsOf(rows: readonly (readonly Cell[])[]): Map<Pattern, number> {
  const seen = rows.map((row) => row.map(() => false));
  const count = new Map<Pattern, number>();
  rows.forEach((row, j) => {
    row.forEach((cell, i) => {
      if (seen[j][i]) return;
      let firm = false;
      const todo = [[j, i]];
      seen[j][i] = true;
      for (let at = todo.pop(); at; at = todo.pop()) {
        firm ||= rows[at[0]][at[1]].between === null;
        for (let dj = -1; dj <= 1; dj++)
          for (let di = -1; di <= 1; di++) {
            const [y, x] = [at[0] + dj, at[1] + di];
            if (rows[y]?.[x]?.pattern !== cell.pattern || seen[y][x]) continue;
            seen[y][x] = true;
            todo.push([y, x]);
          }
      }
      if (firm) count.set(cell.pattern, (count.get(cell.pattern) ?? 0) + 1);
    });
  });
  return count;
}
