/** Shoots in words, one a line. */
import type { ShootRow } from "../shoots/index.ts";

/** So much of an id names a shoot among thousands. */
const MARK = 8;

export function shootLine(row: ShootRow): string {
  const counts = [countOf(row.plans, "plan"), countOf(row.frames, "frame"), countOf(row.selects, "select")];
  const about = [row.place, row.client]
    .filter((text) => text !== "")
    .map((text) => text.replace(/\s+/g, " "));
  const parts = [
    row.date ?? "no day yet",
    row.title.replace(/\s+/g, " "),
    ...about,
    counts.join(", "),
    row.patterns.join(", "),
    `[${row.id.slice(0, MARK)}]`,
  ];
  return parts.filter((part) => part !== "").join("  ");
}

/** "1 plan", "3 plans" */
export function countOf(count: number, one: string, more = `${one}s`): string {
  return `${count} ${count === 1 ? one : more}`;
}
