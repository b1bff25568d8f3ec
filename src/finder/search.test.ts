import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { fullTrier, Memory, Stopped } from "../reading/index.ts";
import { createComputer } from "../workbench/computer.ts";
import { findSetUps } from "../workbench/find.ts";
import type { Finder } from "../workbench/ports.ts";
import { BriefError, type HoldZone, type SetUp, searchTasks } from "./index.ts";
import { Clearances } from "./search-place.ts";

const OCTA = { name: "octa", face: { shape: "polygon", sides: 8, width: 0.9 } };
const HEAD = { name: "head", full: { wattSeconds: 400 }, fronts: [OCTA] };

function planned(brief: object, rest: object = {}): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    people: [{ name: "cellist", position: [3, 4] }],
    camera: { position: [3, 1.6, 1.55], direction: { at: [3, 4, 1.5] }, focalLength: 105 },
    brief,
    ...rest,
  });
  if (!checked.ok) throw new Error(checked.problems.map(({ path, what }) => `${path}: ${what}`).join("\n"));
  return checked.plan;
}

/** Hold zones have tests of their own, and take as long as all the rest. */
function finder(): Finder {
  return { ...createComputer(), hold: async () => NO_ZONE };
}
const NOWHERE = { least: 0, leastLimit: { by: "reach" }, most: 0, mostLimit: { by: "reach" } } as const;
const NO_ZONE: HoldZone = {
  person: 0,
  mark: [0, 0],
  asked: { pattern: "loop", exposureStops: 0, ratioStops: null, headroomStops: null },
  outline: [],
  circle: { x: 0, y: 0, radius_m: 0 },
  sides: [],
  turn: NOWHERE,
  tip: NOWHERE,
};

const find = (plan: Plan, finders = 1) => findSetUps(plan, Array.from({ length: finders }, finder));

const LOOP = {
  want: { pattern: "loop", litSide: "left", ratioStops: { from: 1, to: 3 }, fNumber: { from: 5.6, to: 8 } },
  gear: { lights: [HEAD] },
};

describe("a brief that can be met", async () => {
  const plan = planned(LOOP);
  const found = await find(plan);

  it("[FD1] every set-up is as it says when all of it is traced", () => {
    expect(found.isMet).toBe(true);
    for (const setUp of found.setUps) {
      const read = fullTrier(0, "coarse", new Memory()).read(setUp.plan);
      expect(read.pattern).toBe("loop");
      expect(read.litSide).toBe("left");
      expect(read.ratioStops).toBeGreaterThanOrEqual(1);
      expect(read.ratioStops).toBeLessThanOrEqual(3);
      // what was doubtful was read finely: coarse and fine differ by less than a tenth
      expect(Math.abs((read.ratioStops ?? 9) - (setUp.reading.ratioStops ?? 0))).toBeLessThan(0.1);
      const metered = Math.sqrt((read.litCheek * 100) / 250);
      expect(metered).toBeGreaterThanOrEqual(5.6);
      expect(metered).toBeLessThanOrEqual(8);
      // the lens is set to it in tenths: within half of one
      expect(Math.abs(2 * Math.log2(setUp.plan.camera.fNumber / metered))).toBeLessThan(0.051);
    }
  });

  it("[FD2] powers stand on the dial's steps and within its range", () => {
    for (const { plan: made } of found.setUps)
      for (const { output, dial } of made.lights) {
        const down = "stopsDown" in output ? output.stopsDown : Number.NaN;
        expect(down).toBeGreaterThanOrEqual(0);
        expect(down).toBeLessThanOrEqual(dial.range);
        expect(Math.abs(down / dial.step - Math.round(down / dial.step))).toBeLessThan(1e-3);
      }
  });

  it("[FD3] no front is in the picture or within the air asked for, and what is told says so", () => {
    for (const { plan: made, wishes } of found.setUps) {
      const clear = new Clearances(made);
      for (const light of made.lights)
        expect(clear.obstacle(light, { lowest: 0.6, highest: 2.8, boom: 0 })).toBeNull();
      for (const panel of made.panels) expect(clear.isInFrame(panel)).toBe(false);
      expect(wishes.filter(({ wish }) => wish === "frame" || wish === "clearance")).toHaveLength(2);
    }
  });

  it("[FD4] the set-ups differ: in kind, or in side, or by 30 cm, 10 degrees of the camera or another front", () => {
    const { setUps } = found;
    expect(setUps.length).toBeGreaterThan(1);
    expect(setUps.length).toBeLessThanOrEqual(5);
    for (const a of setUps)
      for (const b of setUps)
        if (a !== b) expect(a.kind === b.kind && apart(a, b) < 0.3, a.title).toBe(false);
  });

  it("[FD5] two finders give the same bits as one", async () => {
    const small = { ...plan, camera: { ...plan.camera, pinned: true } };
    expect(JSON.stringify(await find(small, 2))).toBe(JSON.stringify(await find(small)));
  });

  it("[FD12] what meets the brief is told with its hold zone", () => {
    for (const { isMet, hold } of found.setUps) expect(hold).toEqual(isMet ? NO_ZONE : null);
  });

  it("[FD6] a plan that was found is a plan, and keeps its brief", () => {
    for (const { plan: made } of found.setUps) {
      expect(checkPlan(structuredClone(made))).toMatchObject({ ok: true });
      expect(made.brief).toEqual(plan.brief);
    }
  });
});

