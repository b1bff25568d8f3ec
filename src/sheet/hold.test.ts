import { describe, expect, it } from "vitest";
import type { SheetHold } from "./hold.ts";
import { fromMarkWords } from "./hold.ts";
import { overlap } from "./labels.ts";
import { PAPER_SIZE, placementSheet } from "./placement.ts";
import { PLANS, readingFor } from "./testing/plans.ts";
import { shapesOf, textsOf } from "./testing/read-page.ts";

const CASES = Object.entries(PLANS)
  .filter(([, plan]) => plan.people.length > 0)
  .flatMap(([name, plan]) => [
    { name, plan, paper: "a4", units: "metric" } as const,
    { name, plan, paper: "letter", units: "feet" } as const,
  ]);

/** A lozenge round the first mark: 0.5 m to the right of the room, 0.3 m into it. */
function lozenge([x, y]: readonly [number, number]): SheetHold {
  return {
    person: 0,
    asked: "Rembrandt, exposure and ratio within a third of a stop, no skin clipped",
    outline: [
      { x: x + 0.5, y },
      { x, y: y + 0.3 },
      { x: x - 0.5, y },
      { x, y: y - 0.3 },
    ],
    circle: { x, y: y + 0.02, radius_m: 0.2, ahead_m: -0.02, left_m: 0 },
    rows: [
      { way: "ahead", metres: 0.3, degrees: null, ends: "a third of a stop brighter" },
      {
        way: "own left",
        metres: 0.5,
        degrees: null,
        ends: "the V-flat with the long name that nobody reads",
      },
      { way: "behind", metres: 0.31, degrees: null, ends: "a third of a stop darker" },
      { way: "own right", metres: 0.52, degrees: null, ends: "the left wall" },
      { way: "head to own right", metres: null, degrees: 5.5, ends: "the pattern turns to Rembrandt" },
      { way: "head to own left", metres: null, degrees: 6, ends: "ratio down a third of a stop" },
      { way: "chin down", metres: null, degrees: 16, ends: "not looked for farther" },
      { way: "chin up", metres: null, degrees: 12.5, ends: "skin begins to clip" },
    ],
  };
}

const sheetOf = ({ plan, paper, units }: (typeof CASES)[number], hold?: SheetHold) =>
  placementSheet(plan, readingFor(plan), { paper, units, ...(hold === undefined ? {} : { hold }) });

describe("the hold zone on the sheet", () => {
  it.each(CASES)(
    "[HZ17] $name, $paper: every way and what ends it, nothing overlaps or leaves the page",
    (c) => {
      const hold = lozenge([c.plan.people[0].position[0], c.plan.people[0].position[1]]);
      const pages = sheetOf(c, hold);
      const [width, height] = PAPER_SIZE[c.paper];
      const all = pages.flatMap((page) => {
        const texts = textsOf(page);
        for (const { text, size, box } of texts) {
          expect(size, text).toBeGreaterThanOrEqual(2.6);
          expect(box.x0 >= 10 && box.y0 >= 10 && box.x1 <= width - 10 && box.y1 <= height - 10, text).toBe(
            true,
          );
        }
        const collisions = texts.flatMap((a, i) =>
          texts.slice(i + 1).flatMap((b) => (overlap(a.box, b.box) ? [`${a.text} × ${b.text}`] : [])),
        );
        expect(collisions).toEqual([]);
        return texts.map(({ text }) => text);
      });
      expect(all.some((text) => /^Hold zone.*, from the mark$/.test(text))).toBe(true);
      for (const { way } of hold.rows) expect(all).toContain(way);
      expect(all).toContain(c.units === "metric" ? "0.52 m" : "1′ 8½″");
      expect(all).toContain("5.5°");
      expect(all.join(" ")).toContain(c.units === "metric" ? "radius 0.20 m" : "radius 0′ 7¾″");
      expect(all.join(" ")).not.toMatch(/hold zone[^.]*\bsafe/i);
    },
  );

  it("[HZ18] its outline is drawn at the drawing's scale within 0.3 mm", () => {
    const [c] = CASES;
    const hold = lozenge([c.plan.people[0].position[0], c.plan.people[0].position[1]]);
    const [page] = sheetOf(c, hold);
    const scale = Number(/1 : ([\d.]+)/.exec(page)?.[1]);
    const found = (kind: string) => shapesOf(page).find((shape) => shape.kind === kind)?.points ?? [];
    const outline = found("hold");
    expect(outline).toHaveLength(4);
    const wide = Math.abs(outline[0][0] - outline[2][0]);
    expect(Math.abs(wide - 1000 / scale)).toBeLessThan(0.3);
    const xs = found("holdCircle").map(([x]) => x);
    expect(Math.abs(Math.max(...xs) - Math.min(...xs) - 400 / scale)).toBeLessThan(0.3);
  });

  it("[HZ17] where none is given none is printed", () => {
    expect(sheetOf(CASES[0]).join("")).not.toMatch(/Hold zone|data-kind="hold/);
  });

  it("[HZ17] where the circle lies is told from the mark as a tape reads it", () => {
    const say = (m: number) => `${Math.round(100 * m)} cm`;
    expect(fromMarkWords(-0.12, -0.08, say)).toBe(
      "its middle 12 cm behind and 8 cm to own right of the mark",
    );
    expect(fromMarkWords(0.2, 0.001, say)).toBe("its middle 20 cm ahead of the mark");
    expect(fromMarkWords(0, 0, say)).toBe("round the mark");
  });
});
