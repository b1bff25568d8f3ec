/** A plan's text as a sheet to print: the same for the server and for the process that works for paired devices. */
import { sheetPdf } from "../src/cli/index.ts";
import type { SheetRequest } from "../src/server/index.ts";
import { createComputer, makeSheet, openPlan, sheetDate, WorkError } from "../src/workbench/index.ts";

export async function sheetOf(text: string, { paper, units }: SheetRequest): Promise<Uint8Array> {
  const opened = openPlan(text);
  if (!opened.ok)
    throw new WorkError(`${opened.problems[0].path}: ${opened.problems[0].what}`, "correct the plan");
  return sheetPdf(
    opened.plan,
    await makeSheet(createComputer(), opened.plan, { paper, units, date: sheetDate(new Date()) }),
    paper,
  );
}
