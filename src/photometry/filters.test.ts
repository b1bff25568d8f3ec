import { describe, expect, it } from "vitest";
import { correlatedKelvin, filterOfShift, lightColour, meterColour, miredShift, type Rgb } from "./index.ts";

/** Correlated colour temperature of linear sRGB, by the standard matrix to XYZ (IEC 61966-2-1). */
function kelvinOf([r, g, b]: Rgb): number {
  const x = 0.4124 * r + 0.3576 * g + 0.1805 * b;
  const y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  const z = 0.0193 * r + 0.1192 * g + 0.9505 * b;
  return correlatedKelvin([x / (x + y + z), y / (x + y + z)]);
}

const through = (kelvin: number, filter: Rgb): Rgb => {
  const light = meterColour(kelvin);
  return [light[0] * filter[0], light[1] * filter[1], light[2] * filter[2]];
};

describe("[AP53] a filter is told by its mired shift", () => {
  it.each([
    [5600, 133.93, 3200],
    [5600, 66.96, 4073],
    [5600, 33.48, 4716],
    [3200, -33.48, 3584],
    [3200, -66.96, 4073],
    [3200, -133.93, 5600],
  ])("%f K behind %f mired is %f K", (before, shift, behind) => {
    const filter = filterOfShift(shift);
    expect(Math.max(...filter)).toBe(1);
    expect(Math.min(...filter)).toBeGreaterThan(0);
    // McCamy's correlation is good for 21 K here, the rounding of the matrices for as much
    expect(Math.abs(kelvinOf(through(before, filter)) - behind)).toBeLessThan(40);
  });
  it("full warming makes daylight neutral to a camera balanced for tungsten", () => {
    const seen = through(5600, filterOfShift(miredShift(5600, 3200)));
    const tungsten = lightColour(3200, 3200);
    const white = meterColour(3200);
    const ratio = seen.map((v, c) => v / white[c]);
    expect(tungsten).toEqual([1, 1, 1]);
    expect(ratio[1] / ratio[0]).toBeCloseTo(1, 9);
    expect(ratio[2] / ratio[0]).toBeCloseTo(1, 9);
  });
  it("cooling takes back what warming did, but for the light that both take", () => {
    const warm = filterOfShift(133.93);
    const both = filterOfShift(-133.93).map((v, c) => v * warm[c]);
    // the exact shift is 133.9286
    expect(both[1] / both[0]).toBeCloseTo(1, 4);
    expect(both[2] / both[0]).toBeCloseTo(1, 4);
  });
  it.each([
    [3200, 133.93],
    [5600, -133.93],
  ])("on %f K, which it is not made for, %f mired come within a fifth", (kelvin, shift) => {
    const behind = kelvinOf(through(kelvin, filterOfShift(shift)));
    expect(Math.abs(miredShift(kelvin, behind) - shift)).toBeLessThan(Math.abs(shift) / 5);
  });
  it("no shift takes nothing; warmth takes blue, coolness red", () => {
    expect(filterOfShift(0)).toEqual([1, 1, 1]);
    const [r, g, b] = filterOfShift(60);
    expect(r > g && g > b).toBe(true);
    const cool = filterOfShift(-60);
    expect(cool[0] < cool[1] && cool[1] < cool[2]).toBe(true);
  });
});
