import { describe, expect, it } from "vitest";
import { calledMeter, measurePlaces, thingsInOrder } from "../sheet/index.ts";
import { PLANS, planOf, readingFor } from "../sheet/testing/plans.ts";
import { checklist, checklistCautions } from "./index.ts";

const five = PLANS["five lights"];
const known = { meters: readingFor(five).meters };
const named = (plan = five, more: Parameters<typeof checklist>[2] = known) =>
  Object.fromEntries(checklist(plan, "metric", more).map((thing) => [thing.thing, thing]));

describe("[CK1] one thing after the other, as it is set up, in the sheet's words", () => {
  it.each(Object.entries(PLANS))("%s", (_, plan) => {
    const things = checklist(plan, "metric", null);
    const context = { plan, places: measurePlaces(plan), units: "metric" } as const;
    expect(things.map(({ thing, lines }) => [thing, lines])).toEqual(
      thingsInOrder(context, null).map(({ thing, lines }) => [thing, lines]),
    );
    for (const { readBack, name } of things) {
      expect(readBack.startsWith(`${name}: `)).toBe(true);
      expect(readBack.length).toBeGreaterThan(name.length + 2);
    }
  });
});

describe("[CK2] what is read back is the one number by which a wrong setting is heard", () => {
  it("of a light what the meter reads of it alone, and which meter: sqrt(H S / C) of 100 lx.s at ISO 100 is f/5.6 + 0.3", () => {
    const { lines, readBack } = named()["lights/key"];
    expect(readBack).toBe("key: f/5.6 + 0.3 alone at chin, flat, pointed at key");
    expect(lines.at(-1)).toEqual({ label: "alone, at chin, flat, pointed at key", text: "f/5.6 + 0.3" });
  });
  it("a meter that is called after its receptor is named once", () => {
    expect(calledMeter("dome", "dome, pointed at the camera")).toBe("the dome, pointed at the camera");
    expect(calledMeter("chin", "flat, pointed at key")).toBe("chin, flat, pointed at key");
  });
  it("while that is not known, and of one that is off, its power", () => {
    expect(named(five, null)["lights/key"].readBack).toBe("key: 400 Ws, 2.2 stops down");
    const off = PLANS["arm overhead"];
    expect(named(off, null)["lights/fill"].readBack).toBe("fill: off (400 Ws, 2.2 stops down)");
  });
  it("of the camera the exposure, of a person the nose, of a panel where it stands", () => {
    const things = named();
    expect(things.camera.readBack).toMatch(/^camera: 135 mm, f\/\S+, \S+( s)?, ISO 100$/);
    expect(things["people/cellist"].readBack).toMatch(/^cellist: nose 1\.\d\d m high$/);
    expect(things["panels/V-flat, black"].readBack).toBe("V-flat, black: 2.65 m, 4.25 m");
  });
});

describe("[CK3] how a distance is found again without a tape stands with what has one", () => {
  it("lights, panels and the camera have it, marks, people and paper have none", () => {
    const things = checklist(five, "metric", known);
    for (const { thing, reach } of things) {
      const has = /^(lights|panels)\/|^camera$/.test(thing);
      expect(reach === null, thing).toBe(!has);
    }
  });
  it("with what it does, once that is known; lengths in the reader's units", () => {
    const stays = {
      owner: "panels[0]",
      stops: 0.2,
      pattern: "loop",
      nearer: "loop",
      farther: "loop",
    } as const;
    const { reach } = named(five, { ...known, reach: [stays] })["panels/V-flat, black"];
    expect(reach?.replaceAll("\u00a0", " ")).toMatch(
      /^right arm level: .*; ±\d cm: power ±0\.2 stop, pattern stays$/,
    );
    expect(named()["panels/V-flat, black"].reach).not.toContain("power");
    const feet = checklist(five, "feet", known).find(({ thing }) => thing === "panels/V-flat, black");
    expect(feet?.reach).toMatch(/\sin$/);
  });
});

describe("[CK4] what a stand's own weights ask for is told at its step", () => {
  it("a load that turns its stand over is named where that is set up, and not elsewhere", () => {
    const [key, ...others] = five.lights;
    // 4 kg on an arm of 1.5 m: 59 N·m against what little a stand of 3 kg and 0.5 m holds
    const support = {
      ...planOf({ lights: [{ ...key, support: { load: 4, arm: { reach: 1.5 } } }] }).lights[0].support,
    };
    const plan = { ...five, lights: [{ ...key, support }, ...others] } as typeof five;
    const things = named(plan);
    expect(things["lights/key"].caution).toMatch(/N·m/);
    expect(things["lights/rim"].caution).toBeNull();
    expect(named()["lights/key"].caution).toBeNull();
  });
});

describe("[CK4] what hangs over people stands on top, the usual cautions apart", () => {
  it("nothing is called safe", () => {
    const { overhead, others } = checklistCautions(PLANS["arm overhead"], "metric");
    expect(overhead).toHaveLength(1);
    expect(overhead[0]).toContain("hangs over cellist");
    expect(others.length).toBeGreaterThan(2);
    expect([...overhead, ...others].join(" ")).not.toMatch(/\bsafe\b|\bOK\b/i);
    expect(checklistCautions(planOf({}), "metric").overhead).toEqual([]);
  });
});
