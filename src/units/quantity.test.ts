import { describe, expect, it } from "vitest";
import { type Given, type Lux, type LuxSeconds, nonNegative, positive, QuantityError } from "./index.ts";

function meter(luxSeconds: Given<LuxSeconds>): number {
  return luxSeconds;
}

describe("[UN6] a quantity is not taken for another", () => {
  it("lux-seconds and plain numbers pass, lux does not compile", () => {
    const exposure = 160 as LuxSeconds;
    const illuminance = 500 as Lux;
    expect(meter(exposure) + meter(160)).toBe(320);
    // @ts-expect-error lux is no exposure: the time is missing
    expect(meter(illuminance)).toBe(500);
  });
});

describe("[UN7] a value outside what it may be is named with its unit and what may stand there", () => {
  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])("%f is not positive", (value) => {
    expect(() => positive("iso", value, "")).toThrow(QuantityError);
    expect(() => positive("distance", value, "m")).toThrow(
      `distance: ${value} m is not allowed; give a number above 0`,
    );
  });
  it("0 is not negative", () => {
    expect(nonNegative("height", 0, "m")).toBe(0);
    expect(() => nonNegative("height", -1, "m")).toThrow("height: -1 m is not allowed");
  });
});
