/** SVG pages to one PDF, with the font embedded. The same pages give the same bytes: the file carries no clock. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import PDFDocument from "pdfkit";
import SVGtoPDF from "svg-to-pdfkit";

const POINTS_PER_MM = 72 / 25.4;

export async function pagesToPdf(
  pages: readonly string[],
  size_mm: readonly [number, number],
  title: string,
): Promise<Uint8Array> {
  const size: [number, number] = [size_mm[0] * POINTS_PER_MM, size_mm[1] * POINTS_PER_MM];
  const doc = new PDFDocument({
    autoFirstPage: false,
    info: {
      Title: title,
      Producer: "Tapemark",
      Creator: "Tapemark",
      CreationDate: new Date(0),
      ModDate: new Date(0),
    },
  });
  const chunks: Buffer[] = [];
  doc.on("data", (chunk: Buffer) => chunks.push(chunk));
  const ended = new Promise<void>((resolve, reject) => {
    doc.on("end", resolve);
    doc.on("error", reject);
  });
  for (const weight of [400, 600] as const)
    doc.registerFont(`Inter ${weight}`, readFileSync(interFile(weight)));
  for (const svg of pages) {
    doc.addPage({ size, margin: 0 });
    SVGtoPDF(doc, svg, 0, 0, {
      width: size[0],
      height: size[1],
      preserveAspectRatio: "xMinYMin meet",
      assumePt: true,
      fontCallback: (_family: string, bold: boolean) => (bold ? "Inter 600" : "Inter 400"),
    });
  }
  doc.end();
  await ended;
  return Buffer.concat(chunks);
}

/** Where the font's file lies that comes with the program. */
export function interFile(weight: 400 | 600): string {
  return createRequire(import.meta.url).resolve(`@fontsource/inter/files/inter-latin-${weight}-normal.woff`);
}
