/** Writing what was asked for: whole files or nothing, and progress for people only. */
import { randomBytes } from "node:crypto";
import fs from "node:fs";
import { basename, dirname, join } from "node:path";
import { fileError, type Progress, syncFolder, writeWholeFile } from "../workbench/index.ts";

/** Puts bytes where `--out` says. A link keeps pointing where it did; a device or a pipe is written into. */
export function writeOutput(path: string, bytes: Uint8Array): void {
  try {
    const there = openPlace(path);
    if (there && !there.isFile()) {
      fs.writeFileSync(path, bytes);
      return;
    }
    const target = there ? fs.realpathSync(path) : path;
    const temporary = join(dirname(target), `.${basename(target)}.${randomBytes(4).toString("hex")}.tmp`);
    writeWholeFile(fs, target, temporary, bytes);
    syncFolder(fs, dirname(target));
  } catch (error) {
    throw fileError(`could not write ${path}`, error);
  }
}

/** Refuses a place that cannot be written to before minutes of work go into what should stand there. */
export function checkOutput(path: string): void {
  try {
    openPlace(path);
  } catch (error) {
    throw fileError(`could not write ${path}`, error);
  }
}

function openPlace(path: string): fs.Stats | undefined {
  const there = fs.statSync(path, { throwIfNoEntry: false });
  if (there?.isDirectory()) throw Object.assign(new Error("is a folder"), { code: "EISDIR" });
  // a file that is protected from writing must not be replaced just because its folder is open
  fs.accessSync(there ? path : dirname(path), fs.constants.W_OK);
  return there;
}

/** Pages as SVG: the first where `--out` says, the others beside it as FILE-2.svg and so on. */
export function writePages(path: string, pages: readonly string[]): void {
  for (const [i, page] of pages.entries())
    writeOutput(i === 0 ? path : path.replace(/\.svg$/i, `-${i + 1}.svg`), Buffer.from(page));
}

/** An endless input is not read to its end. Plans of more than 8 million characters are refused, so what is cut here
 * is refused too. */
const MOST_BYTES = 256 * 1024 * 1024;

/** The text of a plan file, or of standard input for `-`; what is too long comes back cut, and is still too long.
 * Errors  WorkError with the file's name; bytes that are no UTF-8 become U+FFFD, which JSON only takes in texts */
export async function readInput(path: string): Promise<string> {
  const chunks: Buffer[] = [];
  let length = 0;
  try {
    const input = path === "-" ? process.stdin : fs.createReadStream(path);
    for await (const chunk of input) {
      chunks.push(chunk as Buffer);
      length += (chunk as Buffer).length;
      if (length > MOST_BYTES) break;
    }
  } catch (error) {
    throw fileError(`could not read ${path === "-" ? "standard input" : path}`, error);
  }
  return Buffer.concat(chunks).toString("utf8");
}

/** The text of a file in the same folder as another; null where there is none. Names with folders are none. */
export function readBeside(path: string, name: string): string | null {
  if (path === "-" || basename(name) !== name || name.startsWith(".")) return null;
  const file = join(dirname(path), name);
  try {
    const there = fs.statSync(file);
    // a pipe would be waited for without end
    return there.isFile() && there.size <= MOST_BYTES ? fs.readFileSync(file, "latin1") : null;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw fileError(`could not read ${file}`, error);
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
