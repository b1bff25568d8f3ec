/** Run as a process of its own: opens the library that is named, asks for the first page of the list, says how long that took
 * from the start of the process on. */
import { randomUUID } from "node:crypto";
import { createShoots, openLibrary } from "../src/library/index.ts";

const around = { now: () => new Date(), newId: randomUUID };
const library = openLibrary(process.argv[2], around);
const shoots = createShoots(library, {
  ...around,
  news: { tell: () => {} },
  writeSidecars: async () => ({ written: 0, unchanged: 0, problems: [] }),
});
const { total, rows } = await shoots.find({ offset: 0, limit: 50 });
process.stdout.write(JSON.stringify({ took: performance.now(), total, rows: rows.length }));
library.close();
