/** `tapemark record`: planned, set, metered and shot on paper, from a plan and photographs or from the library. */
import type { Plan } from "../plan/index.ts";
import { createComputer, makeRecord, type OnRecord, type RecordPhoto } from "../workbench/index.ts";
import {
  LIBRARY_OPTION,
  libraryOption,
  outOption,
  type Photographs,
  planAt,
  type Surroundings,
  withStop,
} from "./around.ts";
import { type Call, CallError, onePlan, paperOption, readCall, unitsOption } from "./call.ts";
import { writeOutput, writePages } from "./output.ts";
import { sheetPdf } from "./sheet-pdf.ts";
import { demandThere, shootCalled } from "./shoots.ts";

interface Recorded {
  readonly plan: Plan;
  readonly on: OnRecord;
}

export async function record(words: readonly string[], around: Surroundings): Promise<number> {
  const form = {
    out: { type: "string" },
    planned: { type: "string" },
    shoot: { type: "string" },
    paper: { type: "string" },
    units: { type: "string" },
    date: { type: "string" },
    ...LIBRARY_OPTION,
  } as const;
  const call = readCall(words, form, "record");
  const { values } = call;
  const out = outOption(values.out, "record", ["pdf", "svg"]);
  const paper = paperOption(values.paper);
  const units = unitsOption(values.units);
  const recorded = values.shoot === undefined ? await ofPlan(call, around) : await ofShoot(call, around);
  if (recorded === null) return 1;
  const { plan, on } = recorded;
  const pages = await withStop(around, (work) =>
    makeRecord(createComputer(), plan, on, { paper, units }, work),
  );
  if (out.ending === "pdf") writeOutput(out.path, await sheetPdf(plan, pages, paper));
  else writePages(out.path, pages);
  return 0;
}

/** Null after the problems of a plan have been printed. */
async function ofPlan(call: Call, around: Surroundings): Promise<Recorded | null> {
  const [named, ...photographs] = call.positionals;
  const path = onePlan({ ...call, positionals: named === undefined ? [] : [named] }, "record");
  const plan = await planAt(path, around);
  if (plan === null) return null;
  const earlier = call.values.planned;
  const planned = typeof earlier === "string" ? await planAt(earlier, around) : undefined;
  if (planned === null) return null;
  const photos =
    photographs.length === 0
      ? []
      : await photosOf(photographs, await around.photographs(libraryOption(call)), around);
  const on: OnRecord = {
    planned: planned === undefined ? null : { plan: planned, name: `the plan ${String(earlier)}` },
    shoot: null,
    photos,
    ...(typeof call.values.date === "string" ? { date: call.values.date } : {}),
  };
  return { plan, on };
}

/** In the order in which they are named.
 * Errors  WorkError where one cannot be read */
async function photosOf(
  paths: readonly string[],
  { gear, startReader }: Photographs,
  around: Surroundings,
): Promise<RecordPhoto[]> {
  const { bodies } = await gear.load();
  const reader = startReader(1);
  const interrupt = around.onInterrupt(() => void reader.stop());
  const photos: RecordPhoto[] = [];
  try {
    for (const path of paths) {
      const { reading, thumbnail } = await reader.read({ name: path, path }, { bodies, preview: true });
      photos.push({ name: reading.image.name, stars: 0, isSelect: false, photo: reading, thumbnail });
    }
  } finally {
    interrupt.off();
    await reader.stop();
  }
  return photos;
}

async function ofShoot(call: Call, around: Surroundings): Promise<Recorded> {
  const words = String(call.values.shoot).trim();
  if (words === "") throw new CallError("record: --shoot names a shoot (tapemark shoots lists them)");
  if (call.positionals.length > 0 || call.values.planned !== undefined || call.values.date !== undefined)
    throw new CallError(
      "record: with --shoot plan, day and photographs come from the library; name no others",
    );
  const library = await demandThere(libraryOption(call), around);
  const { id } = await shootCalled(library, words);
  const { recordOf } = await import("../library/index.ts");
  const { plan, ...on } = recordOf(library, id, null);
  return { plan, on };
}
