/** A process that reads photographs: built into dist/node/photo-process.js, started by entry.js. */
import { fileURLToPath } from "node:url";
import { serveReader } from "../src/files/index.ts";
// not by its room: nobody else loads what it takes to read a picture
import { createPhotoWork } from "../src/files/reader-work.ts";

serveReader(createPhotoWork(fileURLToPath(new URL("../..", import.meta.url))));
