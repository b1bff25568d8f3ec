/** All that is measured, in the order in which it is told. */
import { faceRows } from "./face-rows.ts";
import { findRows } from "./find-rows.ts";
import { finderRows } from "./finder-rows.ts";
import { holdZoneRows } from "./hold-rows.ts";
import { photoRows } from "./photo-rows.ts";
import { studioRows } from "./studio-rows.ts";
import { trierRows } from "./trier-rows.ts";
import { type Row, rows } from "./work.ts";

export function allRows(demo: unknown): Row[] {
  return [
    ...faceRows(),
    ...finderRows(),
    ...findRows(),
    ...studioRows(),
    ...rows(demo),
    ...trierRows(demo),
    ...holdZoneRows(demo),
    ...photoRows(demo),
  ];
}
