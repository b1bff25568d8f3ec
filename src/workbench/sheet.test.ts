/** What a sheet is given beside the reading: background points and the moves that are worth printing. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import type { HoldZone, TriedStep, TriedSteps } from "../finder/index.ts";
import { checkPlan } from "../plan/index.ts";
import { type PlanReading, patternName, patternWord, type TryReading } from "../reading/index.ts";
import { placementSheet } from "../sheet/index.ts";
import { PLANS, readingFor } from "../sheet/testing/plans.ts";
import { textsOf } from "../sheet/testing/read-page.ts";
import { formatFStops, formatStops, parseFStops } from "../units/index.ts";
import { createComputer } from "./computer.ts";
import { holdOnSheet, makeSheet, sheetDate } from "./sheet.ts";
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

it("[SH17] both readings and the stops between them add up as they are printed, whatever was rounded", () => {
  const asked = askBackground(PLANS["five lights"], 0);
  const read = readingFor(asked.plan);
  for (let k = 0; k < 200; k++) {
    // an irrational step: all roundings come up
    const [key, here] = [4 * 2 ** ((k * Math.SQRT2) % 2), 1.4 * 2 ** ((k * Math.sqrt(3)) % 3)];
    const meters = read.meters.map((meter, i) => {
      const fNumber = i < PLANS["five lights"].meters.length ? key : here;
      return { ...meter, fNumber, fStops: formatFStops(fNumber) };
    });
    const tenths = (text: string) => 20 * Math.log2(parseFStops(text) ?? Number.NaN);
    const between = Math.round(tenths(formatFStops(here)) - tenths(formatFStops(key)));
    for (const { againstKeyStops } of asked.split({ ...read, meters }).background)
      expect(formatStops(againstKeyStops ?? Number.NaN)).toBe(formatStops(between / 10));
  }
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
  const plan = PLANS["five lights"];
  const step = (of: string, does: string, after: Partial<TryReading>): TriedStep => ({
    of,
    ease: "stand",
    does,
    // the plan that it leads to is known by its title
    edit: { kind: "set", label: "", fields: [{ path: ["title"], value: `${of} ${does}` }] },
    why: null,
    after: { ...before, ...after },
    warns: [],
  });
  const turned = step("cellist", "head turns 10° to own left", {
    pattern: "loop",
    ratioStops: 1.5,
    light: { azimuth: 40, elevation: 30 },
  });
  const steps: TriedSteps = {
    before,
    steps: [
      step("camera", "up 15 cm", {}),
      step("key", "up 15 cm", { litCheek: 88, light: { azimuth: 50, elevation: 34 } }),
      step("key", "down 15 cm", { litCheek: 112, light: { azimuth: 50, elevation: 26 } }),
      turned,
      step("key", "power up 0.3 stop, to −1.9", { litCheek: 100 * 2 ** 0.3 }),
      step("cellist", "back 20 cm", { litCheek: 93 }),
      step("V-flat", "30 cm nearer", { ratioStops: 2.2 }),
      { ...step("key", "round 10° left", {}), edit: null, after: null, why: "a wall is there" },
    ],
  };
  /** What the trial says holds, but for what is given. */
  const told = async (otherwise: Readonly<Record<string, TryReading>> = {}, printed = before) => {
    const read: string[] = [];
    const moves = await movesWorthKnowing(plan, steps, printed, async ({ title }, does) => {
      read.push(does);
      const tried = steps.steps.find((each) => `${each.of} ${each.does}` === title)?.after;
      return otherwise[title] ?? tried ?? before;
    });
    return { moves, read };
  };
  it("four, the weightiest first, no two of one thing and kind, none that changes nothing", async () => {
    const { moves, read } = await told();
    expect(moves.map(({ of, does }) => `${of} ${does}`)).toEqual([
      "cellist head turns 10° to own left",
      "key up 15 cm",
      "key power up 0.3 stop, to −1.9",
      "V-flat 30 cm nearer",
    ]);
    expect(read).toHaveLength(4);
  });
  it("direction and power are told apart", async () => {
    const { moves } = await told();
    expect(moves[0]).toMatchObject({ direction: "loop now, 10° to own right", faceStops: 0 });
    expect(moves[0].ratioStops).toBeCloseTo(-0.5, 9);
    expect(moves[1].direction).toBe("4° higher");
    expect(moves[2].direction).toBe("");
    expect(moves[2].faceStops).toBeCloseTo(0.3, 9);
  });
  it("[SH25] what is read finely is told, not what was tried: another name, a smaller change, or none", async () => {
    const still: TryReading = { ...before, between: "loop", light: { azimuth: 40, elevation: 30 } };
    const { moves, read } = await told({
      "cellist head turns 10° to own left": still,
      "key up 15 cm": before,
    });
    expect(moves.find(({ of }) => of === "cellist")?.direction).toBe("close to loop, 10° to own right");
    expect(moves.some(({ does }) => does === "up 15 cm")).toBe(false);
    // one that changes nothing makes room for the next
    expect(read).toHaveLength(5);
  });
  it("[SH25] against what is printed: no move leads to the name that stands there", async () => {
    const { moves } = await told({}, { ...before, pattern: "loop", between: "rembrandt" });
    const directions = moves.map(({ direction }) => direction);
    expect(directions.join()).not.toContain("loop now");
    expect(directions.filter((words) => words.startsWith("Rembrandt now")).length).toBeGreaterThan(0);
  });
});

