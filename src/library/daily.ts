/** A copy a day while the server runs, and of old ones those that are worth keeping. */
import fs from "node:fs";
import { dirname, join } from "node:path";
import { WorkError, type WorkOptions } from "../workbench/index.ts";
import { type CopyMade, copyLibrary } from "./copies.ts";
import { copiesToKeep, copyName, isCopyName } from "./copies-keep.ts";
import type { MakeCopy } from "./copies-process.ts";
import { freeName, namesIn } from "./folder-names.ts";
import { dayOf } from "./homes.ts";
import type { Library } from "./open.ts";

/** After the start, when the page has been loaded. */
const FIRST_MS = 5000;
/** A machine that slept, or a day that began, is noticed after at most so long; so is a disk that has room again. */
const AGAIN_MS = 15 * 60_000;
const NAME_PATTERN = /^\.library .*\.tmp(-journal|-wal|-shm)?$/;
const STALE_MS = 60 * 60_000;

export interface CopyKept {
  /** ISO 8601 */
  readonly at: string;
  readonly path: string;
  /** it was opened and found whole before it got its name */
  readonly isVerified: boolean;
}

export interface CopyTrouble {
  readonly problem: string;
  readonly cure: string;
}

export interface DailyCopies {
  /** why the last attempt failed; null where it did not */
  trouble(): CopyTrouble | null;
  /** one more, now. Errors  WorkError with the cure */
  now(): Promise<CopyMade>;
  stop(): void;
}

export interface DailyParts {
  readonly make: MakeCopy;
  readonly now: () => Date;
  /** something to say about copies that nobody asked for */
  readonly tell: (line: string) => void;
}

export function copiesFolder(path: string): string {
  return join(dirname(path), "copies");
}

/** The one that was made last; null where there is none. */
export function newestCopy(path: string): CopyKept | null {
  const folder = copiesFolder(path);
  const kept = namesIn(folder)
    .filter(isCopyName)
    .map((name) => join(folder, name))
    .map((copy) => ({ path: copy, at: fs.statSync(copy).mtime.toISOString(), isVerified: true }));
  return kept.sort((a, b) => b.at.localeCompare(a.at))[0] ?? null;
}

/** Copies the library once a day that it has anything in it, at the start and while it is open. What fails is told once and
 * tried again; it disturbs nobody's work. */
export function startDailyCopies(library: Library, parts: DailyParts): DailyCopies {
  const folder = copiesFolder(library.path);
  let trouble: CopyTrouble | null = null;
  let going: Promise<CopyMade> | null = null;
  const make = (target: string): Promise<CopyMade> => {
    going ??= makeOne(library.path, target, parts)
      .then(
        (made) => {
          trouble = null;
          return made;
        },
        (error: unknown) => {
          const told = toldOf(error);
          if (told.problem !== trouble?.problem)
            parts.tell(`no copy was made: ${told.problem}; ${told.cure}`);
          trouble = told;
          throw error;
        },
      )
      .finally(() => {
        going = null;
      });
    return going;
  };
  const daily = () => {
    const target = join(folder, copyName(dayOf(parts.now())));
    if (!fs.existsSync(target) && hasAnything(library)) make(target).catch(() => {});
  };
  const timers = [setTimeout(daily, FIRST_MS), setInterval(daily, AGAIN_MS)];
  for (const timer of timers) timer.unref();
  return {
    trouble: () => trouble,
    now: () => make(join(folder, freeName(folder, "library", parts.now()))),
    stop() {
      for (const timer of timers) clearInterval(timer);
    },
  };
}

/** A copy beside the daily ones, made by hand; of old ones those go that are not worth keeping any more. */
export function copyHere(path: string, now: Date, options: WorkOptions = {}): Promise<CopyMade> {
  const folder = copiesFolder(path);
  const make: MakeCopy = (from, target) => copyLibrary(from, target, { ...options, never: "over" });
  return makeOne(path, join(folder, freeName(folder, "library", now)), {
    make,
    now: () => now,
    tell: () => {},
  });
}

function hasAnything(library: Library): boolean {
  try {
    return library.read((db) => db.prepare("SELECT 1 FROM shoots LIMIT 1").get()) !== undefined;
  } catch {
    // what is wrong with the library is told by whoever works with it
    return false;
  }
}

async function makeOne(path: string, target: string, { make, now, tell }: DailyParts): Promise<CopyMade> {
  const folder = dirname(target);
  fs.mkdirSync(folder, { recursive: true });
  clearHalves(folder, now());
  const made = await make(path, target);
  const { drop, ahead } = copiesToKeep(namesIn(folder), dayOf(now()));
  for (const name of drop) if (join(folder, name) !== target) fs.rmSync(join(folder, name), { force: true });
  if (ahead.length > 0)
    tell(`${ahead.length} copies in ${folder} are dated later than today: they are kept; check the clock`);
  return made;
}

/** What a copy left that was ended in between. */
function clearHalves(folder: string, now: Date): void {
  for (const name of namesIn(folder).filter((one) => NAME_PATTERN.test(one))) {
    const there = fs.statSync(join(folder, name), { throwIfNoEntry: false });
    if (there && Math.abs(now.getTime() - there.mtimeMs) > STALE_MS)
      fs.rmSync(join(folder, name), { force: true });
  }
}

function toldOf(error: unknown): CopyTrouble {
  if (error instanceof WorkError) return { problem: error.problem, cure: error.cure };
  return { problem: error instanceof Error ? error.message : String(error), cure: "look after the disk" };
}
