/** `tapemark calibrate`: what the plan's readings, and test frames, teach of its lights and its room. */
import { applyEdit, type Edit, type Plan, serialisePlan } from "../plan/index.ts";
import {
  type Calibration,
  type CalibrationFrame,
  calibrate as calibrated,
  calibrationEdit,
  calibrationFrame,
  calibrationLines,
  matchFaces,
} from "../testframe/index.ts";
import { followed, gearEdit, learn, WorkError } from "../workbench/index.ts";
import {
  LIBRARY_OPTION,
  libraryOption,
  outOption,
  type Photographs,
  planAt,
  type Surroundings,
  withProgress,
} from "./around.ts";
import { onePlan, readCall } from "./call.ts";
import { writeOutput } from "./output.ts";

export async function calibrate(words: readonly string[], around: Surroundings): Promise<number> {
  const form = {
    json: { type: "boolean" },
    gear: { type: "boolean" },
    out: { type: "string" },
    date: { type: "string" },
    ...LIBRARY_OPTION,
  } as const;
  const call = readCall(words, form, "calibrate");
  const { values } = call;
  const out = values.out === undefined ? null : outOption(values.out, "calibrate", ["json"]);
  const [named, ...photos] = call.positionals;
  const written = await planAt(
    onePlan({ ...call, positionals: named === undefined ? [] : [named] }, "calibrate"),
    around,
  );
  if (written === null) return 1;
  const photographs = () => around.photographs(libraryOption(call));
  const gear = values.gear === true ? (await photographs()).gear : null;
  const book = gear && (await gear.load());
  if (book?.notice !== undefined) around.error(`tapemark: ${book.notice}\n`);
  const plan = book === null ? written : edited(written, gearEdit(written, book));
  const frames = photos.length === 0 ? [] : await framesOf(photos, plan, await photographs(), around);
  const found = await withProgress(around, async (work) =>
    calibrated(plan, { frames, keepGoing: followed(work, "tracing what the meter saw") }),
  );
  around.out(values.json === true ? `${JSON.stringify(found, null, 2)}\n` : text(plan, found));
  const date = typeof values.date === "string" ? values.date : "";
  const after = edited(plan, calibrationEdit(plan, found, date));
  if (gear !== null && book !== null && learn(book, after) !== book) await gear.save(learn(book, after));
  if (out !== null) writeOutput(out.path, Buffer.from(serialisePlan(after)));
  return 0;
}

function text(plan: Plan, found: Calibration): string {
  return `${[plan.title, "", ...calibrationLines(plan, found)].join("\n")}\n`;
}

/** The faces of the plan's people in each photograph. One in which nobody is found tells nothing, and that is said.
 * Errors  WorkError where a photograph cannot be read */
async function framesOf(
  paths: readonly string[],
  plan: Plan,
  { gear, startReader }: Photographs,
  around: Surroundings,
): Promise<CalibrationFrame[]> {
  const { bodies } = await gear.load();
  const reader = startReader(1);
  const interrupt = around.onInterrupt(() => void reader.stop());
  const out: CalibrationFrame[] = [];
  try {
    for (const path of paths) {
      const { reading } = await reader.read({ name: path, path }, { bodies, preview: false });
      const seen = matchFaces(plan, reading).flatMap(
        ({ person, face }) => calibrationFrame(plan, person, reading, reading.faces[face]) ?? [],
      );
      if (seen.length === 0)
        around.error(
          `tapemark: ${path} tells nothing here: neither exposure nor ratio of a face of the plan\n`,
        );
      out.push(...seen);
    }
  } finally {
    interrupt.off();
    await reader.stop();
  }
  return out;
}

/** Where there is nothing to change, the plan as it was. */
function edited(plan: Plan, edit: Edit | null): Plan {
  if (edit === null) return plan;
  const after = applyEdit(plan, edit);
  if (after.ok) return after.plan;
  const [{ path, what }] = after.problems;
  throw new WorkError(`${path}: ${what}`, "correct the plan, or leave --gear away");
}