/** Where a trial and a whole reading part: near the border of two patterns. Everyday runs look at the first, less finely: that
 * a page is of one mind does not hang on how fine its reading is. */
const BORDERS = ["cellist", "manual-start", "group", "manual-rembrandt", "manual-split", "manual-short"];
const LOOKED = BORDERS.slice(0, amount(BORDERS.length));
const FINELY = LOOKED.length === BORDERS.length ? "fine" : "coarse";

describe("[SH25] one light has one name on one paper", () => {
  it.each(LOOKED)(
    "%s",
    async (name) => {
      const checked = checkPlan(JSON.parse(readFileSync(`examples/${name}.json`, "utf8")));
      if (!checked.ok) throw new Error(checked.problems[0].what);
      const real = createComputer();
      const read: PlanReading[] = [];
      const computer: typeof real = {
        ...real,
        read: async (plan, _, work) => {
          const reading = await real.read(plan, FINELY, work);
          read.push(reading);
          return reading;
        },
        frame: (plan, request, work) => real.frame(plan, { ...request, quality: "coarse", width: 24 }, work),
      };
      const pages = await makeSheet(computer, checked.plan, { paper: "a4", units: "metric" });
      const words = pages.flatMap((page) => textsOf(page).map(({ text }) => text)).join(" ");
      const [printed, ...moved] = read.map(({ people }) => people[0].face);
      expect(words).toContain(patternName(printed.pattern));
      // independent of how moves are told: each name that is new on the page was read of a plan that moved
      const others = moved.filter(({ pattern }) => pattern !== printed.pattern);
      const now = [...words.matchAll(/([A-Za-z]+) now/g)].map(([, said]) => said);
      expect(now).not.toContain(patternWord(printed.pattern));
      expect(now.toSorted()).toEqual(others.map(({ pattern }) => patternWord(pattern)).toSorted());
      const kept = /Inside it .+? keeps ([A-Za-z]+),/.exec(words)?.[1];
      if (kept !== undefined) expect(kept).toBe(patternWord(printed.pattern));
      // finely, of a group, and beside other work
    },
    240_000,
  );
});

it("[SH25] a hold zone that keeps another pattern than the one printed is not given, and says why", async () => {
  const plan = PLANS["one light"];
  const zone = { asked: { pattern: "loop" } } as HoldZone;
  const hold = () => Promise.resolve(zone);
  const given = await holdOnSheet({ hold }, plan, { person: 0, pattern: "rembrandt" });
  expect(given.hold).toBeUndefined();
  expect(given.noHold).toMatch(/^cellist stands at the border of Rembrandt and loop: .* none is given\.$/);
  const pages = placementSheet(plan, readingFor(plan), { paper: "a4", units: "metric", ...given });
  expect(pages.join()).toContain("at the border of Rembrandt and loop");
});

it("[SH14] the date is words that nobody reads two ways", () => {
  expect(sheetDate(new Date(2026, 10, 29))).toBe("29 November 2026");
});
