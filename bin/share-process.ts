/** A process that works for paired devices: built into dist/node/share-process.js, started by entry.js. */
// by its file: the server as a whole is not needed here
import { createMeterWork, serveShareWork } from "../src/server/live-serve.ts";
import { sheetOf } from "./sheet-of.ts";

serveShareWork({ ...createMeterWork(), sheet: sheetOf });
