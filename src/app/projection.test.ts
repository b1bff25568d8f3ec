import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { PaperSight } from "./paper-sight.ts";
import { type Pane, projectionOf, type Sight, seenExtent, sightThrough } from "./projection.ts";
import { rulerMarks } from "./ruler-marks.ts";

const pane: Pane = {
  extent: { across0: 0, across1: 7, up0: 0, up1: 9 },
  size: { width: 460, height: 600 },
  margin: { left: 34, right: 12, top: 8, bottom: 24 },
};
const SEED = 20_261_125;

/** Any way of getting somewhere: steps toward places in the window, and steps aside. */
const journey = fc.array(
  fc.record({
    x: fc.double({ min: 0, max: 460, noNaN: true }),
    y: fc.double({ min: 0, max: 600, noNaN: true }),
    dx: fc.double({ min: -300, max: 300, noNaN: true }),
    dy: fc.double({ min: -300, max: 300, noNaN: true }),
    factor: fc.double({ min: 0.3, max: 4, noNaN: true }),
  }),
  { minLength: 1, maxLength: 12 },
);
type Journey = typeof journey extends fc.Arbitrary<infer T> ? T : never;

function follow(steps: Journey): Sight | null {
  let sight: Sight | null = null;
  for (const { x, y, dx, dy, factor } of steps) {
    const point = projectionOf(pane, sight).toPaper(x, y);
    sight = sightThrough(pane, point, { x: x + dx, y: y + dy }, (sight?.times ?? 1) * factor);
  }
  return sight;
}

describe("the paper is brought nearer and moved", () => {
  test(`[AP26] wherever one looks, a metre is as long across as up, and the screen leads back to the paper (seed ${SEED})`, () => {
    fc.assert(
      fc.property(journey, (steps) => {
        const projection = projectionOf(pane, follow(steps));
        const a = projection.toScreen(2, 3);
        const across = projection.toScreen(3, 3);
        const up = projection.toScreen(2, 4);
        expect(across.x - a.x).toBeCloseTo(projection.scale, 6);
        expect(a.y - up.y).toBeCloseTo(projection.scale, 6);
        expect([across.y - a.y, up.x - a.x]).toEqual([0, 0]);
        const back = projection.toPaper(a.x, a.y);
        expect([back.across, back.up]).toEqual([expect.closeTo(2, 9), expect.closeTo(3, 9)]);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  test(`[AP26] there is always paper to see, never less than the whole and never nearer than a centimetre is 12 px (seed ${SEED})`, () => {
    fc.assert(
      fc.property(journey, (steps) => {
        const projection = projectionOf(pane, follow(steps));
        expect(projection.scale).toBeGreaterThanOrEqual(projectionOf(pane, null).scale - 1e-9);
        expect(projection.scale).toBeLessThanOrEqual(1200 + 1e-9);
        const lowerLeft = projection.toScreen(0, 0);
        const upperRight = projection.toScreen(7, 9);
        // no paper is wasted: where it is larger than the window it fills it
        expect(lowerLeft.x).toBeLessThanOrEqual(34 + 1e-6);
        expect(lowerLeft.y).toBeGreaterThanOrEqual(Math.min(576, 8 + 9 * projection.scale) - 1e-6);
        expect(upperRight.x).toBeGreaterThanOrEqual(Math.min(448, 34 + 7 * projection.scale) - 1e-6);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  test("[AP26] what is under the hand stays under it, away from the paper's edges", () => {
    const at = { x: 240, y: 300 };
    const before = projectionOf(pane, null).toPaper(at.x, at.y);
    const nearer = projectionOf(pane, sightThrough(pane, before, at, 3));
    const after = nearer.toScreen(before.across, before.up);
    expect([after.x, after.y]).toEqual([expect.closeTo(240, 6), expect.closeTo(300, 6)]);
    // the lower left corner cannot be drawn into the window's middle
    const corner = { x: 34, y: 576 };
    const first = sightThrough(pane, { across: 0, up: 0 }, { x: 300, y: 100 }, 2);
    const moved = projectionOf(pane, first).toScreen(0, 0);
    expect([moved.x, moved.y]).toEqual([expect.closeTo(corner.x, 6), expect.closeTo(corner.y, 6)]);
    // and what was wanted beyond it is not remembered: the next step is seen at once
    const sight = new PaperSight(pane, () => {});
    sight.bring({ across: 0, up: 0 }, { x: 300, y: 100 }, 2);
    sight.pan(-20, 10);
    expect(sight.projection.toScreen(0, 0)).toEqual({ x: expect.closeTo(14, 6), y: expect.closeTo(586, 6) });
  });

  test("[AP26] the whole is what it was before anybody looked nearer", () => {
    expect(sightThrough(pane, { across: 3, up: 3 }, { x: 10, y: 10 }, 1)).toBeNull();
    const whole = projectionOf(pane, null);
    expect(whole.scale).toBeCloseTo(414 / 7, 9);
    expect(whole.toScreen(0, 0).x).toBe(34);
  });

  test("[AP26] the rulers have their marks where the metres are, of what is seen alone", () => {
    const sight = sightThrough(pane, { across: 3.5, up: 4.6 }, { x: 240, y: 300 }, 6);
    const projection = projectionOf(pane, sight);
    const seen = seenExtent(pane, projection);
    const marks = rulerMarks(seen.across0, seen.across1, "metric", projection.scale);
    expect(marks.map((mark) => mark.text)).toEqual(["3.0", "3.2", "3.4", "3.6", "3.8", "4.0"]);
    for (const { at_m, text } of marks) expect(at_m).toBeCloseTo(Number(text), 9);
    const whole = projectionOf(pane, null);
    expect(rulerMarks(0, 7, "metric", whole.scale).map((mark) => mark.text)).toEqual([..."01234567"]);
    // 7 m are 22.97 ft
    expect(
      rulerMarks(0, 7, "feet", whole.scale)
        .map((mark) => mark.text)
        .at(-1),
    ).toBe("22");
    expect(rulerMarks(0.9, 1.3, "feet", 300).map((mark) => `${mark.text} ${mark.at_m.toFixed(4)}`)).toEqual([
      "3′ 0.9144",
      "6″ 1.0668",
      "4′ 1.2192",
    ]);
  });
});
