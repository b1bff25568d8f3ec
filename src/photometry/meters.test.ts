import { describe, expect, it } from "vitest";
import { type Lux, QuantityError } from "../units/index.ts";
import {
  backgroundStops,
  ev100OfIlluminance,
  exposureOfReading,
  fillDistanceRatio,
  flatResponse,
  guideFNumber,
  guideNumber,
  illuminanceOfEv100,
  incidentFNumber,
  intensityOfGuideNumber,
  inverseSquareStops,
  keyOverFillStops,
  litToShadowRatio,
  METER_CONSTANT,
  reflectedFNumber,
  scaledGuideNumber,
} from "./index.ts";

describe("[PH1] meters", () => {
  it("a reading and its exposure are each other's inverse", () => {
    for (const constant of [METER_CONSTANT.flat, METER_CONSTANT.dome])
      for (const n of [0.9, 8, 30])
        expect(incidentFNumber(exposureOfReading(n, 200, constant), 200, constant)).toBeCloseTo(n, 12);
  });
  it.each([0, -1e-20, Number.NaN])("%f lx.s reads 0", (h) => {
    expect(incidentFNumber(h, 100, 250)).toBe(0);
    expect(reflectedFNumber(h, 100)).toBe(0);
  });
  it.each([0, -100, Number.NaN])("a speed of %f is refused", (iso) =>
    expect(() => incidentFNumber(160, iso, 250)).toThrow(QuantityError),
  );
  it("lux is refused where lux-seconds are read", () => {
    // @ts-expect-error a flash meter integrates: the time is missing
    expect(incidentFNumber(160 as Lux, 100, 250)).toBe(8);
  });
  it("a flat receptor sees nothing from behind", () => expect(flatResponse(2)).toBe(0));
  it("no light has no exposure value", () => {
    expect(illuminanceOfEv100(ev100OfIlluminance(1000, 250), 250)).toBeCloseTo(1000, 9);
    expect(() => ev100OfIlluminance(0, 250)).toThrow(QuantityError);
  });
});

describe("[PH7] flash and ratios", () => {
  it("a guide number and its intensity are each other's inverse", () =>
    expect(guideNumber(intensityOfGuideNumber(40, 100), 100, METER_CONSTANT.flat)).toBeCloseTo(40, 12));
  it("twice as far is half the f-number and two stops less", () => {
    expect(guideFNumber(40, 5)).toBe(8);
    expect(inverseSquareStops(2, 4)).toBe(-2);
    expect(scaledGuideNumber(40, 100, 400, 1 / 4)).toBe(40);
  });
  it.each([0, -1, Number.NaN])("a distance of %f is refused", (d) => {
    expect(() => guideFNumber(40, d)).toThrow(QuantityError);
    expect(() => inverseSquareStops(1, d)).toThrow(QuantityError);
  });
  it("a ratio and its stops are each other's inverse; without a key there is none", () => {
    expect(keyOverFillStops(litToShadowRatio(1.5))).toBeCloseTo(1.5, 12);
    expect(fillDistanceRatio(5)).toBe(2);
    for (const none of [1, 0.5, Number.NaN]) expect(() => keyOverFillStops(none)).toThrow(QuantityError);
  });
  it.each([0, 1.2, Number.NaN])("a background of reflectance %f is refused", (reflectance) =>
    expect(() => backgroundStops(0, reflectance)).toThrow(QuantityError),
  );
});
