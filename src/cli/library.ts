/** `tapemark library`: where everything is kept; checked, copied, gone back to a copy, as one archive. */
import { LIBRARY_OPTION, libraryOption, outOption, type Surroundings, withStop } from "./around.ts";
import { CallError, nearest, readCall } from "./call.ts";
import { demandThere, importOne, openThere } from "./shoots.ts";
import { countOf } from "./shoots-text.ts";

export async function library(words: readonly string[], around: Surroundings): Promise<number> {
  const [first, ...rest] = words;
  if (first === undefined || first.startsWith("-")) return tell(words, around);
  const action = Object.hasOwn(ACTIONS, first) ? ACTIONS[first as keyof typeof ACTIONS] : null;
  if (action) return action(rest, around);
  const near = nearest(first, Object.keys(ACTIONS));
  throw new CallError(
    `library: "${first}" is none of ${Object.keys(ACTIONS).join(", ")}${near ? `; did you mean ${near}?` : ""}`,
  );
}

const ACTIONS = {
  check,
  copy,
  restore,
  export: exportAll,
  import: (words: readonly string[], around: Surroundings) => importOne(words, around, "library import"),
};

async function tell(words: readonly string[], around: Surroundings): Promise<number> {
  const call = readCall(words, { json: { type: "boolean" }, ...LIBRARY_OPTION }, "library");
  alone(call.positionals, "library");
  const path = await around.libraryPath(libraryOption(call));
  const opened = await openThere(libraryOption(call), around);
  const { copiesFolder, countsOf, libraryBytes, newestCopy } = await import("../library/index.ts");
  const counts = opened?.read(countsOf) ?? null;
  const [bytes, lastCopy, copies] = [libraryBytes(path), newestCopy(path), copiesFolder(path)];
  if (call.values.json === true) {
    around.out(
      `${JSON.stringify({ path, isThere: counts !== null, ...counts, bytes, lastCopy, copies }, null, 2)}\n`,
    );
    return 0;
  }
  around.out(
    counts === null
      ? `nothing is kept yet; it will be in ${path}\n`
      : `${path}, ${megabytes(bytes)}\n` +
          `${countOf(counts.shoots, "shoot")}, ${countOf(counts.plans, "plan")}, ${countOf(counts.frames, "test frame")}\n`,
  );
  around.out(lastCopy === null ? "no copy yet\n" : `copied last ${lastCopy.at}: ${lastCopy.path}\n`);
  return 0;
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`;
}

async function check(words: readonly string[], around: Surroundings): Promise<number> {
  const call = readCall(words, LIBRARY_OPTION, "library");
  alone(call.positionals, "library check");
  const opened = await openThere(libraryOption(call), around);
  if (opened === null) {
    around.out("nothing is kept yet\n");
    return 0;
  }
  const { checkWhole } = await import("../library/index.ts");
  const { faults, movedAway, shoots, plans, frames } = opened.read(checkWhole);
  for (const { path } of movedAway) around.out(`moved away: ${path}\n`);
  for (const fault of faults) around.error(`${opened.path}: ${fault}\n`);
  if (faults.length > 0) {
    around.error(`tapemark: ${opened.path} is damaged; go back to a copy: tapemark library restore COPY\n`);
    return 3;
  }
  around.out(
    `sound: ${countOf(shoots, "shoot")}, ${countOf(plans, "plan")}, ${countOf(frames, "test frame")}\n`,
  );
  return 0;
}

async function copy(words: readonly string[], around: Surroundings): Promise<number> {
  const call = readCall(words, { out: { type: "string" }, ...LIBRARY_OPTION }, "library");
  alone(call.positionals, "library copy");
  const out = call.values.out === undefined ? null : outOption(call.values.out, "library", ["tapemark"]);
  const { path } = await demandThere(libraryOption(call), around);
  const { copyHere, copyLibrary } = await import("../library/index.ts");
  const made = await withStop(around, (options) =>
    out === null ? copyHere(path, around.now(), options) : copyLibrary(path, out.path, options),
  );
  around.out(
    `${made.path}: ${countOf(made.shoots, "shoot")}, ${megabytes(made.bytes)}, opened and found whole\n`,
  );
  return 0;
}

async function restore(words: readonly string[], around: Surroundings): Promise<number> {
  const call = readCall(words, LIBRARY_OPTION, "library");
  const [from] = call.positionals;
  if (from === undefined)
    throw new CallError("library restore: name a copy (tapemark library tells where they are)");
  alone(call.positionals.slice(1), "library restore");
  const path = await around.libraryPath(libraryOption(call));
  const { restoreCopy } = await import("../library/index.ts");
  const { aside, shoots, plans } = await restoreCopy(path, from, { now: around.now });
  around.out(`${path} is that copy now: ${countOf(shoots, "shoot")}, ${countOf(plans, "plan")}\n`);
  if (aside !== null) around.out(`what was there until now lies in ${aside}\n`);
  return 0;
}

async function exportAll(words: readonly string[], around: Surroundings): Promise<number> {
  const call = readCall(words, { out: { type: "string" }, ...LIBRARY_OPTION }, "library");
  alone(call.positionals, "library export");
  const out = outOption(call.values.out, "library", ["zip"]);
  const opened = await demandThere(libraryOption(call), around);
  const { exportShoots } = await import("../library/index.ts");
  const made = await withStop(around, (options) => exportShoots(opened, "all", out.path, options));
  around.out(
    `${out.path}: ${countOf(made.shoots, "shoot")}, ${countOf(made.plans, "plan")}, ${countOf(made.photographs, "photograph")}\n`,
  );
  const lost = made.missing.filter(({ path }) => path !== null);
  if (lost.length > 0)
    around.error(
      `tapemark: ${countOf(lost.length, "photograph")} moved away are not in it; tapemark library check lists them\n`,
    );
  return 0;
}

function alone(more: readonly string[], command: string): void {
  if (more.length > 0) throw new CallError(`${command}: "${more[0]}" is one too many`);
}
