/** The part of fontkit that is used here; it brings no types of its own. */
declare module "fontkit" {
  export interface Font {
    readonly unitsPerEm: number;
    layout(text: string): GlyphRun;
  }
  export interface GlyphRun {
    readonly glyphs: readonly { readonly path: { toSVG(): string } }[];
    readonly positions: readonly {
      readonly xAdvance: number;
      readonly xOffset: number;
      readonly yOffset: number;
    }[];
    readonly advanceWidth: number;
  }
  export function create(file: Uint8Array): Font;
}
