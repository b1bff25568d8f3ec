import { describe, expect, it } from "vitest";
import { encodeSrgb } from "../photometry/index.ts";
import { MOST_LIFT, PLAIN_LOOK, readLook } from "./frame-look.ts";
import { clippedShares, paint } from "./frame-paint.ts";
import { MIDDLE, ToneTable, toneCurve } from "./frame-tone.ts";
import { ZONES, zoneOf, zonesBelow } from "./frame-zones.ts";

const settings = [-1, -0.5, 0, 0.3, 1].flatMap((contrast) =>
  [0, 0.5, MOST_LIFT].map((shadowLift) => ({ contrast, shadowLift })),
);

describe("black and white", () => {
  it.each(settings)(
    "[AP41] contrast $contrast, lift $shadowLift: black, middle and white stay, and it always rises",
    (look) => {
      const curve = toneCurve(look);
      expect([curve(0), curve(1)]).toEqual([0, 1]);
      expect(curve(MIDDLE)).toBeCloseTo(MIDDLE, 12);
      let before = 0;
      for (let i = 1; i <= 5000; i++) {
        const tone = curve(i / 5000);
        expect(tone).toBeGreaterThan(before);
        before = tone;
      }
    },
  );

  it("[AP41] with nothing set the tone is the luminance", () => {
    const curve = toneCurve(PLAIN_LOOK.mono);
    for (const x of [0, 0.001, 0.05, MIDDLE, 0.4, 0.9, 1]) expect(curve(x)).toBeCloseTo(x, 12);
  });

  it("[AP41] contrast is in stops per stop at the middle, lift in stops at black", () => {
    const stops = (curve: (x: number) => number, from: number, to: number) =>
      Math.log2(curve(to) / curve(from));
    const near = 2 ** 0.005;
    for (const contrast of [-1, -0.4, 0.7]) {
      const curve = toneCurve({ contrast, shadowLift: 0 });
      expect(stops(curve, MIDDLE / near, MIDDLE * near) / 0.01).toBeCloseTo(2 ** contrast, 2);
    }
    const lifted = toneCurve({ contrast: 0, shadowLift: 1.5 });
    expect(Math.log2(lifted(1e-6) / 1e-6)).toBeCloseTo(1.5, 3);
  });

  it("[AP41] the table follows the curve, in both depths, and keeps white for what clips", () => {
    const mono = { on: true, contrast: 0.4, shadowLift: 1 };
    const curve = toneCurve(mono);
    const deep = new ToneTable(mono, 65535);
    const shallow = new ToneTable(mono, 255);
    for (const level of [0, 30, 700, 9000, 30327, 51000, 65000]) {
      const linear =
        level / 65535 <= 0.04045 ? level / 65535 / 12.92 : ((level / 65535 + 0.055) / 1.055) ** 2.4;
      expect(Math.abs(deep.of(level, level, level) - 65535 * encodeSrgb(curve(linear)))).toBeLessThanOrEqual(
        2,
      );
    }
    expect(shallow.of(118, 118, 118)).toBe(118);
    expect([shallow.of(255, 255, 255), shallow.of(255, 254, 254)]).toEqual([255, 254]);
    // green carries most of the luminance, blue least
    expect(shallow.of(0, 200, 0)).toBeGreaterThan(shallow.of(200, 0, 0));
    expect(shallow.of(200, 0, 0)).toBeGreaterThan(shallow.of(0, 0, 200));
  });
});

const picture = {
  width: 3,
  height: 1,
  rgba: Uint8ClampedArray.of(118, 118, 118, 255, 255, 250, 240, 255, 255, 255, 255, 255),
  clipped: Uint8Array.of(0, 2, 1),
  tenths: Int8Array.of(0, 28, 31),
  deep: null,
};

describe("overlays", () => {
  it("[AP40] clipped skin is striped in colour and the rest dotted without; what does not clip is left", () => {
    const { width, height, pixels } = paint(picture, { ...PLAIN_LOOK, clipping: true }, 12);
    expect([width, height]).toEqual([36, 12]);
    const colours = (from: number) => {
      const seen = new Map<string, number>();
      for (let y = 0; y < 12; y++)
        for (let x = from; x < from + 12; x++) {
          const at = 4 * (y * width + x);
          const key = pixels.slice(at, at + 3).join();
          seen.set(key, (seen.get(key) ?? 0) + 1);
        }
      return seen;
    };
    expect([...colours(0)]).toEqual([["118,118,118", 144]]);
    expect(colours(12)).toEqual(
      new Map([
        ["74,60,255", 72],
        ["255,255,255", 72],
      ]),
    );
    expect(colours(24).get("20,24,30")).toBe(16);
    expect(clippedShares(picture)).toEqual({ skin: 1 / 3, elsewhere: 1 / 3 });
  });

  it("[AP42] a zone is the nearest whole stop; the ends take all beyond; what clips is white", () => {
    const of = (tenths: number) => ZONES[zoneOf(tenths)]?.stops;
    expect([-128, -55, -54, -26, -5, 4, 5, 24, 25, 127].map(of)).toEqual([-6, -5, -5, -3, 0, 0, 1, 2, 3, 3]);
    const { pixels } = paint(picture, { ...PLAIN_LOOK, zones: true }, 1);
    expect([...pixels.slice(0, 3)]).toEqual(ZONES[6]?.rgb);
    expect([...pixels.slice(4, 7)]).toEqual([255, 255, 255]);
    expect(zonesBelow(2.96).at(-1)?.stops).toBe(3);
    expect(zonesBelow(1.4).at(-1)?.stops).toBe(1);
  });

  it("[AP42] each zone is lighter than the one before, so that they tell apart without colour", () => {
    const lightness = ZONES.map(
      ({ rgb: [r, g, b] }) => 0.2126 * r ** 2.2 + 0.7152 * g ** 2.2 + 0.0722 * b ** 2.2,
    );
    for (let i = 1; i < lightness.length; i++)
      expect(lightness[i]).toBeGreaterThan(1.15 * (lightness[i - 1] ?? 0));
  });

  it("[AP40] a look is kept as it was; what is not understood is as at first", () => {
    const look = { ...PLAIN_LOOK, zones: true, mono: { on: true, contrast: -0.4, shadowLift: 1.2 } };
    expect(readLook(JSON.stringify(look))).toEqual(look);
    for (const text of [null, "", "{", "3", '{"mono":{"contrast":40}}', '{"zones":"yes"}'])
      expect(readLook(text)).toEqual(PLAIN_LOOK);
  });
});
