import { describe, expect, it } from "vitest";
import { fNumberOfParts, formatFStops, formatOff, METER_STOPS, partsOfFNumber, TENTHS } from "./index.ts";

describe("[UN8] a hand meter shows an engraved stop and tenths", () => {
  it("what is put in by its two parts is read back as they were", () => {
    for (const stop of METER_STOPS)
      for (const tenths of TENTHS) {
        const fNumber = fNumberOfParts(stop, tenths);
        expect(formatFStops(fNumber)).toBe(`f/${stop} + 0.${tenths}`);
        expect(partsOfFNumber(fNumber)).toEqual({ stop, tenths });
      }
  });
  it("what it does not show has no parts", () => {
    expect(partsOfFNumber(0)).toBeNull();
    expect(partsOfFNumber(1000)).toBeNull();
    expect(fNumberOfParts("8.4", 0)).toBeNaN();
  });
  it.each([
    [8, 8, "level"],
    [8, 8 * 2 ** 0.02, "level"],
    [8, 8 * 2 ** 0.15, "0.3 stop under"],
    [8 * 2 ** 0.5, 8, "1.0 stop over"],
    [16, 8 * 2 ** 0.4, "1.2 stops over"],
    [0, 8, null],
    [8, 0, null],
    [Number.NaN, 8, null],
  ])("f/%f where f/%f was wanted: %s", (made, wanted, words) => expect(formatOff(made, wanted)).toBe(words));
});
