import { describe, expect, it } from "vitest";
import { outsideDial, readPower, writePower } from "./index.ts";

const stops = { marked: "stops" } as const;
const fractions = { marked: "fractions" } as const;
const wattSeconds = { marked: "wattSeconds" } as const;

describe("[AP50] power as the head is marked", () => {
  it.each([
    [2.2, stops, 400, "−2.2"],
    [0, stops, 400, "0.0"],
    [2.2, fractions, 400, "1/8 + 0.8"],
    [2.2, wattSeconds, 400, "87 Ws"],
    [6, wattSeconds, 400, "6.3 Ws"],
    [2.2, wattSeconds, null, "−2.2"],
  ])("%f down on a dial in %o of %o Ws is %s", (down, dial, full, text) =>
    expect(writePower(down, dial, full)).toBe(text),
  );
  it.each([
    ["−2.2", stops, 2.2],
    ["-2,2 stops", stops, 2.2],
    ["2.2", stops, 2.2],
    ["2.2 down", fractions, 2.2],
    ["+0.5", stops, -0.5],
    ["1/8 + 0.8", stops, 2.2],
    ["full", wattSeconds, 0],
    ["1", fractions, 0],
    ["100", wattSeconds, 2],
    ["100 Ws", stops, 2],
    ["800 J", stops, -1],
  ])("%s on a dial in %o is %f stops down", (text, dial, down) =>
    expect(readPower(text, dial, 400)).toBeCloseTo(down, 12),
  );
  it.each(["", "much", "1/3", "0 Ws", "−", "4 lm"])("%j is none", (text) =>
    expect(readPower(text, stops, 400)).toBeNull(),
  );
  it("watt-seconds are none where full power is not given in them", () =>
    expect(readPower("87 Ws", stops, null)).toBeNull());
  it("reads back what it writes, to half a mark", () => {
    for (let down = 0; down <= 8; down += 0.037) {
      for (const dial of [stops, fractions]) {
        const back = readPower(writePower(down, dial, 400), dial, 400) as number;
        expect(Math.abs(back - down)).toBeLessThanOrEqual(0.05 + 1e-9);
      }
      const energy = 400 * 2 ** -down;
      const back = 400 * 2 ** -(readPower(writePower(down, wattSeconds, 400), wattSeconds, 400) as number);
      expect(Math.abs(back - energy)).toBeLessThanOrEqual((energy < 10 ? 0.05 : 0.5) + 1e-9);
    }
  });
});

describe("[AP50] outside the dial", () => {
  it.each([
    [0, 0],
    [6, 0],
    [6.009, 0],
    [-0.5, 0.5],
    [7.3, -1.3],
  ])("%f down of 6 is %f outside", (down, off) =>
    expect(outsideDial(down, { range: 6 })).toBeCloseTo(off, 9),
  );
});
