import { describe, expect, it } from "vitest";
import {
  askedText,
  awayText,
  cropText,
  fileText,
  pageText,
  parseAsked,
  parseAway,
  parseCrop,
  parseFile,
  parsePage,
} from "./use-final-entries.ts";

const SENSOR = { width: 36, height: 24 };
const value = (entry: { ok: boolean }) => (entry as { value?: unknown }).value;

describe("[AP161] what is typed of the finished picture", () => {
  it("reads back what is shown, left open or not", () => {
    for (const ppi of [null, 50, 300]) expect(value(parseAsked(askedText(ppi)))).toBe(ppi);
    for (const units of ["metric", "feet"] as const)
      for (const away of [null, 1.5]) {
        const read = value(parseAway(awayText(away, units), units)) as number | null;
        if (away === null) expect(read).toBeNull();
        else expect(read).toBeCloseTo(away, 2);
      }
    for (const share of [null, 0.6, 1]) expect(value(parseCrop(cropText(share)))).toBe(share);
    for (const pixels of [null, { width: 8256, height: 5504 }])
      expect(value(parseFile(fileText(pixels), SENSOR))).toEqual(pixels);
    const page = { width: 0.42333, height: 0.15875 };
    expect(pageText(page)).toBe("1600 × 600");
    expect(value(parsePage("1600 × 600"))).toEqual(page);
  });
  it.each(["8256x5504", "5504 × 8256", "8256, 5504 px", "5504 by 8256"])(
    "%s are the file's pixels, whichever way round",
    (text) => expect(value(parseFile(text, SENSOR))).toEqual({ width: 8256, height: 5504 }),
  );
  it("what cannot be read says what can", () => {
    for (const read of [
      parseFile("45 million", SENSOR),
      parseAsked("a lot"),
      parseCrop("120"),
      parseCrop("0"),
      parsePage("wide"),
      parseAway("far", "metric"),
    ]) {
      expect(read.ok).toBe(false);
      if (!read.ok) expect(read.why).toMatch(/give/);
    }
  });
});
