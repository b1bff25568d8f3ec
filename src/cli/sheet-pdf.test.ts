/** The printed file itself, read back by another program than wrote it. */
import { describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import { directionOf } from "../plan/index.ts";
import { PAPER_SIZE, placementSheet } from "../sheet/index.ts";
import { COOL } from "../sheet/svg.ts";
import { PLANS, readingFor } from "../sheet/testing/plans.ts";
import { textsOf } from "../sheet/testing/read-page.ts";
import { sheetPdf } from "./sheet-pdf.ts";
import { canReadWords, type PdfWord, strokesOfPdf, wordsOfPdf } from "./testing/read-pdf.ts";

/** Names of letters that the font has none for stay out: another program reads them as what is drawn in their place. */
const NAMES = Object.keys(PLANS).filter((name) => name !== "long names");
const ALL = NAMES.flatMap((name) =>
  (["a4", "letter"] as const).flatMap((paper) =>
    (["metric", "feet"] as const).map((units) => ({ name, paper, units })),
  ),
);
/** In turn, so that a few have both papers and both units. */
const CASES = ALL.map((_, i) => ALL[(i * 7) % ALL.length]).slice(0, amount(ALL.length));

async function made({ name, paper, units }: (typeof ALL)[number]) {
  const plan = PLANS[name];
  const pages = placementSheet(plan, readingFor(plan), { paper, units, date: "29 November 2026" });
  return { plan, pages, pdf: await sheetPdf(plan, pages, paper) };
}

/** Poppler's boxes have the font's whole height, which reaches into the lines above and below. */
function inked({ box }: PdfWord) {
  const by = 0.2 * (box.y1 - box.y0);
  return { ...box, y0: box.y0 + by, y1: box.y1 - by };
}

const LINE_MM = 0.3;

/** Straight down there is no line on the floor. */
const isPlumb = ({ tilt_deg }: { tilt_deg: number }) => Math.abs(tilt_deg) > 89;

describe("the PDF read back", () => {
  // poppler-utils is part of what CI brings; without it there is nobody else to read the file
  it.skipIf(!canReadWords()).each(CASES)(
    "[SH20] $name, $paper, $units: every word of the pages, inside the margins, none on another",
    async (c) => {
      const { pages, pdf } = await made(c);
      const [width, height] = PAPER_SIZE[c.paper];
      const read = wordsOfPdf(pdf);
      expect(read).toHaveLength(pages.length);
      read.forEach((words, i) => {
        const wanted = textsOf(pages[i]).flatMap(({ text }) => text.split(/[ \u00a0]+/));
        expect(words.map(({ text }) => text).toSorted()).toEqual(wanted.toSorted());
        for (const { text, box } of words) {
          expect(Math.min(box.x0, width - box.x1), text).toBeGreaterThanOrEqual(10);
          expect(Math.min(box.y0, height - box.y1), text).toBeGreaterThanOrEqual(9);
        }
        const boxes = words.map((word) => ({ text: word.text, ...inked(word) }));
        boxes.forEach((a, k) => {
          const on = boxes
            .slice(k + 1)
            .filter((b) => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1);
          expect(on.map((b) => `${a.text} × ${b.text}`)).toEqual([]);
        });
      });
    },
  );

  it.each(CASES)("[SH21] $name, $paper, $units: lights stand on it at its scale within 0.3 mm", async (c) => {
    const { plan, pages, pdf } = await made(c);
    const scale = Number(/1 : ([\d.]+)/.exec(pages[0])?.[1]);
    const [strokes] = strokesOfPdf(pdf, COOL);
    // an axis begins at the middle of its front; the floor is drawn before the side
    const lights = plan.lights.filter(
      ({ direction, position }) => !isPlumb(directionOf(direction, position)),
    );
    const starts = strokes.slice(0, lights.length);
    const apart = <T>(list: readonly T[], measure: (a: T, b: T) => number) =>
      list.flatMap((a, i) => list.slice(i + 1).map((b) => measure(a, b))).toSorted((a, b) => a - b);
    const drawn = apart(starts, (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]));
    const real = apart(
      lights,
      (a, b) => (1000 / scale) * Math.hypot(a.position[0] - b.position[0], a.position[1] - b.position[1]),
    );
    expect(drawn).toHaveLength(real.length);
    drawn.forEach((mm, i) => {
      expect(Math.abs(mm - real[i])).toBeLessThan(LINE_MM);
    });
    // one alone: to what it aims at
    const [light] = lights;
    const at = lights.length === 1 && "at" in light.direction ? light.direction.at : null;
    const [[x1, y1, x2, y2]] = strokes;
    if (at !== null)
      expect(
        Math.abs(
          Math.hypot(x2 - x1, y2 - y1) -
            (1000 / scale) * Math.hypot(at[0] - light.position[0], at[1] - light.position[1]),
        ),
      ).toBeLessThan(LINE_MM);
  });
});
