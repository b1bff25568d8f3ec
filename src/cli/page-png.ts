/** A page as a PNG. Its letters are drawn as outlines of the font that comes with the program: the picture is the same on
 * every machine, whatever fonts it has. Loaded only where one is made. */
import { readFileSync } from "node:fs";
import { create, type Font } from "fontkit";
import sharp from "sharp";
import { interFile } from "./pdf.ts";

/** Sharp on any screen, and printed at the size of the page. */
const PIXELS_PER_INCH = 200;

export async function pageToPng(svg: string): Promise<Uint8Array> {
  const outlined = outlineTexts(svg).replace(/ (width|height)="([\d.]+)mm"/g, (_, side, mm) => {
    return ` ${side}="${Math.round((Number(mm) / 25.4) * PIXELS_PER_INCH)}px"`;
  });
  return new Uint8Array(
    await sharp(Buffer.from(outlined), { unlimited: true })
      .flatten({ background: "#ffffff" })
      .png({ compressionLevel: 9 })
      .withMetadata({ density: PIXELS_PER_INCH })
      .toBuffer(),
  );
}

const TEXT = /<text ([^>]*)>([^<]*)<\/text>/g;

/** Every text as the outlines of its letters, set as the font sets them, pairs closed up. */
export function outlineTexts(svg: string): string {
  return svg.replace(TEXT, (_, tag: string, escaped: string) => {
    const of = (name: string) => new RegExp(`(?:^|\\s)${name}="([^"]*)"`).exec(tag)?.[1] ?? "";
    const font = interFont(of("font-weight") === "600" ? 600 : 400);
    const scale = Number(of("font-size")) / font.unitsPerEm;
    const { glyphs, positions, advanceWidth } = font.layout(unescapeXml(escaped));
    const share = { middle: 0.5, end: 1 }[of("text-anchor")] ?? 0;
    let x = Number(of("x")) - share * advanceWidth * scale;
    const y = Number(of("y"));
    const paths = glyphs.map((glyph, i) => {
      const { xAdvance, xOffset, yOffset } = positions[i];
      const at = `translate(${round(x + xOffset * scale)} ${round(y - yOffset * scale)}) scale(${round(scale, 7)} ${round(-scale, 7)})`;
      x += xAdvance * scale;
      const d = glyph.path.toSVG();
      return d === "" ? "" : `<path transform="${at}" d="${d}"/>`;
    });
    return `<g fill="${of("fill")}">${paths.join("")}</g>`;
  });
}

const fonts = new Map<number, Font>();

function interFont(weight: 400 | 600): Font {
  const known = fonts.get(weight);
  if (known !== undefined) return known;
  const font = create(readFileSync(interFile(weight)));
  fonts.set(weight, font);
  return font;
}

function round(value: number, digits = 4): number {
  return Number(value.toFixed(digits));
}

function unescapeXml(text: string): string {
  return text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&amp;", "&");
}
