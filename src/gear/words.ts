/** Amounts as the shelf says them. */
import type { Face } from "../plan/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";

/** "4.0 stops", "1.0 stop" */
export function stopsText(stops: number): string {
  const amount = stops.toFixed(1);
  return `${amount} ${amount === "1.0" ? "stop" : "stops"}`;
}

const POLYGON: Readonly<Record<number, string>> = { 6: "six-sided", 8: "eight-sided" };

/** "eight-sided front 1.20 m", "front 0.30 × 1.20 m", "bare head" */
export function frontName(face: Face, units: LengthUnits): string {
  if (face.shape === "point") return "bare head";
  const width = formatLength(face.width, units);
  if (face.shape === "rectangle") return `front ${width} × ${formatLength(face.height, units)}`;
  const shape = face.shape === "disc" ? "round" : (POLYGON[face.sides] ?? `${face.sides}-sided`);
  return `${shape} front ${width}`;
}
