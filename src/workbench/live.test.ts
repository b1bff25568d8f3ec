import { describe, expect, it } from "vitest";
import { applyEdit, type Edit, type Plan } from "../plan/index.ts";
import { measurePlaces, placementSheet, settingMeter } from "../sheet/index.ts";
import { setupOrder } from "../sheet/setup-order.ts";
import { PLANS, planOf, readingFor } from "../sheet/testing/plans.ts";
import { shapesOf, textsOf } from "../sheet/testing/read-page.ts";
import { applySentReading, type LiveParts, livePlan, setUpsOf } from "./index.ts";

/** Each plan in the one or the other units: a sheet of each in both says no more. */
const CASES = Object.entries(PLANS).map(([name, plan], i) => ({
  name,
  plan,
  units: i % 2 === 0 ? ("metric" as const) : ("feet" as const),
}));
const five = PLANS["five lights"];

function live(plan: Plan, more: Partial<LiveParts> = {}) {
  const reading = readingFor(plan);
  return livePlan(plan, { key: "k", revision: 3, units: "metric", placed: [], reading, readOf: 3, ...more });
}

function edited(plan: Plan, edit: Edit): Plan {
  const made = applyEdit(plan, edit);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.plan;
}

const set = (path: (string | number)[], value: unknown): Edit => ({
  kind: "set",
  label: "change",
  fields: [{ path, value }],
});

/** A plan with the reading in it, as a device sent it. */
function sent(plan: Plan, fNumber: number, light = "all", iso?: number): Plan {
  const edit = applySentReading(plan, {
    meter: plan.meters[0].name,
    light,
    fNumber,
    ...(iso === undefined ? {} : { iso }),
  });
  if ("problem" in edit) throw new Error(edit.problem);
  return edited(plan, edit);
}

describe("[WB25] floor and side are whole documents, drawn at true scale with a bar that says which", () => {
  it.each(CASES)("$name, $units", ({ plan, units }) => {
    const { floor, side } = live(plan, { units });
    for (const svg of [floor, side]) {
      expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg".*<\/svg>\s*$/s);
      const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg) ?? [];
      const bar = shapesOf(svg).find(({ kind }) => kind === "scale-bar");
      const metres = Number(/data-kind="scale-bar" data-metres="([\d.]+)"/.exec(svg)?.[1]);
      const mmPerMetre = ((bar?.points[1][0] ?? 0) - (bar?.points[0][0] ?? 0)) / metres;
      for (const { text, box } of textsOf(svg)) {
        expect(box.x0, text).toBeGreaterThanOrEqual(0);
        expect(box.x1, text).toBeLessThanOrEqual(Number(width));
        expect(box.y1, text).toBeLessThanOrEqual(Number(height));
      }
      // the tape to the camera's height is as long as the bar says
      if (svg === side) {
        const tape = shapesOf(svg).find(({ kind, owner }) => kind === "tape" && owner === "camera");
        const [from, to] = tape?.points ?? [];
        expect(from[1] - to[1]).toBeCloseTo(plan.camera.position[2] * mmPerMetre, 2);
      }
    }
  });

  it("names are text and never markup", () => {
    const { floor } = live(PLANS["long names"]);
    expect(floor).not.toContain("<b>");
    const plan = planOf({ title: "</title><script>alert(1)</script>", lights: five.lights.slice(0, 1) });
    expect(live(plan).floor).not.toContain("<script>");
    expect(live(plan).floor).toContain("&lt;script&gt;");
  });
});

