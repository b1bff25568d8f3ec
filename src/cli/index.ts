export type { OpenRequest, Photographs } from "./around.ts";
export { run, sheetPdf } from "./run.ts";
export { MOST_THREADS, serveFinder, startFinders } from "./threads.ts";
