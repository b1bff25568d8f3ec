/** Writing what was asked for: whole files or nothing, and progress for people only. */
import { randomBytes } from "node:crypto";
import fs from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileError, type Progress, writeWholeFile } from "../workbench/index.ts";

export function writeOutput(path: string, bytes: Uint8Array): void {
  const temporary = join(dirname(path), `.${basename(path)}.${randomBytes(4).toString("hex")}.tmp`);
  try {
    if (fs.existsSync(path) && fs.statSync(path).isDirectory()) {
      throw Object.assign(new Error("is a folder"), { code: "EISDIR" });
    }
    writeWholeFile(fs, path, temporary, bytes);
  } catch (error) {
    throw fileError(`could not write ${path}`, error);
  }
}

export function readInput(path: string): string {
  try {
    return fs.readFileSync(path === "-" ? 0 : path, "utf8");
  } catch (error) {
    throw fileError(`could not read ${path === "-" ? "standard input" : path}`, error);
  }
}

/** One line that is written over, on standard error, where that is a terminal. */
export function progressLine(stream: NodeJS.WriteStream): { show(p: Progress): void; end(): void } {
  let shown = false;
  return {
    show({ done, what }) {
      if (!stream.isTTY) return;
      shown = true;
      stream.write(`\r${what} ${Math.round(100 * done)} %\u001b[K`);
    },
    end() {
      if (shown) stream.write("\r\u001b[K");
    },
  };
}
