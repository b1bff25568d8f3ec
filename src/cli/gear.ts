/** `tapemark gear`: whether the gear can do what a plan asks, what to pack, and what its weights and watts come to. */
import { finalUse } from "../deliver/index.ts";
import {
  canItDo,
  packingList,
  readShelf,
  type Shelf,
  STARTER_SHELF,
  shelfText,
  stopsForCamera,
} from "../gear/index.ts";
import { notJsonWords, type Plan } from "../plan/index.ts";
import { ESTIMATES_ONLY, safetyRows } from "../safety/index.ts";
import { parseFStops } from "../units/index.ts";
import { WorkError } from "../workbench/index.ts";
import { LIBRARY_OPTION, libraryOption, planAt, type Surroundings } from "./around.ts";
import { CallError, onePlan, readCall, unitsOption } from "./call.ts";
import { gearText, shelfLines } from "./gear-text.ts";
import { readInput } from "./output.ts";
import { openThere } from "./shoots.ts";

export async function gear(words: readonly string[], around: Surroundings): Promise<number> {
  const form = {
    wants: { type: "string" },
    reads: { type: "string" },
    shelf: { type: "string" },
    keep: { type: "boolean" },
    units: { type: "string" },
    json: { type: "boolean" },
    ...LIBRARY_OPTION,
  } as const;
  const call = readCall(words, form, "gear");
  const { values } = call;
  const units = unitsOption(values.units);
  const [wants, reads] = [fNumberOption(values.wants, "wants"), fNumberOption(values.reads, "reads")];
  const named = libraryOption(call);
  if (values.keep === true) return keep(values.shelf, call.positionals, named, around);
  const kept = await shelfFor(values.shelf, named, around);
  if (call.positionals.length === 0) {
    if (wants !== null || reads !== null)
      throw new CallError("gear: --wants and --reads go with a plan: name one");
    around.out(values.json === true ? shelfText(kept.shelf) : shelfLines(kept.shelf, kept.from, units));
    return 0;
  }
  const plan = await planAt(onePlan(call, "gear"), around);
  if (plan === null) return 1;
  const told = { ...answers(plan, kept.shelf, { wants, reads, units }), shelf: kept.from };
  around.out(values.json === true ? `${JSON.stringify(told, null, 2)}\n` : gearText(plan, told, units));
  return 0;
}

interface Asked {
  readonly wants: number | null;
  readonly reads: number | null;
  readonly units: "metric" | "feet";
}

export type GearAnswers = ReturnType<typeof answers>;

function answers(plan: Plan, shelf: Shelf, { reads, units, wants }: Asked) {
  const { camera } = plan;
  const wanted = { ...plan, camera: { ...camera, fNumber: wants ?? camera.fNumber } };
  const stopsMore = stopsForCamera(wanted, reads ?? camera.fNumber);
  const ask = { units, stopsMore, shelf, final: finalUse(wanted, 0) };
  return {
    canItDo: plan.lights.flatMap(({ on }, i) => (on ? [canItDo(wanted, i, ask)] : [])),
    packing: packingList(plan, shelf, units),
    safety: safetyRows(plan, units),
    note: ESTIMATES_ONLY,
  };
}

/** A bare decimal is read two ways by two people: only what a meter shows is taken. */
function fNumberOption(value: unknown, name: string): number | null {
  if (value === undefined) return null;
  const fNumber = typeof value === "string" ? parseFStops(value) : null;
  if (fNumber !== null) return fNumber;
  throw new CallError(
    `--${name}: "${String(value)}" is no aperture; write it as a meter shows it: f/8 or "f/8 + 0.4"`,
  );
}

interface KeptFor {
  readonly shelf: Shelf;
  /** where it is from, in words */
  readonly from: string;
}

async function shelfFor(file: unknown, named: string | null, around: Surroundings): Promise<KeptFor> {
  if (typeof file === "string") return { shelf: await shelfAt(file), from: file };
  const library = await openThere(named, around);
  const starter = "the shelf to begin with, all of it typical";
  if (library === null) return { shelf: STARTER_SHELF, from: starter };
  const { createShelfStore } = await import("../library/index.ts");
  const { isStarter, notice, shelf } = await createShelfStore(library, around).load();
  if (notice !== undefined) around.error(`tapemark: ${notice}\n`);
  return { shelf, from: isStarter ? starter : "your shelf" };
}

async function keep(
  file: unknown,
  more: readonly string[],
  named: string | null,
  around: Surroundings,
): Promise<number> {
  if (typeof file !== "string" || more.length > 0)
    throw new CallError(
      "gear: --keep goes with --shelf FILE.json alone: it is kept in the place of the one there",
    );
  const shelf = await shelfAt(file);
  const library = await around.openLibrary(named);
  const { createShelfStore } = await import("../library/index.ts");
  const store = createShelfStore(library, around);
  await store.save(shelf, (await store.load()).revision);
  around.out(`${file}: kept as your shelf in ${library.path}\n`);
  return 0;
}

async function shelfAt(file: string): Promise<Shelf> {
  const text = await readInput(file);
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    throw new WorkError(`${file} ${notJsonWords(text)}`, "name a shelf as `tapemark gear --json` writes it");
  }
  const read = readShelf(document);
  if (read.ok) return read.shelf;
  const [{ path, what }] = read.problems;
  throw new WorkError(`${file}: ${path}: ${what}`, "correct that; `tapemark gear --json` writes a sound one");
}
