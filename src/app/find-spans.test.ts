import { describe, expect, it } from "vitest";
import { clockText, lensesText, parseClock, parseLenses } from "./find-entries.ts";
import {
  APERTURE,
  BACKGROUND,
  distanceKind,
  EDGE,
  parseSpan,
  RATIO,
  type SpanKind,
  spanText,
} from "./find-spans.ts";

const read = (text: string, kind: SpanKind) => {
  const entry = parseSpan(text, kind);
  return entry.ok ? spanText(entry.value, kind) : `refused: ${entry.why}`;
};
const METRES = distanceKind("metric");
const FEET = distanceKind("feet");

describe("[AP83] ranges are taken as a photographer types them", () => {
  it.each([
    ["1.2 to 1.7", RATIO, "1.2 to 1.7 stops"],
    ["1,2 – 1,7 stops", RATIO, "1.2 to 1.7 stops"],
    ["1.7-1.2", RATIO, "1.2 to 1.7 stops"],
    ["1.5 ± 0.2", RATIO, "1.3 to 1.7 stops"],
    ["1.5", RATIO, "1.25 to 1.75 stops"],
    ["0.1", RATIO, "0 to 0.35 stops"],
    ["at least 1", RATIO, "at least 1 stop"],
    ["≤ 2", RATIO, "at most 2 stops"],
    ["2 or less", RATIO, "at most 2 stops"],
    ["free", RATIO, "free"],
    ["", RATIO, "free"],
    ["−2.5 to −1.5", BACKGROUND, "−2.5 to −1.5 stops"],
    ["-2.5--1.5", BACKGROUND, "−2.5 to −1.5 stops"],
    ["-2", BACKGROUND, "−2.25 to −1.75 stops"],
    ["up to -3", BACKGROUND, "at most −3 stops"],
    ["6 to 14 mm", EDGE, "6 to 14 mm"],
    ["10", EDGE, "7 to 13 mm"],
    ["f/5.6 to f/11", APERTURE, "f/5.6 + 0.0 to f/11 + 0.0"],
    ["5.6-8", APERTURE, "f/5.6 + 0.0 to f/8 + 0.0"],
    ["f/11 to f/5.6", APERTURE, "f/5.6 + 0.0 to f/11 + 0.0"],
    ["f/8 + 0.3", APERTURE, "f/8 + 0.0 to f/8 + 0.6"],
    ["f/8 ± 0.5", APERTURE, "f/5.6 + 0.5 to f/8 + 0.5"],
    ["at least f/8 + 0.3", APERTURE, "at least f/8 + 0.3"],
    ["2 to 3 m", METRES, "2.00 to 3.00 m"],
    ["6 to 9 ft", METRES, "1.83 to 2.74 m"],
    ["2.5", METRES, "2.25 to 2.75 m"],
    ["6' to 9'", FEET, "6′ 0″ to 9′ 0″"],
    ["6 to 9", FEET, "6′ 0″ to 9′ 0″"],
  ])("“%s”", (typed, kind, said) => {
    expect(read(typed, kind)).toBe(said);
  });
  it("what is shown is read back as the same range", () => {
    for (const [text, kind] of [
      ["1.2 to 1.7 stops", RATIO],
      ["at least 1 stop", RATIO],
      ["−2.5 to −1.5 stops", BACKGROUND],
      ["f/5.6 + 0.3 to f/8 + 0.6", APERTURE],
      ["at most f/8 + 0.3", APERTURE],
      ["2.00 to 3.00 m", METRES],
      ["4′ 11½″ to 9′ 2¼″", FEET],
    ] as const)
      expect(read(text, kind)).toBe(text);
  });
  it("what is no range, and what two people read two ways, is refused with its reason", () => {
    expect(read("abc", RATIO)).toContain("no range: give one such as 1.2 to 1.7");
    expect(read("1.2 to x", RATIO)).toContain("no range");
    expect(read("8.4", APERTURE)).toContain("such as f/8 + 0.4");
  });
});

describe("[AP83] a place on the clock and a list of lenses", () => {
  const clock = (text: string) => {
    const entry = parseClock(text);
    return entry.ok ? clockText(entry.value) : "refused";
  };
  it.each([
    ["1:30", "1:30 ± 0:30"],
    ["10:30 ± 1:00", "10:30 ± 1:00"],
    ["12", "12:00 ± 0:30"],
    ["2 o’clock", "2:00 ± 0:30"],
    ["11:30 within 0:15", "11:30 ± 0:15"],
    ["free", "free"],
    ["13:00", "refused"],
    ["noon", "refused"],
  ])("“%s”", (typed, said) => {
    expect(clock(typed)).toBe(said);
  });
  it("what is shown is read back", () => {
    expect(clock(clock("1:30 ± 0:45"))).toBe("1:30 ± 0:45");
  });
  it("lenses are a list without doubles, shortest first", () => {
    expect(parseLenses("135, 50 and 85mm 50")).toEqual({ ok: true, value: [50, 85, 135] });
    expect(parseLenses("")).toEqual({ ok: true, value: [] });
    expect(parseLenses("wide")).toMatchObject({ ok: false });
    expect(parseLenses(lensesText([50, 85]))).toEqual({ ok: true, value: [50, 85] });
  });
});
