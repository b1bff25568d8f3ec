/** Kills a process at seeded moments of its work, and looks at what it left. */
import fs from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { type Library, openLibrary } from "../open.ts";
import { startJob } from "./children.ts";
import { newFolder } from "./fresh-library.ts";
import { faultsOf } from "./old-library.ts";

/** One kind of work that may be killed. Whoever adds one: a job in `child.ts`, and a test that calls `killed` with this. */
export interface KillScenario {
  /** in `child.ts` */
  readonly job: string;
  /** the latest moment of a kill, after the job's first line */
  readonly within_ms: number;
  /** what lies there before each kill; left out, what the last one left */
  readonly prepare?: (folder: string) => void;
  /** after each kill, the library opened anew and sound: `lines` are all that the job said */
  readonly check: (library: Library, lines: readonly string[], folder: string) => void | Promise<void>;
}

/** All kills of a scenario, one after the other; how many of them fell while the job was at work. */
export async function killed(scenario: KillScenario, kills: number, seed: number): Promise<number> {
  const random = parkMiller(seed);
  let atWork = 0;
  let folder = newFolder();
  for (let kill = 0; kill < kills; kill++) {
    if (scenario.prepare) {
      folder = newFolder();
      scenario.prepare(folder);
    }
    const running = await startJob(scenario.job, folder, kill);
    await sleep(scenario.within_ms * random());
    const { lines, isKilled } = await running.end();
    if (isKilled) atWork++;
    const library = openLibrary(join(folder, "library.tapemark"), AROUND);
    try {
      expect(library.read(faultsOf), `kill ${kill} of seed ${seed}`).toEqual([]);
      await scenario.check(library, lines, folder);
    } finally {
      library.close();
    }
    if (scenario.prepare) fs.rmSync(folder, { recursive: true });
  }
  return atWork;
}

const AROUND = { now: () => new Date(), newId: () => crypto.randomUUID() };
const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** Known-answer generator of Park and Miller: x <- 48271 x mod (2^31 - 1). */
function parkMiller(seed: number): () => number {
  let x = seed;
  return () => {
    x = (x * 48271) % 2147483647;
    return x / 2147483647;
  };
}
