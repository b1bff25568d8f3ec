/** Situations that a portrait photographer meets, worked through with their sums: one file, two uses.
 * Invented situation; the sums are by hand and stand beside it (docs/spec/situations.md). */
import { describe, expect, it } from "vitest";
import { type FinalUse, finalUse, notesOf, smearWords, useFacts } from "../src/deliver/index.ts";
import { sharpness } from "../src/reading/index.ts";
import { planOf } from "./plans.ts";

const INCH = 0.0254;
const set = (print: object) =>
  planOf({
    lights: [
      {
        name: "key",
        position: [1, -1.2, 2.1],
        direction: { at: [0, 0, 1.6] },
        face: { shape: "disc", width: 0.9 },
        output: { lumenSeconds: 2000 },
        head: { duration: { seconds: 1 / 1000, measured: "t0.1" } },
      },
    ],
    people: [{ name: "cellist", position: [0, 0] }],
    camera: {
      position: [0, -2.6, 1.6],
      direction: { at: [0, 0, 1.6] },
      focalLength: 105,
      fNumber: 11,
      pixels: { width: 8256, height: 5504 },
    },
    print,
  });
const used = (print: object): FinalUse => {
  const found = finalUse(set(print), 0);
  if (found === null) throw new Error("the plan has a print");
  return found;
};
const fact = (use: FinalUse, term: string) => {
  const found = useFacts(use, "metric").find((each) => each.term === term);
  if (found === undefined) throw new Error(`nothing is said of ${term}`);
  return found;
};
const smear = (use: FinalUse, what: RegExp) => {
  const found = use.smears.find((each) => what.test(each.what));
  if (found === undefined) throw new Error(`no smear ${what}`);
  return found;
};

describe("[SI17] an upright file of 5504 × 8256 pixels, cut two to one for a banner of 6 × 3 m", () => {
  const banner = { use: "hall banner", width: 6, height: 3, viewingDistance: 10, asksPpi: 50 };
  const use = used(banner);
  it("has 23 pixels an inch: 5504 over 236.2 inches; two thirds of the height are cut off", () => {
    expect(use.pixels).toEqual({ width: 5504, height: expect.closeTo(2752, 9) });
    expect(use.ppi).toBeCloseTo(5504 / (6 / INCH), 9);
    expect(Math.round(use.ppi ?? 0)).toBe(23);
  });
  it("is fine from 10 m, where 8.7 are told apart: 3437.75 over 393.7 inches; not from nearer than 3.7 m", () => {
    expect(use.eyePpi).toBeCloseTo(3437.75 / (10 / INCH), 3);
    expect(fact(use, "eye").isShort).toBe(false);
    // 6000 mm / 5504 = 1.090 mm, times 3437.75
    expect(smear(use, /a pixel/).unseenFrom_m).toBeCloseTo(3.7475, 3);
    expect(fact(use, "eye").rest).toMatch(/nearer than 3\.75 m/);
    const near = used({ ...banner, viewingDistance: 3.6 });
    expect(fact(near, "eye").isShort).toBe(true);
    expect(fact(used({ ...banner, viewingDistance: 3.8 }), "eye").isShort).toBe(false);
  });
  it("is below the 50 that the printer asks, and says so with the size that would have them", () => {
    expect(fact(use, "asked").isShort).toBe(true);
    expect(fact(use, "asked").strong).toBe("23 of 50");
    // 5504 / 50 inches
    expect(fact(use, "asked").rest).toMatch(/print no larger than 2\.80 × 1\.40 m/);
    expect(fact(use, "resampling").strong).toBe("× 2.15");
  });
});

describe("[SI17] the same file on a spread of 16.5 × 11.125 inches", () => {
  const use = used({
    use: "spread",
    width: 16.5 * INCH,
    height: 11.125 * INCH,
    viewingDistance: 0.4,
    asksPpi: 300,
  });
  it("has 333 pixels an inch, which passes", () => {
    expect(Math.floor(use.ppi ?? 0)).toBe(333);
    expect(fact(use, "asked")).toMatchObject({ isShort: false, strong: "enough" });
    expect(fact(use, "eye").isShort).toBe(false);
  });
  it("sharpness at 100 %: in pixels of the file, by the lens formula", () => {
    const focus = 1000 * (sharpness(set({ width: 1, height: 1 }), 0)?.focus_m ?? 0);
    expect(focus).toBeGreaterThan(2400);
    // 1.22 x 0.55 um x 11 on pixels of 24 mm / 5504
    expect(smear(use, /diffraction/).filePixels).toBeCloseTo((1.21967 * 0.00055 * 11) / (24 / 5504), 4);
    // 0.1 m/s for a thousandth of a second: 0.1 mm, seen by a magnification of 105 / (s - 105)
    expect(smear(use, /flash/).filePixels).toBeCloseTo(((0.1 * 105) / (focus - 105)) * (5504 / 24), 6);
    // the ears, some 9 cm behind: pupil 105 / 11, scaled by f / (s - f)
    const ear = smear(use, /nearer ear/);
    const behind = (x: number) => (((105 / 11) * 105) / (focus - 105)) * (x / (focus + x));
    expect(ear.sensor_mm).toBeGreaterThan(behind(60));
    expect(ear.sensor_mm).toBeLessThan(behind(110));
    expect(smearWords(use, ear, "metric").file).toMatch(/pixels of the file/);
  });
  it("what was taken for granted is said", () => {
    const said = notesOf(use, "metric").join(" ");
    expect(said).toMatch(/nearer eye/);
    expect(said).toMatch(/0\.10 m a second \(a guess/);
  });
});
