/** What a sheet is given beside the reading: background points and the moves that are worth printing. */
import { describe, expect, it } from "vitest";
import type { TriedStep, TriedSteps } from "../finder/index.ts";
import type { TryReading } from "../reading/index.ts";
import { PLANS, readingFor } from "../sheet/testing/plans.ts";
import { sheetDate } from "./sheet.ts";
import { askBackground } from "./sheet-background.ts";
import { movesWorthKnowing } from "./sheet-moves.ts";

describe("[SH17] the background is read with the plan and changes nothing of it", () => {
  const plan = PLANS["five lights"];
  const asked = askBackground(plan, 0);
  it("five receptors follow the plan's own meters and are taken off again", () => {
    expect(asked.plan.meters).toHaveLength(plan.meters.length + 5);
    expect(asked.plan.meters.slice(0, plan.meters.length)).toEqual(plan.meters);
    const { reading, background } = asked.split(readingFor(asked.plan));
    expect(reading).toEqual(readingFor(plan));
    expect(background.map(({ name }) => name)).toEqual([
      "behind the head",
      "top left",
      "top right",
      "bottom left",
      "bottom right",
    ]);
  });
  it("stops against the flat meter at the nose: f/4 against f/8 is two under", () => {
    const read = readingFor(asked.plan);
    const meters = read.meters.map((meter, i) =>
      i < plan.meters.length ? { ...meter, fNumber: 8 } : { ...meter, fNumber: 4, fStops: "f/4 + 0.0" },
    );
    for (const { againstKeyStops, fStops } of asked.split({ ...read, meters }).background) {
      expect(againstKeyStops).toBeCloseTo(-2, 9);
      expect(fStops).toBe("f/4 + 0.0");
    }
  });
  it("nothing is asked where nothing hangs", () => {
    const bare = PLANS["one light"];
    expect(askBackground(bare, 0).plan).toBe(bare);
  });
});

describe("[SH18] moves worth knowing", () => {
  const before: TryReading = {
    pattern: "rembrandt",
    between: null,
    litSide: "left",
    litCheek: 100,
    shadowCheek: 25,
    ratioStops: 2,
    side: "square",
    light: { azimuth: 50, elevation: 30 },
    shadowEdgeMillimetres: null,
    catchlights: [],
    backgroundStops: -3,
    headroomStops: 1,
    litCheeks: [100],
  };
  const step = (of: string, does: string, after: Partial<TryReading>): TriedStep => ({
    of,
    ease: "stand",
    does,
    edit: null,
    why: null,
    after: { ...before, ...after },
    warns: [],
  });
  const steps: TriedSteps = {
    before,
    steps: [
      step("camera", "up 15 cm", {}),
      step("key", "up 15 cm", { litCheek: 88, light: { azimuth: 50, elevation: 34 } }),
      step("key", "down 15 cm", { litCheek: 112, light: { azimuth: 50, elevation: 26 } }),
      step("cellist", "head turns 10° to own left", {
        pattern: "loop",
        ratioStops: 1.5,
        light: { azimuth: 40, elevation: 30 },
      }),
      step("key", "power up 0.3 stop, to −1.9", { litCheek: 100 * 2 ** 0.3 }),
      step("cellist", "back 20 cm", { litCheek: 93 }),
      step("V-flat", "30 cm nearer", { ratioStops: 2.2 }),
      { ...step("key", "round 10° left", {}), after: null, why: "a wall is there" },
    ],
  };
  const moves = movesWorthKnowing(steps);
  it("four, the weightiest first, no two of one thing and kind, none that changes nothing", () => {
    expect(moves.map(({ of, does }) => `${of} ${does}`)).toEqual([
      "cellist head turns 10° to own left",
      "key up 15 cm",
      "key power up 0.3 stop, to −1.9",
      "V-flat 30 cm nearer",
    ]);
  });
  it("direction and power are told apart", () => {
    expect(moves[0]).toMatchObject({ direction: "loop now, 10° to own right", faceStops: 0 });
    expect(moves[0].ratioStops).toBeCloseTo(-0.5, 9);
    expect(moves[1].direction).toBe("4° higher");
    expect(moves[2].direction).toBe("");
    expect(moves[2].faceStops).toBeCloseTo(0.3, 9);
  });
});

it("[SH14] the date is words that nobody reads two ways", () => {
  expect(sheetDate(new Date(2026, 10, 29))).toBe("29 November 2026");
});