describe("[WB26] things come in the order of setting up, with the words of the placement sheet", () => {
  it.each(CASES)("$name, $units", ({ plan, units }) => {
    const { things } = live(plan, { units });
    const places = measurePlaces(plan);
    const reading = readingFor(plan);
    const meter = settingMeter(plan, places.noses);
    const steps = setupOrder({ plan, reading, places, units, meter }).join("\n").toLowerCase();
    const found = things.map(({ name }) => steps.indexOf(name.toLowerCase()));
    for (const [i, at] of found.entries()) expect(at, things[i]?.name).toBeGreaterThanOrEqual(0);
    // every word of it stands in the table, whose columns break lines as they like
    const sheet = placementSheet(plan, reading, { paper: "a4", units })
      .flatMap((page) => textsOf(page).map(({ text }) => text))
      .join(" ");
    for (const { lines } of things)
      for (const { label, text } of lines)
        for (const part of text.replace(/^off \((.*)\)$/, "$1").split(", "))
          expect(flat(sheet), `${label}: ${part}`).toContain(flat(part));
    expect(new Set(things.map(({ thing }) => thing)).size).toBe(things.length);
  });

  it("the strongest light is first, those that are off are last, and without a reading the plan's order stands", () => {
    const meters = readingFor(five).meters.map((meter) => ({
      ...meter,
      byLight: { ...meter.byLight, rim: { direct: 900, bounced: 0 } },
    }));
    const lights = (plan: Plan, more?: Partial<LiveParts>) =>
      live(plan, more)
        .things.filter(({ thing }) => thing.startsWith("lights/"))
        .map(({ name }) => name);
    const strong = { reading: { ...readingFor(five), meters } };
    expect(lights(five, strong)[0]).toBe("rim");
    expect(lights(five, { reading: null })).toEqual(five.lights.map(({ name }) => name));
    expect(lights(edited(five, set(["lights", 0, "on"], false)), strong).at(-1)).toBe("key");
  });

  it("power is told by the marks of the dial", () => {
    const power = (dial: object) =>
      live(edited(five, set(["lights", 0, "dial"], dial)))
        .things.find(({ thing }) => thing === "lights/key")
        ?.lines.find(({ label }) => label === "power")?.text;
    expect(power({ marked: "stops" })).toBe("400 Ws, 2.2 stops down");
    expect(power({ marked: "fractions" })).toBe("400 Ws, at 1/8 + 0.8");
    expect(power({ marked: "wattSeconds" })).toBe("400 Ws, at 87 Ws");
  });

  it("who placed it, and when, stands with the thing; a tick for what is gone is not shown", () => {
    const at = "2026-11-26T10:00:00Z";
    const placed = [
      { thing: "lights/rim", by: "tablet", at, setUp: setUpsOf(five).get("lights/rim") ?? "" },
      { thing: "lights/gone", by: "tablet", at, setUp: "" },
    ];
    const { things } = live(five, { placed });
    expect(things.filter((thing) => thing.placed !== null)).toEqual([
      expect.objectContaining({ thing: "lights/rim", placed: { by: "tablet", at, isOld: false } }),
    ]);
    const moved = edited(five, set(["lights", 2, "position", 2], 2.3));
    const ticked = (plan: Plan) => live(plan, { placed }).things.find(({ placed }) => placed !== null);
    expect(ticked(moved)).toMatchObject({ thing: "lights/rim", placed: { by: "tablet", at, isOld: true } });
    expect(
      ticked(edited(moved, set(["lights", 2, "position"], five.lights[2].position)))?.placed?.isOld,
    ).toBe(false);
  });
});

describe("[PN15] each thing says how its distance is found without a tape, and what that does as long as it is of this plan", () => {
  const stays = { owner: "panels[0]", stops: 0.2, pattern: "loop", nearer: "loop", farther: "loop" } as const;
  const reach = (readOf: number) =>
    live(five, { reading: { meters: readingFor(five).meters, reach: [stays] }, readOf }).things.find(
      ({ thing }) => thing === "panels/V-flat, black",
    )?.reach;
  it("the plan that was read, and the one after it", () => {
    expect(reach(3)).toContain("pattern stays");
    expect(reach(2)).toContain("right arm level");
    expect(reach(2)).not.toContain("stays");
  });
});

describe("[WB26] what a thing is set up by has a mark of its own", () => {
  const marks = (plan: Plan) => Object.fromEntries(setUpsOf(plan));
  it.each(CASES)("$name: everything that is set up has one", ({ plan }) => {
    const things = live(plan).things.map(({ thing }) => thing);
    expect([...setUpsOf(plan).keys()].sort()).toEqual(things.sort());
  });
  it("it changes with that thing alone, and not with calibration, the dial or the order of fields", () => {
    const before = marks(five);
    const [key, ...others] = five.lights;
    const turned = Object.fromEntries(Object.entries(key).reverse()) as unknown as typeof key;
    expect(marks({ ...five, lights: [turned, ...others] })).toEqual(before);
    expect(marks(edited(five, set(["lights", 0, "dial"], { marked: "fractions" })))).toEqual(before);
    expect(marks(edited(five, set(["camera", "iso"], 400)))).toEqual(before);
    const moved = marks(edited(five, set(["lights", 2, "position", 2], 2.3)));
    const changed = Object.keys(before).filter((thing) => moved[thing] !== before[thing]);
    expect(changed).toEqual(["lights/rim"]);
  });
});

/** Without the spaces at which a column may break a line. */
const flat = (text: string) => text.replaceAll(/\s/g, "");

describe("[WB27] cautions are the sheet's, those of weights over people apart", () => {
  it("a light over somebody is named on top and at its own step", () => {
    const { overhead, things } = live(PLANS["arm overhead"]);
    expect(overhead).toHaveLength(1);
    expect(overhead[0]).toMatch(/^top hangs over cellist: counterweight and bag/);
    expect(things.filter(({ caution }) => caution !== null)).toEqual([
      expect.objectContaining({ thing: "lights/top", caution: overhead[0] }),
    ]);
  });
  it.each(CASES)("$name: the usual ones are there, and nothing is called safe", ({ plan }) => {
    const { overhead, cautions } = live(plan);
    const said = [...overhead, ...cautions].join(" ");
    expect(said).toContain("Mains");
    expect(said).toContain("photosensitive epilepsy");
    expect(said).not.toMatch(/\bsafe\b|\bOK\b/i);
  });
});

