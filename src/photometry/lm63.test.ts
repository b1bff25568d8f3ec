import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type PhotometricFile, readPhotometricFile } from "./lm63.ts";
import { fullCircle } from "./lm63-angles.ts";
import { photometricWeb, webFlux } from "./photometric-web.ts";

const HEADER = ["IESNA:LM-63-2002", "[TEST] invented", "[LUMINAIRE] test lamp", "TILT=NONE"];

function text(numbers: string[], header = HEADER): string {
  return [...header, ...numbers].join("\r\n");
}

function good(lines: string[], header = HEADER): PhotometricFile {
  const read = readPhotometricFile(text(lines, header));
  if (!read.ok) throw new Error(`line ${read.fault.line}: ${read.fault.what}`);
  return read.file;
}

const SIMPLE = ["1 -1 2 3 1 1 2 0.3 0.6 0", "0.5 1 100", "0 45 90", "0", "1000 700 0"];

describe("[PH11] photometric files", () => {
  it("multiplier and ballast factor apply; opening in metres; keywords kept", () => {
    const file = good(SIMPLE);
    expect(Array.from(file.candela)).toEqual([1000, 700, 0]);
    expect(file.opening).toEqual({ width: 0.3, length: 0.6, round: false });
    expect(file.version).toBe("2002");
    expect(file.keywords.get("LUMINAIRE")).toBe("test lamp");
  });

  it.each([
    [["IES:LM-63-2019", "[TEST] x", "TILT=NONE"], "2019"],
    [["IESNA:LM-63-1995", "TILT=NONE"], "1995"],
    [["IESNA91", "[TEST] x", "TILT=NONE"], "1991"],
    [["A lamp of our own", "some words", "TILT=NONE"], "1986"],
  ])("%j is of %s", (header, version) => expect(good(SIMPLE, header).version).toBe(version));

  it("feet are converted, negative sizes mean round", () => {
    const file = good(["1 -1 1 2 1 1 1 -1 -1 0", "1 1 0", "0 90", "0", "10 0"]);
    expect(file.opening.width).toBeCloseTo(0.3048, 12);
    expect(file.opening.round).toBe(true);
  });

  it("MORE goes on with the keyword before it", () => {
    const file = good(SIMPLE, ["IES:LM-63-2019", "[TEST] one", "[MORE] two", "[MORE] three", "TILT=NONE"]);
    expect([...file.keywords]).toEqual([["TEST", "one\ntwo\nthree"]]);
  });

  it("numbers run over lines as they like; the old sign for the end of a file ends it", () => {
    const file = good(["1 -1", "2 3 1 1 2, 0.3 0.6 0 0.5 1 100 0 45", "90 0 1000", "700 0", "\u001a"]);
    expect(Array.from(file.candela)).toEqual([1000, 700, 0]);
  });

  it.each([
    ["-0.1 1.2 -0.1", { width: 0.1, length: 1.2, round: false }],
    ["1.2 -0.1 -0.1", { width: 1.2, length: 0.1, round: false }],
    ["0 1.2 -0.1", { width: 0.1, length: 1.2, round: false }],
    ["-0.1 -0.1 1.2", { width: 0.1, length: 0.1, round: true }],
    ["-0.1 -0.1 -0.1", { width: 0.1, length: 0.1, round: true }],
    ["0.3 0.6 0.1", { width: 0.3, length: 0.6, round: false }],
  ])("an opening of %s, as the axis sees it", (opening, seen) => {
    expect(good([`1 -1 1 2 1 1 2 ${opening}`, "1 1 0", "0 90", "0", "10 0"]).opening).toEqual(seen);
  });

  it("from 90 to 270 without a plane at 180 the circle closes half way between those beside it", () => {
    expect(fullCircle(Float64Array.from([90, 170, 190, 270]))).toEqual({
      angles_deg: [0, 10, 90, 170, 190, 270, 350, 360],
      columns: [1.5, 1, 0, 1, 2, 3, 2, 1.5],
    });
  });

  it.each([
    [[0], [0]],
    [
      [0, 45, 90],
      [0, 45, 90, 135, 180, 225, 270, 315, 360],
    ],
    [
      [0, 90, 180],
      [0, 90, 180, 270, 360],
    ],
    [
      [90, 180, 270],
      [0, 90, 180, 270, 360],
    ],
    [
      [0, 100, 250],
      [0, 100, 250, 360],
    ],
  ])("horizontal %j stand for %j", (angles, full) => {
    expect(fullCircle(Float64Array.from(angles)).angles_deg).toEqual(full);
  });

  it("symmetry of quadrants takes the same column at 30, 150, 210 and 330", () => {
    const { angles_deg, columns } = fullCircle(Float64Array.from([0, 30, 90]));
    for (const a of [30, 150, 210, 330]) expect(columns[angles_deg.indexOf(a)]).toBe(1);
  });

  it("a lamp that shines both ways: half of an even light goes forward, cut within a step", () => {
    const even = good(["1 -1 1 3 1 1 2 0 0 0", "1 1 0", "0 80 180", "0", "10 10 10"]);
    expect(webFlux(photometricWeb(even, false))).toBeCloseTo(40 * Math.PI, 9);
    expect(webFlux(photometricWeb(even, true))).toBeCloseTo(20 * Math.PI, 9);
  });

  it.each([
    ["no TILT", "hello", 1, /not an LM-63/],
    ["tilt included", text(SIMPLE).replace("NONE", "INCLUDE"), 4, /TILT=INCLUDE/],
    ["a word", text(["1 -1 x"]), 5, /"x" is not a number/],
    ["cut in the header", text(["1 -1 1 3"]), 5, /ends before the number of horizontal/],
    ["cut in the table", text(SIMPLE.slice(0, 4)), 8, /ends after 17 of 20/],
    ["too many numbers", text([...SIMPLE, "5"]), 10, /goes on after/],
    ["type B", text(["1 -1 1 3 1 2 2 0 0 0", ...SIMPLE.slice(1)]), 5, /type must be 1/],
    ["angles that fall", text([...SIMPLE.slice(0, 2), "0 95 90", "0", "1 1 1"]), 7, /must rise/],
    ["a first angle of 10", text([...SIMPLE.slice(0, 2), "10 45 90", "0", "1 1 1"]), 7, /must be 0 or 90/],
    [
      "a last horizontal of 45",
      text(["1 -1 1 2 2 1 2 0 0 0", "1 1 0", "0 90", "0 45", "1 1 1 1"]),
      8,
      /last horizontal/,
    ],
    ["a negative intensity", text([...SIMPLE.slice(0, 4), "1 -5 1"]), 9, /must be from 0/],
    ["no light", text([...SIMPLE.slice(0, 4), "0 0 0"]), 9, /no light at all/],
    ["less than no lamps", text(["-3 -1 1 3 1 1 2 0 0 0", ...SIMPLE.slice(1)]), 5, /lamps must be a whole/],
    [
      "angles finer than any goniometer's",
      text([...SIMPLE.slice(0, 2), "0 0.0001 90", "0", "1 1 1"]),
      7,
      /rise by 0\.001/,
    ],
    ["a lamp as long as a street", text(["1 -1 1 3 1 1 2 0 500 0", ...SIMPLE.slice(1)]), 5, /no lamp is so/],
    ["a light too faint for anything", text([...SIMPLE.slice(0, 4), "1e-9 0 0"]), 9, /no light at all/],
    ["nothing", "", 1, /not an LM-63/],
    ["a count of 0", text(["1 -1 1 0 1 1 2 0 0 0", "1 1 0"]), 5, /whole number/],
  ])("%s is named with its line and reason", (_, bad, line, what) => {
    const read = readPhotometricFile(bad);
    expect(read).toMatchObject({ ok: false, fault: { line } });
    if (!read.ok) expect(read.fault.what).toMatch(what);
  });

  it("any text gives a file or a fault, never anything else, and never NaN", () => {
    const words = fc.constantFrom(
      "0",
      "1",
      "2",
      "90",
      "180",
      "-1",
      "3.5",
      "1e3",
      "x",
      "TILT=NONE",
      "\r\n",
      ",",
      "",
    );
    // good files with a few words changed, which get further in
    const whole = text(SIMPLE).split(" ");
    const slips = fc
      .array(fc.tuple(fc.nat(whole.length - 1), words), { minLength: 1, maxLength: 3 })
      .map((changes) => whole.map((word, i) => changes.find(([at]) => at === i)?.[1] ?? word).join(" "));
    const texts = fc.oneof(
      slips,
      fc.string(),
      fc.array(words, { maxLength: 60 }).map((w) => `${text([])}\r\n${w.join(" ")}`),
    );
    fc.assert(
      fc.property(texts, (any) => {
        const read = readPhotometricFile(any);
        if (!read.ok) {
          expect(read.fault.line).toBeGreaterThan(0);
          return;
        }
        for (const cd of read.file.candela) expect(cd).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(webFlux(photometricWeb(read.file, false)))).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});
