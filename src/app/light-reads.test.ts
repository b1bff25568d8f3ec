import { describe, expect, it } from "vitest";
import { cast } from "../engine/index.ts";
import { applyEdit, checkPlan, type Edit, type Plan } from "../plan/index.ts";
import { computeMap, Memory, readPlan, renderFrame } from "../reading/index.ts";
import { createComputer } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { fNumberAt, fNumberFromShare, onlyLight, readingPlaces, setByReading } from "./light-reads.ts";
import { GELS } from "./light-words.ts";
import { shownPlan } from "./shown-plan.ts";

function plan(output: object = { wattSeconds: 400, stopsDown: 3 }): Plan {
  const at = [3, 3.6, 1.5];
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 6, depth: 7, height: 3 },
    ambient: { lux: 80 },
    lights: [
      {
        name: "key",
        position: [4, 2.6, 2.2],
        direction: { at },
        face: { shape: "polygon", sides: 8, width: 1.2 },
        output,
      },
      {
        name: "fill",
        position: [1.8, 2.4, 1.8],
        direction: { at },
        face: { shape: "disc", width: 0.6 },
        output: { lumenSeconds: 300 },
      },
    ],
    people: [{ name: "sitter", position: [3, 3.6], stature: 1.7, facing: 180 }],
    camera: { position: [3, 1, 1.5], direction: { at }, focalLength: 85, fNumber: 8 },
    meters: [
      { name: "chin", position: [3, 3.4, 1.45], direction: { at: [4, 2.6, 2.2] } },
      { name: "dome", position: [3, 3.4, 1.5], direction: { bearing: 180 }, receptor: "dome" },
      { name: "wall", position: [3, 1, 1.5], direction: { at: [4.6, 7, 1.6] }, receptor: "spot" },
    ],
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

/** A table with nothing but the plan on it. */
function table(start: Plan) {
  const state = { plan: start, steps: 0 };
  const session = {
    get: () => ({ plan: state.plan }),
    edit(edit: Edit) {
      const edited = applyEdit(state.plan, edit);
      if (edited.ok) {
        state.plan = edited.plan;
        state.steps++;
      }
      return edited;
    },
  };
  return { state, bench: { session } as unknown as Bench };
}

const computer = createComputer();

describe("[AP54] power by what one light alone reads", () => {
  const places = readingPlaces(plan());
  it("every meter and every face is offered, by name and receptor", () =>
    expect(places.map(({ words }) => words)).toEqual([
      "chin, flat",
      "dome, dome",
      "wall, spot",
      "lit cheek",
    ]));

  it.each([
    ["chin, flat", { wattSeconds: 400, stopsDown: 3 }],
    ["dome, dome", { lumenSeconds: 500 }],
    ["wall, spot", { meter: { fNumber: 8, distance: 2 } }],
    ["lit cheek", { guideNumber: 60, stopsDown: 4 }],
  ])("at %s, of a light given by %o", async (words, output) => {
    const start = plan(output);
    const { state, bench } = table(start);
    const place = places.find((each) => each.words === words);
    if (place === undefined) throw new Error("no such place");
    const before = fNumberAt(await computer.read(onlyLight(start, 0), "fine"), place, 100);
    const wanted = before * 1.3;
    expect(await setByReading(bench, computer, 0, place, wanted)).toBeNull();
    expect(state.steps).toBe(1);
    expect(state.plan.lights[1]).toBe(start.lights[1]);
    const after = await computer.read(onlyLight(state.plan, 0), "fine");
    // direct and bounced light both go with power: what is left is rounding
    expect(fNumberAt(after, place, 100) / wanted).toBeCloseTo(1, 9);
  });

  it("the share in a reading of all lights says the same as the light by itself", async () => {
    const p = plan();
    const [all, alone] = [await computer.read(p, "fine"), await computer.read(onlyLight(p, 0), "fine")];
    for (const place of places.filter(({ kind }) => kind === "meter"))
      expect((fNumberFromShare(all, place, "key") as number) / fNumberAt(alone, place, 100)).toBeCloseTo(
        1,
        9,
      );
    expect(fNumberFromShare(all, places[3] as (typeof places)[number], "key")).toBeNull();
  });

  it("a light that is off is set too, and stays off", async () => {
    const off = plan();
    off.lights[0].on = false;
    const { state, bench } = table(off);
    expect(await setByReading(bench, computer, 0, places[0] as (typeof places)[number], 8)).toBeNull();
    expect(state.plan.lights[0].on).toBe(false);
    const alone = await computer.read(onlyLight(state.plan, 0), "fine");
    expect(alone.meters[0].fNumber).toBeCloseTo(8, 9);
  });

  it("what the dial cannot reach is refused with margin and remedy; where nothing arrives, that is said", async () => {
    const { state, bench } = table(plan());
    const place = places[0] as (typeof places)[number];
    expect(await setByReading(bench, computer, 0, place, 90)).toMatch(
      /Over full power by \d\.\d stops; a head of \d+ Ws/,
    );
    const away = plan();
    away.lights[0].direction = { bearing: 90, tilt: 0 };
    away.room = null;
    expect(await setByReading(table(away).bench, computer, 0, place, 8)).toMatch(/No light of key arrives/);
    expect(state.steps).toBe(0);
  });
});

describe("[AP55] shares only weigh", () => {
  it("power, on and off, colour, filter and alone trace nothing (a spot meter looks again)", () => {
    const memory = new Memory();
    const everything = (p: Plan) => {
      const before = cast.rays;
      readPlan(p, "coarse", memory);
      renderFrame(p, { width: 60, quality: "coarse" }, memory);
      for (const plane of ["floor", "side"] as const) {
        const reference = { kind: "person", index: 0 } as const;
        computeMap(
          p,
          { plane, at: plane === "floor" ? 1.5 : 3, person: 0, reference, quality: "coarse" },
          memory,
        );
      }
      return cast.rays - before;
    };
    const start = { ...plan(), meters: plan().meters.filter(({ receptor }) => receptor !== "spot") };
    expect(everything(start)).toBeGreaterThan(1000);
    const put = (patch: object): Plan => ({
      ...start,
      lights: [{ ...start.lights[0], ...patch }, start.lights[1]],
    });
    for (const [what, changed] of [
      ["power", put({ output: { wattSeconds: 400, stopsDown: 1.3, lumensPerWatt: 35, efficiency: 0.5 } })],
      ["off", put({ on: false })],
      ["kelvin", put({ kelvin: 3200 })],
      ["filter", put({ gel: { rgb: GELS[1]?.value } })],
      ["pinned", put({ pinned: true, dial: { marked: "fractions", range: 9, step: 0.1 } })],
      ["alone", shownPlan(start, "lights[1]")],
      ["all again", shownPlan(start, null)],
    ] as const)
      expect(everything(changed), what).toBe(0);
  });
});
