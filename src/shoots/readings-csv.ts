/** Meter readings as a table that any spreadsheet opens. */
import { type Plan, placeOf } from "../plan/index.ts";

const COLUMNS = [
  "plan",
  "reading",
  "light",
  "meter",
  "x (m)",
  "y (m)",
  "z (m)",
  "bearing (deg)",
  "tilt (deg)",
  "aimed at x (m)",
  "aimed at y (m)",
  "aimed at z (m)",
  "receptor",
  "f-number",
  "ISO",
  "note",
];

/** One line a reading, in the order of the plans and of the readings in each.
 * Shape   RFC 4180: commas, lines end in CR LF, texts in quotes where they need them; the first line names the columns
 * Units   in the names of the columns; numbers as exactly as the plan has them
 * Domain  plans without readings give no lines; no readings at all -> the first line alone */
export function readingsCsv(plans: readonly { readonly title: string; readonly plan: Plan }[]): string {
  const rows = plans.flatMap(({ title, plan }) =>
    plan.readings.map((reading) => {
      const { position, direction, receptor } = placeOf(plan, reading);
      const aim =
        "at" in direction ? ["", "", ...direction.at] : [direction.bearing, direction.tilt, "", "", ""];
      const { name, light, meter = "", fNumber, iso, note } = reading;
      return [title, name, light, meter, ...position, ...aim, receptor, fNumber, iso, note];
    }),
  );
  return [COLUMNS, ...rows].map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

function cell(value: string | number): string {
  const text = String(value);
  return /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
