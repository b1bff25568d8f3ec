import { describe, expect, it } from "vitest";
import {
  type Front,
  guideNumberOf,
  lossOfReadings,
  powerOfGuideNumber,
  powerOfReading,
  readingAt,
  STARTER_SHELF,
} from "./index.ts";

const DIFFUSER: Front = { face: { shape: "point" }, beam: { exponent: 1, edgeDrop: 0 } };
const disc = (width: number): Front => ({
  face: { shape: "disc", width },
  beam: { exponent: 1, edgeDrop: 0 },
});
const lumens = (power: { full: object }) => (power.full as { lumenSeconds: number }).lumenSeconds;

describe("[GR5] a head is entered by its guide number", () => {
  // published-checks section 4: 1000 cd.s at ISO 100 is a guide number of 20 m with C 250, 4000 is 40 m. A perfect diffuser of
  // Phi lm.s sends Phi / pi along its axis
  it.each([
    [20, 100, 1000 * Math.PI],
    [40, 100, 4000 * Math.PI],
    [80, 400, 4000 * Math.PI],
  ])("guide number %d m at ISO %d is %d lm·s through a perfect diffuser", (number, iso, expected) => {
    const entered = powerOfGuideNumber(number, iso, DIFFUSER, null);
    expect(lumens(entered)).toBeCloseTo(expected, 6);
    expect(guideNumberOf({ bare: DIFFUSER, full: entered.full }, iso)).toBeCloseTo(number, 9);
  });
  // the same section: GN 40 m is f/8 at 5 m, f/40 at 1 m
  it.each([
    [5, 8],
    [1, 40],
    [3, 13.3333],
  ])("guide number 40 m reads f at %d m: %d", (distance, fNumber) => {
    const { full } = powerOfGuideNumber(40, 100, DIFFUSER, null);
    expect(readingAt(full, DIFFUSER, 0, distance, 100)).toBeCloseTo(fNumber, 4);
  });
  it("with its watt-seconds known it says how many lumens each gives, and that a stated number reads high", () => {
    const { full, says } = powerOfGuideNumber(40, 100, DIFFUSER, 400);
    expect(full).toEqual({ wattSeconds: 400, lumensPerWatt: expect.closeTo(31.416, 3) });
    expect(says).toBe(
      "12566 lm·s at full power, 31.4 lm for each watt-second; a stated guide number may read half a stop high",
    );
  });
  it("what no tube gives is said, with what to look at again", () => {
    expect(powerOfGuideNumber(120, 100, DIFFUSER, 400).says).toMatch(
      /282\.7 lm.*look again at reading, distance, beam/,
    );
    expect(powerOfGuideNumber(40, 100, DIFFUSER, 400).says).not.toMatch(/look again/);
  });
});

describe("[GR6] a head is entered by what a meter reads of it", () => {
  // closed form: a perfect diffuser of radius r gives Phi / (pi (r^2 + d^2)) on its axis; f/8 at ISO 100 is 160 lx.s (section 1)
  it.each([
    [0.9, 1.2],
    [0.18, 1],
    [1.5, 0.6],
  ])("through a disc of %d m at %d m", (width, distance) => {
    const reading = { fNumber: 8, iso: 100, distance, receptor: "flat" as const };
    const expected = 160 * Math.PI * ((width / 2) ** 2 + distance ** 2);
    const entered = powerOfReading(reading, disc(width), 0, 0, null);
    expect(lumens(entered) / expected).toBeCloseTo(1, 6);
    expect(readingAt(entered.full, disc(width), 0, distance, 100)).toBeCloseTo(8, 5);
  });
  it("turned down two stops and behind a front that loses one it is eight times as much at full, bare", () => {
    const reading = { fNumber: 8, iso: 100, distance: 1, receptor: "flat" as const };
    const as = (lost: number, down: number) => lumens(powerOfReading(reading, disc(0.9), lost, down, null));
    expect(as(1, 2) / as(0, 0)).toBeCloseTo(8, 9);
  });
  it("a dome reads a front of no size lower by its constant: 340 for 250", () => {
    const reading = (receptor: "flat" | "dome") => ({ fNumber: 8, iso: 100, distance: 2, receptor });
    const as = (receptor: "flat" | "dome") => lumens(powerOfReading(reading(receptor), DIFFUSER, 0, 0, null));
    expect(as("dome") / as("flat")).toBeCloseTo(340 / 250, 9);
  });
});

describe("[GR7] what a modifier loses, from two readings of one flash", () => {
  it("readings that a front of that loss would give are turned back into it", () => {
    const [head] = STARTER_SHELF.heads;
    for (const on of STARTER_SHELF.modifiers) {
      const at = (front: Front, lost: number, distance: number) => ({
        front,
        reading: {
          fNumber: readingAt(head.full, front, lost, distance, 100),
          iso: 100,
          distance,
          receptor: "flat" as const,
        },
      });
      expect(lossOfReadings(at(head.bare, 0, 2), at(on, on.loss.stops, 1.5)), on.name).toBeCloseTo(
        on.loss.stops,
        5,
      );
    }
  });
  it("a meter falls by more than is lost where the front spreads it wider", () => {
    const narrow: Front = { ...DIFFUSER, beam: { exponent: 3, edgeDrop: 0 } };
    const reading = (fNumber: number) => ({ fNumber, iso: 100, distance: 5, receptor: "flat" as const });
    // (3 + 1) / (1 + 1) is one stop on the axis with nothing lost
    const bare = { front: narrow, reading: reading(16) };
    expect(lossOfReadings(bare, { front: DIFFUSER, reading: reading(8) })).toBeCloseTo(1, 9);
  });
});
