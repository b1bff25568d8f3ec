/** `tapemark shoots`: what is kept, searched; one shoot as an archive, out and in. */
import { existsSync } from "node:fs";
import type { Imported, Library } from "../library/index.ts";
import { checkPlan } from "../plan/index.ts";
import type { ShootQuery, ShootRow } from "../shoots/index.ts";
import { createComputer, makeSheet, WorkError } from "../workbench/index.ts";
import { LIBRARY_OPTION, libraryOption, outOption, type Surroundings, withStop } from "./around.ts";
import { CallError, readCall, wholeNumber } from "./call.ts";
import { sheetPdf } from "./sheet-pdf.ts";
import { countOf, shootLine } from "./shoots-text.ts";

export async function shoots(words: readonly string[], around: Surroundings): Promise<number> {
  const [first, ...rest] = words;
  if (first === "export") return exportOne(rest, around);
  if (first === "import") return importOne(rest, around, "shoots import");
  return list(words, around);
}

const TEXT = { type: "string" } as const;
const SWITCH = { type: "boolean" } as const;
const LIST = {
  ...{ pattern: TEXT, light: TEXT, room: TEXT, from: TEXT, to: TEXT, stars: TEXT },
  ...{ "put-away": SWITCH, json: SWITCH, ...LIBRARY_OPTION },
};

async function list(words: readonly string[], around: Surroundings): Promise<number> {
  const { values, ...call } = readCall(words, LIST, "shoots");
  const asked = {
    text: call.positionals.join(" "),
    ...textOf("pattern", values.pattern),
    ...textOf("light", values.light),
    ...textOf("room", values.room),
    ...dayOf("from", values.from),
    ...dayOf("to", values.to),
    ...(values.stars === undefined ? {} : { stars: wholeNumber(values.stars, "stars", 1, 5) }),
    putAway: values["put-away"] === true,
  };
  const library = await openThere(libraryOption({ ...call, values }), around);
  const rows = library === null ? [] : await found(library, asked);
  if (values.json === true) around.out(`${JSON.stringify({ total: rows.length, shoots: rows }, null, 2)}\n`);
  else if (rows.length > 0) around.out(rows.map((row) => `${shootLine(row)}\n`).join(""));
  else around.out(library === null ? "nothing is kept yet\n" : "no shoot has all of that\n");
  return 0;
}

function textOf(name: string, value: unknown): Record<string, string> {
  return typeof value === "string" ? { [name]: value } : {};
}

function dayOf(name: string, value: unknown): Record<string, string> {
  if (value === undefined) return {};
  if (typeof value === "string" && /^\d{4}-\d\d-\d\d$/.test(value)) return { [name]: value };
  throw new CallError(`--${name}: ${String(value)} is no day; write it as 2026-11-26`);
}

const PAGE = 500;

async function found(library: Library, query: Omit<ShootQuery, "offset" | "limit">): Promise<ShootRow[]> {
  const { findShoots } = await import("../library/index.ts");
  const rows: ShootRow[] = [];
  for (;;) {
    const page = findShoots(library.db, { ...query, offset: rows.length, limit: PAGE });
    rows.push(...page.rows);
    if (page.rows.length === 0 || rows.length >= page.total) return rows;
  }
}

/** Null where none is there yet: looking makes none. */
export async function openThere(named: string | null, around: Surroundings): Promise<Library | null> {
  return existsSync(await around.libraryPath(named)) ? around.openLibrary(named) : null;
}

/** Errors  WorkError where there is none */
export async function demandThere(named: string | null, around: Surroundings): Promise<Library> {
  const library = await openThere(named, around);
  if (library !== null) return library;
  throw new WorkError(
    `there is no library at ${await around.libraryPath(named)}`,
    "name one with --library, or keep a plan first: `tapemark open`",
  );
}

async function exportOne(words: readonly string[], around: Surroundings): Promise<number> {
  const form = { out: { type: "string" }, "no-sheets": { type: "boolean" }, ...LIBRARY_OPTION } as const;
  const call = readCall(words, form, "shoots");
  const { path } = outOption(call.values.out, "shoots", ["zip"]);
  if (call.positionals.length === 0)
    throw new CallError("shoots export: name a shoot (tapemark shoots lists them)");
  const library = await demandThere(libraryOption(call), around);
  const shoot = await shootCalled(library, call.positionals.join(" "));
  const { exportShoots } = await import("../library/index.ts");
  const sheet = call.values["no-sheets"] === true ? {} : { sheet: sheetOf };
  const made = await withStop(around, (options) =>
    exportShoots(library, { shoot: shoot.id }, path, { ...options, ...sheet }),
  );
  around.out(
    `${path}: ${shoot.title}, ${countOf(made.plans, "plan")}, ${countOf(made.photographs, "photograph")}\n`,
  );
  for (const { name, path: was } of made.missing)
    around.error(
      `tapemark: ${was ?? name} is not in it: ${was === null ? "it came by a browser" : "it is not there any more"}\n`,
    );
  return 0;
}

/** Null where the plan cannot be read any more: the archive has it as it is. */
async function sheetOf(plan: unknown): Promise<Uint8Array | null> {
  const checked = checkPlan(plan);
  if (!checked.ok) return null;
  const pages = await makeSheet(createComputer(), checked.plan, { paper: "a4", units: "metric" });
  return sheetPdf(checked.plan, pages, "a4");
}

/** The shoot of that mark (or the beginning of it), or the only one with those words. */
export async function shootCalled(library: Library, words: string): Promise<ShootRow> {
  const all = [...(await found(library, { putAway: false })), ...(await found(library, { putAway: true }))];
  const marked = all.filter(({ id }) => id === words || (words.length >= 4 && id.startsWith(words)));
  const those =
    marked.length > 0
      ? marked
      : [
          ...(await found(library, { text: words, putAway: false })),
          ...(await found(library, { text: words, putAway: true })),
        ];
  if (those.length === 1) return those[0];
  if (those.length === 0) throw new WorkError(`there is no shoot "${words}"`, "`tapemark shoots` lists them");
  throw new WorkError(
    `"${words}" is ${those.length} shoots: ${those.slice(0, 5).map(shootLine).join("; ")}`,
    "name the one by its mark in brackets",
  );
}

export async function importOne(
  words: readonly string[],
  around: Surroundings,
  command: string,
): Promise<number> {
  const call = readCall(words, LIBRARY_OPTION, command.split(" ")[0]);
  const [path, more] = call.positionals;
  if (path === undefined || more !== undefined) throw new CallError(`${command}: name one archive, FILE.zip`);
  const library = await around.openLibrary(libraryOption(call));
  const { importArchive } = await import("../library/index.ts");
  const taken = await withStop(around, (options) =>
    importArchive(library, path, { ...options, now: around.now, newId: around.newId }),
  );
  around.out(importedText(taken));
  return 0;
}

function importedText({ gear, photographs, shelf, shoots }: Imported): string {
  const lines = shoots.map(({ title, how }) => `${title}: ${HOW[how]}`);
  if (photographs > 0) lines.push(`${countOf(photographs, "photograph")} put beside the library`);
  if (gear > 0) lines.push(`${countOf(gear, "entry", "entries")} added to the gear book`);
  if (shelf > 0) lines.push(`${countOf(shelf, "thing")} put on the gear shelf`);
  return `${lines.join("\n")}\n`;
}

const HOW = {
  new: "taken in",
  there: "there already, nothing was changed",
  second: "taken in as a second shoot: the one that is here was worked on since",
} as const;
