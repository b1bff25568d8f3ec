export type { OpenRequest, Photographs } from "./around.ts";
export { contactFile } from "./contact.ts";
export { run } from "./run.ts";
export { sheetPdf } from "./sheet-pdf.ts";
export { MOST_THREADS, serveFinder, startFinders } from "./threads.ts";
