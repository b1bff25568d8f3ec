/** Names in a folder: those that are there, and one that is free. */
import fs from "node:fs";
import { join } from "node:path";
import { dayOf } from "./homes.ts";

/** None where there is no such folder yet, or it cannot be read. */
export function namesIn(folder: string): string[] {
  try {
    return fs.readdirSync(folder);
  } catch {
    return [];
  }
}

/** "library 2026-11-26 0915.tapemark", by the clock of this machine, or that with the next number where it is taken. */
export function freeName(folder: string, called: string, now: Date): string {
  const two = (n: number) => String(n).padStart(2, "0");
  const stem = `${called} ${dayOf(now)} ${two(now.getHours())}${two(now.getMinutes())}`;
  for (let number = 1; ; number++) {
    const name = `${stem}${number === 1 ? "" : ` ${number}`}.tapemark`;
    if (!fs.existsSync(join(folder, name))) return name;
  }
}
