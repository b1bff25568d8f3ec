/** A large file that is written a piece at a time, and is there whole or not at all. */
import { randomBytes } from "node:crypto";
import fs from "node:fs";
import { basename, dirname, join } from "node:path";
import { promisify } from "node:util";
import { type FileCalls, syncFolder } from "../workbench/index.ts";
import type { WriteAt } from "./zip-write.ts";

/** As `FileCalls`, but pieces go to a place of their own, and the disk is waited for while others get on: a gigabyte takes it
 * seconds. */
export interface ArchiveCalls extends Omit<FileCalls, "writeSync" | "fsyncSync"> {
  writeSync(file: number, bytes: Uint8Array, offset: number, length: number, position: number): number;
  fsync(file: number): Promise<void>;
}

/** Waits until what was written is on the disk. */
export const onDisk: (file: number) => Promise<void> = promisify(fs.fsync);

/** Writes beside `path` and puts it there in one step, over what was there. Where it fails, what was there stays and nothing
 * lies beside it.
 * Errors  those of the system and of `act` */
export async function writeLarge<T>(
  path: string,
  act: (write: WriteAt) => Promise<T>,
  files: ArchiveCalls = { ...fs, fsync: onDisk },
): Promise<T> {
  const there = fs.statSync(path, { throwIfNoEntry: false });
  if (there?.isDirectory()) throw Object.assign(new Error("is a folder"), { code: "EISDIR" });
  // a file that is protected from writing must not be replaced just because its folder is open
  if (there) fs.accessSync(path, fs.constants.W_OK);
  const target = there ? fs.realpathSync(path) : path;
  const temporary = join(dirname(target), `.${basename(target)}.${randomBytes(4).toString("hex")}.tmp`);
  const file = files.openSync(temporary, "wx");
  let result: T;
  try {
    try {
      result = await act((bytes, position) => {
        let written = 0;
        while (written < bytes.length)
          written += files.writeSync(file, bytes, written, bytes.length - written, position + written);
      });
      await files.fsync(file);
    } finally {
      files.closeSync(file);
    }
    files.renameSync(temporary, target);
  } catch (error) {
    files.rmSync(temporary, { force: true });
    throw error;
  }
  syncFolder(fs, dirname(target));
  return result;
}

/** Whether two names lead to one file. */
export function isSameFile(a: string, b: string): boolean {
  const [first, second] = [a, b].map((path) => fs.statSync(path, { throwIfNoEntry: false, bigint: true }));
  return first !== undefined && second !== undefined && first.dev === second.dev && first.ino === second.ino;
}
