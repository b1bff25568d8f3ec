export type { OpenRequest, Photographs } from "./around.ts";
export { contactFile } from "./contact.ts";
export { run } from "./run.ts";
export { sheetPdf } from "./sheet-pdf.ts";
export { serveFinder, startFinders } from "./threads.ts";
