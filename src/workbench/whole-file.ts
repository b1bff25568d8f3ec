/** Files are written whole or not at all, and what hinders it is said with its cure. */
import { WorkError } from "./errors.ts";

/** The calls of a file system that writing needs; Node's `fs` fits as it is. */
export interface FileCalls {
  openSync(path: string, flags: string): number;
  writeSync(file: number, bytes: Uint8Array, offset: number, length: number): number;
  fsyncSync(file: number): void;
  closeSync(file: number): void;
  renameSync(from: string, to: string): void;
  rmSync(path: string, options: { force: boolean }): void;
}

/** Writes bytes to a new file and waits until they are on the disk. The file must not be there yet; where it
 * fails, nothing of it stays. */
export function writeNewFile(files: FileCalls, path: string, bytes: Uint8Array): void {
  const file = files.openSync(path, "wx");
  try {
    try {
      let written = 0;
      while (written < bytes.length) written += files.writeSync(file, bytes, written, bytes.length - written);
      files.fsyncSync(file);
    } finally {
      files.closeSync(file);
    }
  } catch (error) {
    files.rmSync(path, { force: true });
    throw error;
  }
}

/** Puts bytes in place of what was at `path`, in one step: a reader sees the old file or the new one.
 * `temporary` is a name of the caller's in the same folder. */
export function writeWholeFile(files: FileCalls, path: string, temporary: string, bytes: Uint8Array): void {
  writeNewFile(files, temporary, bytes);
  try {
    files.renameSync(temporary, path);
  } catch (error) {
    files.rmSync(temporary, { force: true });
    throw error;
  }
}

/** The new name itself reaches the disk only with its folder; systems that cannot do that do it by themselves. */
export function syncFolder(files: FileCalls, folder: string): void {
  try {
    const file = files.openSync(folder, "r");
    try {
      files.fsyncSync(file);
    } finally {
      files.closeSync(file);
    }
  } catch {
    // Windows opens no folders, some network disks sync none
  }
}

const REASONS: Record<string, readonly [reason: string, cure: string]> = {
  ENOENT: ["there is no such file or folder", "check the name, or make the folder first"],
  ENOTDIR: ["a part of its path is a file, not a folder", "check the path"],
  EISDIR: ["it is a folder", "name a file"],
  EACCES: ["permission is denied", "choose a place that you may use, or change its permissions"],
  EPERM: ["the system does not allow it", "choose another place"],
  EROFS: ["the disk is read-only", "choose a folder on another disk"],
  ENOSPC: ["the disk is full", "free some space and try again"],
  EDQUOT: ["your share of the disk is used up", "free some space and try again"],
  ENAMETOOLONG: ["the name is too long", "choose a shorter one"],
  EMFILE: ["too many files are open", "close other programs and try again"],
  EIO: ["the disk reported an error", "try another disk, and look after this one"],
  EEXIST: ["a file of that name is in the way", "try again, or remove it"],
};

/** A file system's error in words. `attempt` is such as "could not write frame.png". */
export function fileError(attempt: string, error: unknown): WorkError {
  const code = (error as { code?: unknown } | null)?.code;
  const known = typeof code === "string" && Object.hasOwn(REASONS, code) ? REASONS[code] : undefined;
  if (known) return new WorkError(`${attempt}: ${known[0]}`, known[1]);
  return new WorkError(`${attempt}: ${error instanceof Error ? error.message : String(error)}`, "try again");
}
