/** Reads a sheet's page back from its SVG, as a printer would see it. */
import { textWidth, type Weight } from "../text.ts";

export interface WrittenText {
  readonly text: string;
  readonly size: number;
  readonly weight: Weight;
  readonly box: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number };
}

const attribute = (tag: string, name: string) => new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1] ?? "";
const number = (tag: string, name: string) => Number(attribute(tag, name));

export function textsOf(svg: string): WrittenText[] {
  return [...svg.matchAll(/(<text[^>]*>)([^<]*)<\/text>/g)].map(([, tag, escaped]) => {
    const text = escaped
      .replaceAll("&lt;", "<")
      .replaceAll("&gt;", ">")
      .replaceAll("&quot;", '"')
      .replaceAll("&amp;", "&");
    const size = number(tag, "font-size");
    const weight = number(tag, "font-weight") as Weight;
    const width = textWidth(text, size, weight);
    const anchor = attribute(tag, "text-anchor");
    const x0 = number(tag, "x") - (anchor === "end" ? width : anchor === "middle" ? width / 2 : 0);
    const y = number(tag, "y");
    // Inter: capitals stand 0.73 high, descenders hang 0.21
    return { text, size, weight, box: { x0, x1: x0 + width, y0: y - 0.73 * size, y1: y + 0.21 * size } };
  });
}

export interface DrawnShape {
  readonly owner: string;
  readonly kind: string;
  readonly points: readonly (readonly [number, number])[];
}

export function shapesOf(svg: string): DrawnShape[] {
  return [...svg.matchAll(/<(?:path|line)[^>]*data-kind="[^>]*>/g)].map(([tag]) => {
    const d = attribute(tag, "d");
    const points =
      d === ""
        ? ([
            [number(tag, "x1"), number(tag, "y1")],
            [number(tag, "x2"), number(tag, "y2")],
          ] as const)
        : [...d.matchAll(/[ML](\S+) ([-\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
    return { owner: attribute(tag, "data-owner"), kind: attribute(tag, "data-kind"), points };
  });
}
