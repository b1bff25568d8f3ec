/** A thread that searches: built into dist/node/finder-thread.js, started by entry.js. */
import { parentPort } from "node:worker_threads";
import { serveFinder } from "../src/cli/index.ts";

if (parentPort !== null) serveFinder(parentPort);
