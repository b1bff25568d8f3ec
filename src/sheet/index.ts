export { type BackgroundPoint, backgroundPoints } from "./background.ts";
export type { SheetPicture } from "./beside.ts";
export {
  CONTACT_SHAPE,
  type ContactCell,
  type ContactOptions,
  type ContactSheet,
  contactPage,
} from "./contact.ts";
export type { Drawing, Extent, Label, PaperPoint, Shape, ShapeKind, View } from "./drawing.ts";
export type { SheetBackground, SheetExtras, SheetMove, SheetReach } from "./extras.ts";
export { fromMarkWords, type SheetCircle, type SheetHold } from "./hold.ts";
export { drawingDocument } from "./one-drawing.ts";
export { drawFloor, drawSide } from "./outlines.ts";
export {
  type FromMark,
  type FromNose,
  type FromWalls,
  type MarkPlace,
  measurePlaces,
  type Place,
  type Places,
} from "./place.ts";
export { PAPER_SIZE, placementSheet, type SheetOptions } from "./placement.ts";
export { type RecordOptions, recordSheet } from "./record.ts";
export type * from "./record-types.ts";
export { spreadWords } from "./spread.ts";
export { type SetBy, type Thing, type ThingLine, thingsInOrder } from "./things.ts";
export {
  aloneFNumber,
  calledMeter,
  exposureWords,
  faceWords,
  heldWords,
  keyMeter,
  meterWords,
  settingMeter,
} from "./words.ts";