describe("[WB28] readings: all lights and each by itself, what they should read and what was made", () => {
  it("a meter has all lights and each light that is on; while nothing is known it says so", () => {
    const lights = ["all", "key", "fill", "rim", "background left", "background right"];
    expect(live(five).readings.map(({ light }) => light)).toEqual(lights);
    const { readings, readOf } = live(five, { reading: null });
    expect(readOf).toBeNull();
    expect(readings.map(({ should, made, difference }) => [should, made, difference])).toEqual(
      lights.map(() => [null, null, null]),
    );
  });

  it("a light by itself is what it sends to that meter: 100 lx.s at ISO 100 on a flat one", () => {
    // N = sqrt(H S / C), C = 250 for a flat receptor: sqrt(40) = 6.325 is f/5.6 and 0.3
    expect(live(five).readings[1]).toMatchObject({ light: "key", should: "f/5.6 + 0.3" });
    expect(live(five).readings[0]).toMatchObject({ light: "all", should: "f/8 + 0.0" });
  });

  it("what was made lies so many stops from it, at the ISO of the plan", () => {
    const key = sent(five, 5.6568542 * 2 ** 0.05, "key");
    expect(live(key).readings[1]).toMatchObject({ made: "f/5.6 + 0.1", difference: "0.2 stop under" });
    // two stops less sensitive: the meter shows two stops less
    const all = sent(five, 8, "all", 400);
    expect(live(all).readings[0]).toMatchObject({ made: "f/4 + 0.0", difference: "2.0 stops under" });
    // the last one counts
    expect(live(sent(all, 8)).readings[0]).toMatchObject({ made: "f/8 + 0.0", difference: "level" });
  });

  it("a reading made before a light was changed is old and compared with nothing", () => {
    const read = sent(sent(five, 8), 5.6, "key");
    const rim = live(edited(read, set(["lights", 2, "output", "stopsDown"], 3))).readings;
    expect(rim[0]).toMatchObject({ light: "all", isOld: true, difference: null });
    expect(rim[1]).toMatchObject({ light: "key", isOld: false });
    expect(rim[1].difference).not.toBeNull();
  });

  it("a reading made elsewhere, or turned another way, is none of this meter", () => {
    const read = sent(five, 8);
    for (const change of [
      set(["meters", 0, "position", 0], 3),
      set(["meters", 0, "direction"], { bearing: 90 }),
    ])
      expect(live(edited(read, change)).readings[0].made).toBeNull();
  });

  it("what is known of the plan before its last change is matched by names", () => {
    const reading = readingFor(five);
    const more = edited(five, {
      kind: "add",
      label: "add",
      list: "lights",
      item: { ...five.lights[0], name: "hair" },
    });
    const found = live(more, { reading, readOf: 2 });
    expect(found.readOf).toBe(2);
    expect(found.readings.find(({ light }) => light === "hair")?.should).toBeNull();
    expect(found.readings.find(({ light }) => light === "rim")?.should).toBe("f/5.6 + 0.3");
  });
});

describe("[WB29] a reading that a device sends becomes an edit with the lights as they stand, or is refused with its cure", () => {
  it("it is held where the meter is, and stays true when that is moved", () => {
    const plan = sent(five, 8, "key");
    const [reading] = plan.readings;
    expect(reading).toMatchObject({ light: "key", fNumber: 8, iso: five.camera.iso, receptor: "flat" });
    expect(reading.position).toEqual(five.meters[0].position);
    expect(reading.stood?.map(({ name }) => name)).toEqual(five.lights.map(({ name }) => name));
    expect(reading.name).toBe("reading 1");
    expect(sent(plan, 4).readings[1].name).toBe("reading 2");
  });
  it.each([
    [{ meter: "nose", light: "all", fNumber: 8 }, "nose"],
    [{ meter: "chin", light: "lamp", fNumber: 8 }, "lamp"],
    [{ meter: "chin", light: "all", fNumber: Number.NaN }, "NaN"],
    [{ meter: "chin", light: "all", fNumber: 0.1 }, "0.1"],
    [{ meter: "chin", light: "all", fNumber: 8, iso: 0 }, "ISO 0"],
    [{ meter: "chin", light: "all", fNumber: 8, note: "n".repeat(201) }, "200"],
  ])("%o", (reading, named) => {
    const answer = applySentReading(five, reading);
    expect(answer).toMatchObject({
      problem: expect.stringContaining(named),
      cure: expect.stringMatching(/\w/),
    });
  });
});
