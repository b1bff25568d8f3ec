export type { SheetPicture } from "./beside.ts";
export { type OverheadCaution, overheadCautions, usualCautions } from "./cautions.ts";
export type { Drawing, Extent, Label, PaperPoint, Shape, ShapeKind, View } from "./drawing.ts";
export { fromMarkWords, type SheetCircle, type SheetHold } from "./hold.ts";
export { drawingDocument } from "./one-drawing.ts";
export { drawFloor, drawSide } from "./outlines.ts";
export {
  type FromMark,
  type FromNose,
  type FromWalls,
  type MarkPlace,
  measurePlaces,
  overPeople,
  type Place,
  type Places,
} from "./place.ts";
export { PAPER_SIZE, placementSheet, type SheetOptions } from "./placement.ts";
export { type SetBy, type Thing, type ThingLine, thingsInOrder } from "./things.ts";
export { aloneFNumber, faceWords, heldWords, meterWords, settingMeter } from "./words.ts";
