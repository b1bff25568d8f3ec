/** The placement sheet of the demo once everything on it is known: its pages, and the PDF. */
import { pagesToPdf } from "../src/cli/pdf.ts";
import { checkPlan } from "../src/plan/index.ts";
import { tryReadingOf } from "../src/reading/index.ts";
import { PAPER_SIZE, placementSheet } from "../src/sheet/index.ts";
import { createComputer, holdOnSheet, sheetPicture } from "../src/workbench/index.ts";
import { askBackground } from "../src/workbench/sheet-background.ts";
import { movesWorthKnowing } from "../src/workbench/sheet-moves.ts";
import type { Row } from "./work.ts";

export function sheetRows(demoText: unknown): Row[] {
  const checked = checkPlan(demoText);
  if (!checked.ok) throw new Error(checked.problems[0].what);
  const demo = checked.plan;
  const computer = createComputer();
  const question = askBackground(demo, 0);
  // worked out when it is this row's turn: the rows before it have the machine for themselves
  const workOut = async () => {
    const { reading, background } = question.split(await computer.read(question.plan, "fine"));
    const frame = await computer.frame(demo, { width: 360, quality: "fine" });
    const { pattern } = reading.people[0].face;
    const hold = await holdOnSheet(computer, demo, { person: 0, pattern });
    const tried = await computer.steps(demo, { person: 0, units: "metric" });
    const moves = await movesWorthKnowing(demo, tried, tryReadingOf(reading, 0), async (moved) =>
      tryReadingOf(await computer.read(moved, "fine"), 0),
    );
    const picture = sheetPicture(frame);
    return { reading, extras: { background, moves, picture, ...hold } };
  };
  let known: ReturnType<typeof workOut> | null = null;
  return [
    {
      name: "placement sheet of the demo as PDF, what is on it known",
      against: "its pages alone",
      asked: 1500,
      runs: 5,
      once: async (c) => {
        known ??= workOut();
        const { reading, extras } = await known;
        const start = c();
        const pages = placementSheet(demo, reading, { paper: "a4", units: "metric", ...extras });
        const laid = c();
        await pagesToPdf(pages, PAPER_SIZE.a4, demo.title);
        return { ours: c() - start, other: laid - start };
      },
    },
  ];
}
