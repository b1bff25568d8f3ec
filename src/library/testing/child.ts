/** A process of its own that works on a library until it is killed, stopped by the system, or done. Bundled and started by
 * `children.ts`: node child.js JOB FOLDER. It writes a line for each thing that it promises is kept. */
import fs from "node:fs";
import { join } from "node:path";
import { WorkError } from "../../workbench/index.ts";
import { clearArriving } from "../archive-arriving.ts";
import { importArchive } from "../archive-import.ts";
import { restoreCopy } from "../copies-restore.ts";
import { copyHere } from "../daily.ts";
import { moveIn } from "../moved-in.ts";
import { type Library, openLibrary } from "../open.ts";
import { createWorks } from "../works.ts";
import { savedWork } from "./saved-work.ts";

export type Job = (folder: string, say: (line: string) => void, seed: number) => void | Promise<void>;

const AROUND = { now: () => new Date(), newId: () => crypto.randomUUID() };

export function openIn(folder: string): Library {
  return openLibrary(join(folder, "library.tapemark"), AROUND);
}

/** A job that is not about works alone adds a line here, and a scenario in its own test. */
const JOBS: Readonly<Record<string, Job>> = {
  /** saves as fast as it can, small works and large ones */
  async edits(folder, say) {
    const library = openIn(folder);
    const works = createWorks(library, AROUND);
    const revisions = new Map<string, number>();
    for (const { key } of await works.list()) revisions.set(key, (await works.load(key))?.revision ?? 0);
    for (let i = 0; ; i++) {
      const key = `w-${i % 5}`;
      const revision = (revisions.get(key) ?? 0) + 1;
      await works.save(key, savedWork(key, revision));
      revisions.set(key, revision);
      say(`${key} ${revision}`);
    }
  },
  /** opens what is there: makes it, brings it forward */
  opening(folder, say) {
    say("begins");
    openIn(folder);
    say("open");
  },
  /** takes in what earlier versions kept as files */
  moving(folder, say) {
    const library = openIn(folder);
    say("begins");
    moveIn(library, join(folder, "data"), AROUND);
    say("moved");
  },
  /** one save, and what became of it */
  async save(folder, say) {
    const works = createWorks(openIn(folder), AROUND);
    const before = (await works.load("w-0"))?.revision ?? 0;
    await works.save("w-0", savedWork("w-0", before + 1));
    say(`w-0 ${before + 1}`);
  },
  /** as somebody who may use nothing of root's */
  async "save as nobody"(folder, say) {
    // on Windows there is no such call, and no test asks for it
    process.setuid?.(65534);
    await JOBS.save(folder, say, 0);
  },
  /** takes an archive in */
  async archive(folder, say) {
    const library = openIn(folder);
    clearArriving(library);
    say("begins");
    await importArchive(library, join(folder, "archive.zip"), AROUND);
    say("taken in");
  },
  /** copies as fast as it can */
  async copies(folder, say) {
    const { path } = openIn(folder);
    say("begins");
    for (;;) say((await copyHere(path, new Date("2026-11-26T10:00:00Z"))).path);
  },
  /** goes back to a copy */
  async restore(folder, say) {
    say("begins");
    await restoreCopy(join(folder, "library.tapemark"), join(folder, "copy.tapemark"), AROUND);
    say("restored");
  },
  /** goes on writing until it is ended */
  hold(folder, say) {
    openIn(folder).write(() => {
      say("holds");
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
    });
  },
};

const [name, folder, seed] = process.argv.slice(2);
try {
  // straight to the system: a line that was written is out, whatever happens next
  await JOBS[name](folder, (line) => void fs.writeSync(1, `${line}\n`), Number(seed));
} catch (error) {
  if (!(error instanceof WorkError)) throw error;
  fs.writeSync(1, `refused: ${error.message}\n`);
}
