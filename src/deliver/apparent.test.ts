import { describe, expect, it } from "vitest";
import { checkPlan } from "../plan/index.ts";
import { apparentPart, CARD_MM } from "./apparent.ts";
import { finalUse } from "./final-use.ts";

function use(print: object) {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    camera: { position: [0, -2, 1.6], pixels: { width: 6000, height: 4000 } },
    print,
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  const found = finalUse(checked.plan, 0);
  if (found === null) throw new Error("no print");
  return found;
}
const SCREEN = { pxPerMm: 96 / 25.4, density: 2, away_m: 0.6 };
const BOX = { width: 480, height: 360 };

describe("[US13] at true apparent size", () => {
  const poster = use({ width: 1.2, height: 1.8, viewingDistance: 1.5 });
  const part = apparentPart(poster, SCREEN, [0.5, 0.3], BOX);
  it("what is shown subtends on the screen what it does in the print", () => {
    const onScreen = part.width_px / SCREEN.pxPerMm / 600;
    expect(part.print_mm / 1500).toBeCloseTo(onScreen, 12);
    // 480 px are 127 mm from 0.6 m, in the print 317.5 mm from 1.5 m
    expect(part.print_mm).toBeCloseTo(317.5, 9);
    expect(part.filePixels).toBeCloseTo((4000 * 317.5) / 1200, 9);
    expect((part.region.right - part.region.left) * 1200).toBeCloseTo(317.5, 9);
    expect((part.region.bottom - part.region.top) * 1800).toBeCloseTo((317.5 * 360) / 480, 9);
  });
  it("lies round the point, and within the picture", () => {
    expect((part.region.left + part.region.right) / 2).toBeCloseTo(0.5, 12);
    expect((part.region.top + part.region.bottom) / 2).toBeCloseTo(0.3, 12);
    const corner = apparentPart(poster, SCREEN, [0.01, 0.99], BOX).region;
    expect(corner.left).toBe(0);
    expect(corner.bottom).toBeCloseTo(1, 12);
  });
  it("a print smaller than the box is shown whole, no larger than it looks", () => {
    const far = use({ width: 0.2, height: 0.3, viewingDistance: 4 });
    const all = apparentPart(far, SCREEN, [0.5, 0.5], BOX);
    expect(all.region).toEqual(far.used);
    expect(all.width_px).toBeCloseTo((200 / 4000) * 600 * SCREEN.pxPerMm, 9);
  });
  it("says from where the screen's own pixels are not seen", () => {
    // 192 an inch, 3437.75 / 192 in
    expect(part.screenFrom_m).toBeCloseTo((3437.75 / 192) * 0.0254, 5);
  });
});

it("[US14] a card laid on the screen is of the size that the standard gives", () => {
  // ISO/IEC 7810 ID-1: 3.370 x 2.125 inches
  expect(CARD_MM.width / 25.4).toBeCloseTo(3.37, 3);
  expect(CARD_MM.height / 25.4).toBeCloseTo(2.125, 3);
});
