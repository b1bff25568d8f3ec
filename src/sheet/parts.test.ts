import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import PDFDocument from "pdfkit";
import { describe, expect, it } from "vitest";
import { crosses, LabelPlacer, overlap } from "./labels.ts";
import { roundScale, rulerMarks } from "./scale.ts";
import { fitText, textWidth, wrapText } from "./text.ts";

describe("[SH10] text is never wider than it is taken to be", () => {
  const require = createRequire(import.meta.url);
  const document = new PDFDocument();
  const widthInFont = (text: string, weight: 400 | 600) => {
    document.font(readFileSync(require.resolve(`@fontsource/inter/files/inter-latin-${weight}-normal.woff`)));
    document.fontSize(10);
    return document.widthOfString(text);
  };
  it.each([400, 600] as const)("in Inter %i, against the font itself", (weight) => {
    const texts = [
      "Placement sheet · 29 November 2026",
      "f/5.6 + 0.3, 1/160, ISO 100",
      "5′ 10¾″ × 3′ 11¼″",
      "WAVE To Ty AVAILABLE fjord 0123456789",
      "naïve œuvre, “quoted”, 33° − 12 %",
    ];
    for (const text of texts) {
      const real = widthInFont(text, weight);
      const taken = textWidth(text, 10, weight);
      expect(taken, text).toBeGreaterThanOrEqual(real);
      // and not so much that lines end early
      expect(taken, text).toBeLessThan(1.1 * real);
    }
  });
  it("long text is cut with an ellipsis or wrapped, and fits", () => {
    const name = "Large octagonal softbox on the rolling stand";
    const cut = fitText(name, 30, 3);
    expect(cut.endsWith("…")).toBe(true);
    expect(textWidth(cut, 3)).toBeLessThanOrEqual(30);
    for (const line of wrapText(`${"w".repeat(200)} ${name}`, 30, 3))
      expect(textWidth(line, 3)).toBeLessThanOrEqual(30);
  });
  it("a number stays with its unit", () => {
    for (let width = 12; width < 60; width++) {
      for (const line of wrapText("the far wall is 4.40 m away, power 400 Ws, f/5.6 + 0.3", width, 3)) {
        expect(line).not.toMatch(/^(m|Ws|\+)\b/);
      }
    }
  });
});

describe("[SH11] scales are round, and as large as fits", () => {
  it.each([
    [7, 118, "metric", 60],
    [7, 140, "metric", 50],
    [4, 100, "metric", 40],
    [9, 120, "metric", 75],
    [0.5, 100, "metric", 5],
    [2000, 100, "metric", 20000],
    [7, 118, "feet", 64],
    [4, 100, "feet", 48],
  ] as const)("%f m on %f mm, %s: 1 : %i", (metres, mm, units, scale) => {
    expect(roundScale([{ metres, mm }], units)).toBe(scale);
  });
  it("ruler numbers stand clear", () => {
    expect(rulerMarks(0, 7, 16, "metric")).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(rulerMarks(-1.2, 3.1, 5, "metric")).toEqual([0, 2]);
    expect(rulerMarks(0, 3.048, 16, "feet")).toEqual([0, 2, 4, 6, 8, 10]);
  });
});

describe("[SH12] names never cover each other", () => {
  it("places as many as there is room for and refuses the rest", () => {
    const placer = new LabelPlacer({ x0: 0, y0: 0, x1: 20, y1: 10 }, []);
    const spots = [5, 5, 15].map((x) => ({ x, y: 5, cost: 0 }));
    const first = placer.place(8, 3, spots)!;
    const second = placer.place(8, 3, spots)!;
    expect(overlap(first.box, second.box)).toBe(false);
    expect(placer.place(8, 3, spots)).toBeNull();
    expect(placer.place(8, 3, [{ x: 18, y: 5, cost: 0 }])).toBeNull();
  });
  it("prefers a place that no line runs through", () => {
    const placer = new LabelPlacer({ x0: 0, y0: 0, x1: 20, y1: 20 }, [[0, 5, 20, 5]]);
    const spots = [
      { x: 10, y: 5, cost: 0 },
      { x: 10, y: 12, cost: 2 },
    ];
    expect(placer.place(6, 3, spots)!.box.y0).toBe(10.5);
  });
  it("a line crosses a box only where it enters it", () => {
    const box = { x0: 0, y0: 0, x1: 2, y1: 2 };
    expect(crosses([-1, 1, 3, 1], box)).toBe(true);
    expect(crosses([-1, 2, 3, 2], box)).toBe(false);
    expect(crosses([3, 0, 5, 2], box)).toBe(false);
  });
});
