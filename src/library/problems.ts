/** What can be wrong with a library, in words. */
import { WorkError } from "../workbench/index.ts";
import { codeOf } from "./sqlite.ts";

/** SQLite's own numbers (sqlite.org/rescode.html): the low eight bits say what, the rest says where. */
const BUSY = 5;
const LOCKED = 6;
const READ_ONLY = 8;
const IO = 10;
const CORRUPT = 11;
const FULL = 13;
const CANNOT_OPEN = 14;
const NO_DATABASE = 26;
/** IO errors of writing: WRITE, FSYNC, DIR_FSYNC, TRUNCATE, SHMOPEN, SHMSIZE. A disk that is full is told by any of them. */
const NOT_WRITTEN = new Set([778, 1034, 1290, 1546, 4618, 4874]);

const NO_ROOM_CURE =
  "free some space on it; what is on the table stays there meanwhile, and saving is tried again";
const OTHER_CURE = "name another library with --library";

/** The same error, or where it is one of SQLite what it means for the library at `path`. */
export function libraryProblem(error: unknown, path: string): unknown {
  const code = codeOf(error);
  if (error instanceof WorkError || code === null) return error;
  if (NOT_WRITTEN.has(code))
    return new WorkError(`${path} could not be written: the disk is full, or fails`, NO_ROOM_CURE);
  switch (code & 0xff) {
    case FULL:
      return new WorkError(`${path} could not be written: the disk is full`, NO_ROOM_CURE);
    case BUSY:
    case LOCKED:
      return new WorkError(
        `${path} is being written by another Tapemark`,
        "wait a moment and try again; if it stays, close the other one",
      );
    case READ_ONLY:
      return new WorkError(
        `${path} or its folder may only be read`,
        `change their permissions, or ${OTHER_CURE}`,
      );
    case CANNOT_OPEN:
      return new WorkError(
        `${path} could not be opened, or its folder may not be written`,
        `check the path and its permissions, or ${OTHER_CURE}`,
      );
    case CORRUPT:
      return damaged(path);
    case NO_DATABASE:
      return noLibrary(path, "it is another kind of file");
    case IO:
      return new WorkError(
        `the disk reported an error at ${path}`,
        "copy the library to another disk, and look after this one",
      );
    default:
      return error;
  }
}

export function damaged(path: string): WorkError {
  return new WorkError(
    `${path} is damaged`,
    `go back to the newest copy in the folder "copies" beside it: tapemark library restore COPY; or ${OTHER_CURE}`,
  );
}

export function damagedWork(path: string, key: string): WorkError {
  return new WorkError(
    `"${key}" in ${path} is damaged`,
    'the others are untouched; it may be whole in a copy in the folder "copies" beside it',
  );
}

export function noLibrary(path: string, why: string): WorkError {
  return new WorkError(`${path} is no library of Tapemark: ${why}`, OTHER_CURE);
}

export function newerLibrary(path: string, form: number, known: number): WorkError {
  return new WorkError(
    `${path} was made by a newer Tapemark (form ${form}; this one knows up to ${known})`,
    `open it with that one, or ${OTHER_CURE}`,
  );
}

export function movedAway(path: string): WorkError {
  return new WorkError(
    `${path} was moved away or replaced while it was open`,
    "put it back, or start Tapemark again; what is on the table stays there meanwhile",
  );
}

export function journalAlone(path: string): WorkError {
  return new WorkError(
    `${path} is not there, but its journal ${path}-wal is, which holds the last changes`,
    "put the library back beside it, or move the journal away to begin a new library",
  );
}