function apart(a: SetUp, b: SetUp): number {
  const [p, q] = [a.plan.lights.at(-1)?.position, b.plan.lights.at(-1)?.position];
  const camera = Math.hypot(...a.plan.camera.position.map((x, k) => x - b.plan.camera.position[k]));
  return p && q ? Math.max(camera, Math.hypot(...p.map((x, k) => x - q[k]))) : 0;
}

describe("what limits a search", () => {
  it("[FD7] what is pinned stays exactly, and counts", async () => {
    const fill = {
      name: "window",
      position: [1.2, 3.2, 1.7],
      direction: { at: [3, 4, 1.6] },
      face: { shape: "rectangle", width: 0.8, height: 1.2 },
      output: { lumenSeconds: 200 },
      pinned: true,
    };
    const plan = planned(LOOP, { lights: [fill] });
    const { setUps } = await find(plan);
    expect(setUps.length).toBeGreaterThan(0);
    for (const { plan: made } of setUps) {
      expect(made.lights[0]).toEqual(plan.lights[0]);
      expect(made.people.map(({ position }) => position)).toEqual([[3, 4]]);
    }
  });

  it("[FD8] under a low ceiling the best elevation that is left is told in words", async () => {
    const room = { width: 6, depth: 7, height: 2.2 };
    const gear = { lights: [{ ...HEAD, fronts: [{ ...OCTA, face: { shape: "disc", width: 0.9 } }] }] };
    const want = { pattern: "butterfly", shadowEdgeMillimetres: { from: 1, to: 6 } };
    const plan = planned(
      { want, gear },
      { room, people: [{ name: "cellist", position: [3, 4], pinned: true }] },
    );
    const { isMet, setUps } = await find(plan);
    expect(isMet).toBe(false);
    const why = setUps.flatMap(({ wishes }) => wishes.map((wish) => wish.why ?? ""));
    expect(why.join("\n")).toMatch(/ceiling: the best elevation possible is \d+° at \d\.\d m/);
  });

  it("[FD9] where nothing fits, the nearest comes first and the wish whose relaxing helps is told by its number", async () => {
    const want = { pattern: "loop", fNumber: { from: 45, to: 64 } };
    const { isMet, setUps, relax } = await find(
      planned({ want, gear: { lights: [{ ...HEAD, full: { wattSeconds: 25 } }] } }),
    );
    expect(isMet).toBe(false);
    expect(setUps.length).toBeGreaterThan(0);
    expect(relax?.wish).toBe("fNumber");
    expect(relax?.words).toMatch(/^if the lens may be at f\/\d/);
    const missed = setUps[0]?.wishes.find(({ wish }) => wish === "fNumber");
    expect(missed?.why).toMatch(/^power: full power gives f\//);
  });

  it("[FD10] no brief, nobody, no light: each is told with its cure", () => {
    const brief = { want: { pattern: "loop" } };
    expect(() => searchTasks({ ...planned(brief), brief: null })).toThrow(BriefError);
    expect(() => searchTasks(planned(brief, { people: [] }))).toThrow(/put somebody on the mark/);
    expect(() => searchTasks(planned(brief))).toThrow(/add one to the brief's gear/);
  });

  it("[FD13] getting to know the sitter beforehand changes nothing", async () => {
    const plan = planned(LOOP, { people: [{ name: "cellist", position: [3, 4], stature: 1.6 }] });
    const [task] = searchTasks(plan);
    const unready = await createComputer().search(plan, { task });
    const computer = createComputer();
    expect(await computer.ready(plan)).toBeNull();
    expect(await computer.search(plan, { task })).toEqual(unready);
  });

  it("[FD11] it stops when it is told to", async () => {
    const signal = { aborted: false };
    const work = findSetUps(planned(LOOP), [createComputer()], {
      signal,
      onProgress: () => {
        signal.aborted = true;
      },
    });
    await expect(work).rejects.toThrow(Stopped);
  });
});
