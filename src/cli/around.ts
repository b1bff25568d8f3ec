/** What every command has round it: where words go, the plan it is about, how far it is. */
import type { PhotoReader } from "../files/index.ts";
import type { Library } from "../library/index.ts";
import type { Plan } from "../plan/index.ts";
import { Stopped } from "../reading/index.ts";
import { type GearStore, openPlan, WorkError, type WorkOptions } from "../workbench/index.ts";
import { type Call, CallError } from "./call.ts";
import type { Command } from "./help.ts";
import { checkOutput, progressLine, readBeside, readInput } from "./output.ts";
import type { Finders } from "./threads.ts";

export interface Surroundings {
  readonly version: string;
  readonly out: (text: string) => void;
  readonly error: (text: string) => void;
  readonly errorStream: NodeJS.WriteStream;
  /** starts the workbench and runs until it is stopped */
  readonly openWorkbench: (request: OpenRequest) => Promise<void>;
  /** as many as there are processors to spare, by themselves: what they work out does not keep this one busy */
  readonly startFinders: () => Finders;
  readonly photographs: (library: string | null) => Promise<Photographs>;
  /** the one that is named, or the user's own; closed when the command ends */
  readonly openLibrary: (library: string | null) => Promise<Library>;
  /** where that one lies, or would */
  readonly libraryPath: (library: string | null) => Promise<string>;
  readonly now: () => Date;
  /** never given before */
  readonly newId: () => string;
  /** asked for by whoever sits at the terminal: Ctrl-C */
  readonly onInterrupt: (stop: () => void) => { off(): void };
}

/** What it takes to read photographs. */
export interface Photographs {
  /** with up to so many processes of its own */
  readonly startReader: (count: number) => PhotoReader;
  readonly gear: GearStore;
}

export interface OpenRequest {
  readonly plan: { readonly name: string; readonly text: string } | null;
  readonly port: number | null;
  readonly browser: boolean;
  /** null: the user's own */
  readonly library: string | null;
}

/** For each command that keeps something, or reads what is kept. */
export const LIBRARY_OPTION = { library: { type: "string" } } as const;

export function libraryOption({ values }: Call): string | null {
  if (values.library === "") throw new CallError("--library: name a file");
  return typeof values.library === "string" ? values.library : null;
}

/** As `withProgress`, and Ctrl-C asks it to stop: what is half done is taken back. */
export async function withStop<T>(
  around: Surroundings,
  work: (options: WorkOptions) => Promise<T>,
): Promise<T> {
  const signal = { aborted: false };
  const interrupt = around.onInterrupt(() => {
    signal.aborted = true;
  });
  try {
    return await withProgress(around, (options) => work({ ...options, signal }));
  } finally {
    interrupt.off();
  }
}

/** As `withProgress`, on threads of its own, which Ctrl-C ends at once.
 * Errors  WorkError where it was stopped */
export async function onThreads<T>(
  around: Surroundings,
  before: string,
  work: (finders: Finders["finders"], options: WorkOptions) => Promise<T>,
): Promise<T> {
  const { finders, stop } = around.startFinders();
  const signal = { aborted: false };
  const interrupt = around.onInterrupt(() => {
    signal.aborted = true;
    void stop();
  });
  try {
    return await withProgress(around, (options) => work(finders, { ...options, signal }));
  } catch (error) {
    if (!(error instanceof Stopped)) throw error;
    throw new WorkError(`stopped ${before}`, "nothing was written");
  } finally {
    interrupt.off();
    await stop();
  }
}

/** Shows how far the work is, and clears the line again however it ends. */
export async function withProgress<T>(
  around: Surroundings,
  work: (options: WorkOptions) => Promise<T>,
): Promise<T> {
  const line = progressLine(around.errorStream);
  try {
    return await work({ onProgress: line.show });
  } finally {
    line.end();
  }
}

export async function planAt(path: string, around: Surroundings): Promise<Plan | null> {
  return checked(await readInput(path), path, around);
}

/** The plan, or null after its problems have been printed, one a line: where one is the whole file's, with its name.
 * Photometric files may lie beside it. */
export function checked(text: string, path: string, around: Surroundings): Plan | null {
  const opened = openPlan(text, (name) => readBeside(path, name));
  if (opened.ok) return opened.plan;
  const file = path === "-" ? "standard input" : path;
  for (const { path, what } of opened.problems)
    around.error(`${path}: ${path === "plan" ? `${file}: ` : ""}${what}\n`);
  return null;
}

/** Errors  CallError for a missing or wrong ending, WorkError for a place that cannot be written to: both before any work */
export function outOption(
  value: unknown,
  command: Command,
  endings: readonly string[],
): { path: string; ending: string } {
  const forms = endings.map((e) => `FILE.${e}`).join(" or ");
  if (typeof value !== "string" || value === "")
    throw new CallError(`${command}: say where to write with --out ${forms}`);
  const ending = /\.([a-z]+)$/i.exec(value)?.[1].toLowerCase() ?? "";
  if (!endings.includes(ending))
    throw new CallError(`--out: ${value} must end in ${endings.map((e) => `.${e}`).join(" or ")}`);
  checkOutput(value);
  return { path: value, ending };
}
