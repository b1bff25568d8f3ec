export { type OpenRequest, run, type Surroundings, sheetPdf } from "./run.ts";
