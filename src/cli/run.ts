/** The commands. Each ends with an exit code: 0 done, 1 the plan is wrong, 2 the call is wrong, 3 something failed. */
import { serialisePlan } from "../plan/index.ts";
import { developFrame, Memory, renderFrame } from "../reading/index.ts";
import {
  createComputer,
  encodePfm,
  encodePng,
  followed,
  makeSheet,
  openPlan,
  WorkError,
} from "../workbench/index.ts";
import {
  checked,
  LIBRARY_OPTION,
  libraryOption,
  type OpenRequest,
  outOption,
  planAt,
  type Surroundings,
  withProgress,
} from "./around.ts";
import { calibrate } from "./calibrate.ts";
import { CallError, nearest, onePlan, paperOption, readCall, unitsOption, wholeNumber } from "./call.ts";
import { contact } from "./contact.ts";
import { find } from "./find.ts";
import { gear } from "./gear.ts";
import { COMMANDS, type Command, helpFor } from "./help.ts";
import { library } from "./library.ts";
import { readInput, writeOutput, writePages } from "./output.ts";
import { photo } from "./photo.ts";
import { readingText } from "./reading-text.ts";
import { record } from "./record.ts";
import { sheetPdf } from "./sheet-pdf.ts";
import { shoots } from "./shoots.ts";
import { use } from "./use.ts";

export async function run(words: readonly string[], around: Surroundings): Promise<number> {
  try {
    return await dispatch(words, around);
  } catch (error) {
    if (error instanceof CallError) {
      around.error(`tapemark: ${error.message}\n`);
      return 2;
    }
    if (error instanceof WorkError) {
      around.error(`tapemark: ${error.message}\n`);
      return 3;
    }
    const message = error instanceof Error ? error.message : String(error);
    around.error(`tapemark: something failed inside: ${message}; please keep the plan and tell us\n`);
    return 3;
  }
}

async function dispatch(words: readonly string[], around: Surroundings): Promise<number> {
  const [first, ...rest] = words;
  if (first === undefined) {
    around.error(helpFor(null));
    return 2;
  }
  if (first === "--help" || first === "-h" || first === "help") {
    around.out(helpFor(COMMANDS.find((c) => c === rest[0]) ?? null));
    return 0;
  }
  if (first === "--version") {
    around.out(`tapemark ${around.version}\n`);
    return 0;
  }
  const command = COMMANDS.find((c) => c === first);
  if (!command) {
    const near = nearest(first, COMMANDS);
    throw new CallError(
      `"${first}" is not a command${near ? `; did you mean ${near}?` : ""} (tapemark --help)`,
    );
  }
  if (rest.includes("--help") || rest.includes("-h")) {
    around.out(helpFor(command));
    return 0;
  }
  return ACTIONS[command](rest, around);
}

type Action = (words: readonly string[], around: Surroundings) => Promise<number>;

const ACTIONS: Record<Command, Action> = {
  open: async (words, around) => {
    const form = { port: { type: "string" }, "no-browser": { type: "boolean" }, ...LIBRARY_OPTION } as const;
    const call = readCall(words, form, "open");
    const named = libraryOption(call);
    const port = call.values.port === undefined ? null : wholeNumber(call.values.port, "port", 0, 65535);
    let plan: OpenRequest["plan"] = null;
    if (call.positionals.length > 0) {
      const path = onePlan(call, "open");
      const text = await readInput(path);
      const read = checked(text, path, around);
      if (!read) return 1;
      // files beside the plan are out of the page's reach: they go in with it
      plan = { name: path, text: openPlan(text).ok ? text : serialisePlan(read) };
    }
    await around.openWorkbench({ plan, port, browser: call.values["no-browser"] !== true, library: named });
    return 0;
  },
  read: async (words, around) => {
    const call = readCall(words, { json: { type: "boolean" } }, "read");
    const plan = await planAt(onePlan(call, "read"), around);
    if (!plan) return 1;
    const reading = await withProgress(around, (work) => createComputer().read(plan, "fine", work));
    around.out(
      call.values.json === true ? `${JSON.stringify(reading, null, 2)}\n` : readingText(plan, reading),
    );
    return 0;
  },
  frame: async (words, around) => {
    const call = readCall(words, { out: { type: "string" }, width: { type: "string" } }, "frame");
    const out = outOption(call.values.out, "frame", ["png", "pfm"]);
    const width = call.values.width === undefined ? 480 : wholeNumber(call.values.width, "width", 8, 8192);
    const plan = await planAt(onePlan(call, "frame"), around);
    if (!plan) return 1;
    const frame = await withProgress(around, async (work) =>
      renderFrame(plan, { width, quality: "fine" }, new Memory(), followed(work, "tracing the frame")),
    );
    if (frame.badSamples > 0)
      around.error(
        `tapemark: ${frame.badSamples} values of the frame could not be computed and count as 0\n`,
      );
    writeOutput(
      out.path,
      out.ending === "pfm" ? encodePfm(frame) : encodePng(developFrame(frame, plan.camera)),
    );
    return 0;
  },
  sheet: async (words, around) => {
    const form = {
      out: { type: "string" },
      paper: { type: "string" },
      units: { type: "string" },
      date: { type: "string" },
    } as const;
    const call = readCall(words, form, "sheet");
    const out = outOption(call.values.out, "sheet", ["pdf", "svg"]);
    const paper = paperOption(call.values.paper);
    const units = unitsOption(call.values.units);
    const plan = await planAt(onePlan(call, "sheet"), around);
    if (!plan) return 1;
    const date = typeof call.values.date === "string" ? { date: call.values.date } : {};
    const pages = await withProgress(around, (work) =>
      makeSheet(createComputer(), plan, { paper, units, ...date }, work),
    );
    if (out.ending === "pdf") writeOutput(out.path, await sheetPdf(plan, pages, paper));
    else writePages(out.path, pages);
    return 0;
  },
  record,
  contact,
  use,
  gear,
  find,
  photo,
  calibrate,
  shoots,
  library,
  "check-plan": async (words, around) => {
    const call = readCall(words, {}, "check-plan");
    return (await planAt(onePlan(call, "check-plan"), around)) ? 0 : 1;
  },
};
