export type { Drawing, Extent, Label, PaperPoint, Shape, ShapeKind, View } from "./drawing.ts";
export { drawFloor, drawSide } from "./outlines.ts";
