import { decode } from "fast-png";
import { describe, expect, it } from "vitest";
import { encodePfm } from "./pfm.ts";
import { encodePng } from "./png.ts";

describe("[WB1] a float map keeps the convention: bottom row first, little endian", () => {
  it("two rows of one pixel, byte by byte", () => {
    // by hand: 1.0 = 3f800000, 2.0 = 40000000, -0.5 = bf000000; the lower row comes first
    const bytes = encodePfm({ width: 1, height: 2, luminance: Float32Array.of(1, 1, 1, 2, 2, -0.5) });
    const header = new TextDecoder().decode(bytes.slice(0, 12));
    expect(header).toBe("PF\n1 2\n-1.0\n");
    const hex = [...bytes.slice(12)].map((b) => b.toString(16).padStart(2, "0")).join("");
    expect(hex).toBe("0000004000000040000000bf0000803f0000803f0000803f");
  });

  it("refuses an array of another size", () => {
    expect(() => encodePfm({ width: 2, height: 2, luminance: new Float32Array(3) })).toThrow(/needs 12/);
  });
});

describe("[WB2] a PNG holds the picture's bytes as they are", () => {
  it("comes back the same without its opacity", () => {
    const rgba = Uint8ClampedArray.of(1, 2, 3, 255, 254, 255, 0, 255, 118, 118, 118, 255, 9, 8, 7, 255);
    const back = decode(encodePng({ width: 2, height: 2, rgba }));
    expect([back.width, back.height, back.channels, back.depth]).toEqual([2, 2, 3, 8]);
    expect([...back.data]).toEqual([1, 2, 3, 254, 255, 0, 118, 118, 118, 9, 8, 7]);
  });
});
