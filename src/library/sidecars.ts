/** Stars and selects beside the photographs, where other programs look for them. */
import * as fs from "node:fs";
import { basename, dirname, extname, join } from "node:path";
import type { SidecarsWritten } from "../shoots/index.ts";
import { mergeXmp, XmpError, type XmpPick } from "../shoots/xmp.ts";
import { type FileCalls, fileError, syncFolder, WorkError, writeWholeFile } from "../workbench/index.ts";
import type { PickedFrame } from "./shoots.ts";
import { decodeSidecar, encodeSidecar, type SidecarText } from "./sidecars-text.ts";

type Problem = SidecarsWritten["problems"][number];

/** Far more than any sidecar; what is larger is none. */
const MOST_BYTES = 16_000_000;

/** Writes each photograph's sidecar: NAME.xmp beside it, or NAME.EXT.xmp where that is there already or where two
 * photographs have one name. Whole or not at all; one that says the same already is not touched; the photograph never is.
 * Errors  none: what hinders one is told with its cure, and the others are written */
export async function writeSidecars(
  frames: readonly PickedFrame[],
  files: FileCalls = fs,
): Promise<SidecarsWritten> {
  let written = 0;
  let unchanged = 0;
  const problems: Problem[] = [];
  const shared = sharedNames(frames);
  for (const frame of frames) {
    // whoever waits for something else gets it between two files
    await new Promise((resolve) => setImmediate(resolve));
    try {
      if (writeSidecar(frame, shared.has(plainPath(frame.path)), files)) written++;
      else unchanged++;
    } catch (error) {
      problems.push(problemOf(frame.path, error));
    }
  }
  return { written, unchanged, problems };
}

/** Whether something was written. */
function writeSidecar({ path, ...pick }: PickedFrame, isShared: boolean, files: FileCalls): boolean {
  if (!fs.existsSync(path))
    throw new WorkError(
      `${path} is no longer there`,
      "bring the photograph back to that folder, or take it out of the shoot",
    );
  const sidecar = sidecarPath(path, isShared);
  const there = readThere(sidecar);
  const text = merged(sidecar, there, pick);
  if (text === (there?.text ?? "")) return false;
  const bytes = encodeSidecar({ encoding: "utf-8", hasMark: false, ...there, text });
  try {
    writeWholeFile(files, sidecar, `${sidecar}.${process.pid}.part`, bytes);
  } catch (error) {
    throw fileError(`could not write ${sidecar}`, error);
  }
  syncFolder(files, dirname(sidecar));
  return true;
}

function merged(sidecar: string, there: SidecarText | null, pick: XmpPick): string {
  try {
    return mergeXmp(there?.text ?? null, pick);
  } catch (error) {
    throw refused(sidecar, error);
  }
}

function readThere(sidecar: string): SidecarText | null {
  let bytes: Uint8Array;
  try {
    if (fs.statSync(sidecar).size > MOST_BYTES) throw new XmpError("it is far too large for one");
    bytes = fs.readFileSync(sidecar);
  } catch (error) {
    if ((error as { code?: unknown }).code === "ENOENT") return null;
    if (error instanceof XmpError) throw refused(sidecar, error);
    throw fileError(`could not read ${sidecar}`, error);
  }
  try {
    return decodeSidecar(bytes);
  } catch (error) {
    throw refused(sidecar, error);
  }
}

function refused(sidecar: string, error: unknown): unknown {
  if (!(error instanceof XmpError)) return error;
  return new WorkError(
    `${sidecar} was left as it is: ${error.problem}`,
    "mend it in the program that wrote it, or move it away and write again",
  );
}

/** The whole name with ".xmp" where such a one is there, and where the short one would be two photographs'. */
function sidecarPath(path: string, isShared: boolean): string {
  const long = `${path}.xmp`;
  return isShared || fs.existsSync(long) ? long : `${plainPath(path)}.xmp`;
}

function plainPath(path: string): string {
  return join(dirname(path), basename(path, extname(path)));
}

/** Names without extension that several of the photographs have, as a raw file and its picture. */
function sharedNames(frames: readonly PickedFrame[]): ReadonlySet<string> {
  const paths = [...new Set(frames.map(({ path }) => path))].map(plainPath);
  return new Set(paths.filter((path, i) => paths.indexOf(path) !== i));
}

function problemOf(path: string, error: unknown): Problem {
  const told =
    error instanceof WorkError ? error : fileError(`could not write the sidecar of ${path}`, error);
  return { name: basename(path), problem: told.problem, cure: told.cure };
}
