/** A process that makes one copy of a library: built into dist/node/copy-process.js, started by entry.js. */
import { serveCopies } from "../src/library/index.ts";

serveCopies();
