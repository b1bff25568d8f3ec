import { describe, expect, it } from "vitest";
import { QuantityError } from "../units/index.ts";
import { correlatedKelvin, daylightXy, LUMINANCE, lightColour, meterColour, planckianXy } from "./index.ts";
import { OBSERVER, OBSERVER_START_NM, OBSERVER_STEP_NM } from "./observer.ts";

describe("[PH8] the colour of lights", () => {
  it("the observer's table: 380 to 780 nm, the three sums agree to 1e-5, the green one peaks at 1 at 555 nm", () => {
    expect(OBSERVER_START_NM + OBSERVER_STEP_NM * (OBSERVER.length / 3 - 1)).toBe(780);
    const sum = [0, 0, 0];
    OBSERVER.forEach((v, i) => {
      sum[i % 3] += v;
    });
    for (const s of sum) expect(Math.abs(s / sum[1] - 1)).toBeLessThan(1e-5);
    expect(OBSERVER[3 * ((555 - 380) / 5) + 1]).toBe(1e6);
  });
  it("luminance is 1 at every temperature that a plan may hold, every channel above nothing", () => {
    for (let k = 1500; k <= 20000; k += 100) {
      const rgb = meterColour(k);
      expect(rgb[0] * LUMINANCE[0] + rgb[1] * LUMINANCE[1] + rgb[2] * LUMINANCE[2]).toBeCloseTo(1, 14);
      for (const channel of rgb) expect(channel).toBeGreaterThan(0);
    }
  });
  it("a light of the camera's balance is exactly neutral", () => {
    for (const k of [1500, 3200, 5600, 20000]) expect(lightColour(k, k)).toEqual([1, 1, 1]);
  });
  it("warmer than the balance is redder, cooler is bluer, and there is no jump on the way", () => {
    for (const white of [1600, 3200, 5600, 10000]) {
      let before = lightColour(1500, white);
      for (let k = 1510; k <= 20000; k += 10) {
        const now = lightColour(k, white);
        expect(now[2] / now[0]).toBeGreaterThanOrEqual(before[2] / before[0]);
        expect(Math.abs(now[1] / before[1] - 1)).toBeLessThan(0.02);
        before = now;
      }
      expect(lightColour(white * (1 + 1e-9), white)[0]).toBeCloseTo(1, 6);
    }
  });
  it("McCamy's cubic gives Planckian temperatures back within 21 K from 2000 K to 8000 K", () => {
    // its own error, against Planck's law: 20 K at both ends, under 10 K between 2500 K and 7000 K
    for (let k = 2000; k <= 8000; k += 100)
      expect(Math.abs(correlatedKelvin(planckianXy(k)) - k)).toBeLessThan(21);
  });
  it("daylight is greener than a Planckian radiator of the same temperature", () => {
    for (let k = 4000; k <= 20000; k += 500) expect(daylightXy(k)[1]).toBeGreaterThan(planckianXy(k)[1]);
    expect(daylightXy(7000)[0]).toBeCloseTo(daylightXy(7000.001)[0], 3);
  });
  it.each([0, 999, -5600, Number.NaN, Number.POSITIVE_INFINITY])("%f K is refused", (k) => {
    expect(() => planckianXy(k)).toThrow(QuantityError);
    expect(() => daylightXy(k)).toThrow(QuantityError);
  });
});
