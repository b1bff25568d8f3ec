/** A picture on a page, within a hair line. */
import type { SheetPicture } from "./beside.ts";
import { INK, mm, rectOf } from "./svg.ts";

export function imageOf(
  { data }: SheetPicture,
  x: number,
  y: number,
  width: number,
  height: number,
): string[] {
  const href = data.startsWith("data:") ? data : `data:image/png;base64,${data}`;
  return [
    `<image x="${mm(x)}" y="${mm(y)}" width="${mm(width)}" height="${mm(height)}" xlink:href="${href}"/>`,
    rectOf(x, y, width, height, { stroke: INK, width: 0.2 }),
  ];
}
