/** Reads a PDF back as whoever prints it would: its words with their boxes, and what is stroked in a colour. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { inflateSync } from "node:zlib";

const MM = 25.4 / 72;

export interface PdfWord {
  readonly text: string;
  /** mm from the upper left of the page */
  readonly box: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number };
}

export type PdfLine = readonly [x1: number, y1: number, x2: number, y2: number];

/** Whether poppler's pdftotext is there; CI brings it. */
export function canReadWords(): boolean {
  try {
    execFileSync("pdftotext", ["-v"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
}

/** Page by page, by poppler and not by what wrote it. */
export function wordsOfPdf(pdf: Uint8Array): PdfWord[][] {
  const folder = mkdtempSync(join(tmpdir(), "tapemark-pdf-"));
  try {
    const path = join(folder, "sheet.pdf");
    writeFileSync(path, pdf);
    const xml = execFileSync("pdftotext", ["-bbox", path, "-"], { encoding: "utf8", maxBuffer: 1 << 26 });
    return xml
      .split("<page ")
      .slice(1)
      .map((page) =>
        [
          ...page.matchAll(
            /<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)<\/word>/g,
          ),
        ].map(([, x0, y0, x1, y1, text]) => ({
          text: text
            .replaceAll("&lt;", "<")
            .replaceAll("&gt;", ">")
            .replaceAll("&quot;", '"')
            .replaceAll("&apos;", "'")
            .replaceAll("&amp;", "&"),
          box: { x0: Number(x0) * MM, y0: Number(y0) * MM, x1: Number(x1) * MM, y1: Number(y1) * MM },
        })),
      );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Straight strokes of a colour ("#2f6f8f"), page by page, in mm on the paper: the page's own scale is applied, as a
 * printer does. */
export function strokesOfPdf(pdf: Uint8Array, colour: string): PdfLine[][] {
  const rgb = [1, 3, 5].map((k) => Number.parseInt(colour.slice(k, k + 2), 16) / 255);
  return contentsOf(pdf).map((content) => {
    const scale = Number(/\n([\d.]+) 0 0 \1 0 0 cm/.exec(content)?.[1]) * MM;
    const lines: PdfLine[] = [];
    let isAsked = false;
    let from: readonly number[] = [];
    for (const line of content.split("\n")) {
      const words = line.split(" ");
      const values = words.slice(0, -1).map(Number);
      const operator = words[words.length - 1];
      if (operator === "SCN") isAsked = rgb.every((value, k) => Math.abs(values[k] - value) < 1e-3);
      if (operator === "m") from = values;
      if (operator !== "l" || !isAsked) continue;
      const [x1, y1, x2, y2] = [...from, ...values].map((value) => value * scale);
      lines.push([x1, y1, x2, y2]);
      from = values;
    }
    return lines;
  });
}

/** What draws each page, unpacked. */
function contentsOf(pdf: Uint8Array): string[] {
  const text = Buffer.from(pdf).toString("latin1");
  return [...text.matchAll(/\/Length (\d+)[^>]*>>\s*stream\r?\n/g)].flatMap(
    ({ 0: head, 1: length, index }) => {
      const start = index + head.length;
      const packed = Buffer.from(text.slice(start, start + Number(length)), "latin1");
      try {
        const content = inflateSync(packed).toString("latin1");
        return /^1 0 0 -1 0 [\d.]+ cm/.test(content) ? [content] : [];
      } catch {
        // fonts and pictures are packed otherwise
        return [];
      }
    },
  );
}
