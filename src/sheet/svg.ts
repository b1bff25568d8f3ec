/** The few parts of SVG that the sheet is made of; all that a browser, a print shop and the PDF writer agree on. */
import type { Weight } from "./text.ts";

export const INK = "#1b1f24";
export const QUIET = "#5a6068";
export const HAIR = "#a9adb2";
export const PAPER = "#ffffff";
/** of power, and of direction: never the only thing that tells two things apart */
export const WARM = "#b07a1e";
export const WARM_WASH = "#f6ead0";
export const COOL = "#2f6f8f";

export const FONT = "Inter, sans-serif";

export interface Pen {
  readonly stroke?: string;
  readonly width?: number;
  readonly fill?: string;
  readonly dash?: string;
}

/** Thousandths of a millimetre: finer than any printer. */
export function mm(value: number): string {
  return String(Math.round(value * 1000) / 1000 + 0);
}

export function escapeXml(text: string): string {
  return (
    text
      .replaceAll("&", "&amp;")
      .replaceAll("<", "&lt;")
      .replaceAll(">", "&gt;")
      .replaceAll('"', "&quot;")
      // what XML cannot hold: halves of surrogate pairs and non-characters
      .replace(/[\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g, "?")
  );
}

function pen({ stroke, width = 0.2, fill = "none", dash }: Pen): string {
  const line =
    stroke === undefined ? "" : ` stroke="${stroke}" stroke-width="${width}" stroke-linejoin="round"`;
  return `fill="${fill}"${line}${dash === undefined ? "" : ` stroke-dasharray="${dash}"`}`;
}

export function pathOf(
  points: readonly (readonly [number, number])[],
  closed: boolean,
  style: Pen,
  data = "",
): string {
  const d = points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${mm(x)} ${mm(y)}`).join("");
  return `<path d="${d}${closed ? "Z" : ""}" ${pen(style)}${data}/>`;
}

export function lineOf(x1: number, y1: number, x2: number, y2: number, style: Pen, data = ""): string {
  return `<line x1="${mm(x1)}" y1="${mm(y1)}" x2="${mm(x2)}" y2="${mm(y2)}" ${pen(style)}${data}/>`;
}

export function rectOf(x: number, y: number, width: number, height: number, style: Pen): string {
  return `<rect x="${mm(x)}" y="${mm(y)}" width="${mm(width)}" height="${mm(height)}" ${pen(style)}/>`;
}

export interface TextStyle {
  readonly size: number;
  readonly weight?: Weight;
  readonly fill?: string;
  readonly anchor?: "start" | "middle" | "end";
}

/** Text whose baseline starts (or is centred, or ends) at (x, y). */
export function textOf(x: number, y: number, text: string, style: TextStyle): string {
  const { size, weight = 400, fill = INK, anchor = "start" } = style;
  return (
    `<text x="${mm(x)}" y="${mm(y)}" font-family="${FONT}" font-size="${size}" font-weight="${weight}" ` +
    `fill="${fill}" text-anchor="${anchor}">${escapeXml(text)}</text>`
  );
}

export function pageOf(width: number, height: number, title: string, parts: readonly string[]): string {
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="${width}mm" ` +
    `height="${height}mm" viewBox="0 0 ${width} ${height}">\n<title>${escapeXml(title)}</title>\n` +
    `${[rectOf(0, 0, width, height, { fill: PAPER }), ...parts].join("\n")}\n</svg>\n`
  );
}
