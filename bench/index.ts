/** All that is measured, in the order in which it is told. */
import { faceRows } from "./face-rows.ts";
import { findRows } from "./find-rows.ts";
import { finderRows } from "./finder-rows.ts";
import { holdZoneRows } from "./hold-rows.ts";
import { libraryRows } from "./library-rows.ts";
import { photoRows } from "./photo-rows.ts";
import { sheetRows } from "./sheet-rows.ts";
import { studioRows } from "./studio-rows.ts";
import { trierRows } from "./trier-rows.ts";
import { type Row, rows } from "./work.ts";

/** @param isQuick all that matters is that it runs */
export function allRows(demo: unknown, isQuick: boolean): Row[] {
  return [
    ...faceRows(),
    ...finderRows(),
    ...findRows(),
    ...studioRows(),
    ...rows(demo),
    ...trierRows(demo),
    ...holdZoneRows(demo),
    ...sheetRows(demo),
    ...photoRows(demo),
    ...libraryRows(demo, isQuick),
  ];
}
