// Runs jobs two at a time, and tells of each, whole, in the order of the list.
import { spawn } from "node:child_process";

/** As many as the smallest machine that this is meant for has cores. */
const AT_ONCE = 2;
/** Several times what the longest takes: one that hangs must end the run with a word, not hold it up. */
const MOST_MS = 400_000;
/** What a program has printed is there this long after its end. A child that it left behind may keep its pipes open for ever. */
const LAST_WORDS_MS = 1000;

/** One program: whether it ended well, what it printed, how long it took. `stdout` is "pipe", or "ignore" for what nobody reads.
 * What it leaves running is ended with it. */
export function ran(command, args, { stdout = "pipe", shell = false } = {}) {
  const began = performance.now();
  return new Promise((resolve) => {
    const child = spawn(command, args, { shell, detached: true, stdio: ["ignore", stdout, "pipe"] });
    const said = [];
    const say = (words) => said.push(Buffer.from(`${words}\n`));
    const endAll = () => {
      try {
        process.kill(-child.pid, "SIGKILL");
      } catch {
        // nothing of it is left
      }
    };
    const tooLong = setTimeout(() => {
      say(`not done after ${MOST_MS / 1000} s, and ended`);
      endAll();
    }, MOST_MS);
    const end = (ok) => {
      clearTimeout(tooLong);
      resolve({ ok, said: Buffer.concat(said).toString(), seconds: (performance.now() - began) / 1000 });
    };
    child.stdout?.on("data", (chunk) => said.push(chunk));
    child.stderr.on("data", (chunk) => said.push(chunk));
    child.once("error", (error) => {
      say(error);
      end(false);
    });
    child.once("close", (code) => end(code === 0));
    child.once("exit", (code) =>
      setTimeout(() => {
        endAll();
        end(code === 0);
      }, LAST_WORDS_MS).unref(),
    );
  });
}

/** `lanes` are lists of jobs: those of one lane never run at the same time, and lanes begin in their order. `run` works one
 * job off; `tell` hears of each as soon as all before it in `order` have been told of. */
export async function sideBySide({ order, lanes, run, tell }) {
  const left = [...lanes];
  const done = new Map();
  let told = 0;
  const work = async () => {
    for (let lane = left.shift(); lane; lane = left.shift()) {
      for (const job of lane) {
        done.set(job, await run(job));
        for (; told < order.length && done.has(order[told]); told++) tell(order[told], done.get(order[told]));
      }
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
}
