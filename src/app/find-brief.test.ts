import { describe, expect, it } from "vitest";
import cellistFile from "../../examples/cellist.json";
import { KITS } from "../gear/index.ts";
import {
  applyEdit,
  type Brief,
  checkPlan,
  emptyBrief,
  type Light,
  type Plan,
  setField,
} from "../plan/index.ts";
import { createComputer, createMemoryStore, createSession } from "../workbench/index.ts";
import { briefEdit, briefOf, gearOf, searchedPlan, wantAsRead } from "./find-brief.ts";

function cellist(): Plan {
  const checked = checkPlan(cellistFile);
  if (!checked.ok) throw new Error("the example is broken");
  return checked.plan;
}
const edited = (plan: Plan, ...change: [label: string, path: (string | number)[], value: unknown]) => {
  const after = applyEdit(plan, briefEdit(plan, ...change));
  if (!after.ok) throw new Error(after.problems.map((p) => `${p.path}: ${p.what}`).join("\n"));
  return after.plan;
};

describe("[AP80] a plan without a brief gets one from what stands in it", () => {
  const plan = cellist();
  it("its lights and panels are on hand, its lens is on, and nothing is asked", () => {
    const brief = briefOf(plan);
    expect(brief.gear?.lights.map(({ name, full, fronts }) => [name, full, fronts[0]?.face])).toEqual([
      ["key", { wattSeconds: 400, lumensPerWatt: 35, efficiency: 0.55 }, plan.lights[0]?.face],
    ]);
    expect(brief.gear?.panels[0]).toEqual({
      name: "V-flat, black",
      width: 1.2,
      height: 2.4,
      reflectance: plan.panels[0]?.reflectance,
    });
    expect(brief.lenses).toEqual([135]);
    expect(brief.want).toEqual(emptyBrief().want);
  });
  it("a stand reaches to where its light is, however high or low that hangs", () => {
    const high = {
      ...plan,
      lights: [{ ...(plan.lights[0] as Light), position: [1, 1, 3.1] as const }],
    } as Plan;
    const low = {
      ...plan,
      lights: [{ ...(plan.lights[0] as Light), position: [1, 1, 0.3] as const }],
    } as Plan;
    expect(gearOf(high).lights[0]?.stand).toEqual({ lowest: 0.6, highest: 3.1, boom: 0 });
    expect(gearOf(low).lights[0]?.stand).toEqual({ lowest: 0.3, highest: 2.8, boom: 0 });
  });
  it("an output that is given turned down is the same light at full: two stops are four times", () => {
    const key = plan.lights[0] as Light;
    const output = { guideNumber: 40, iso: 100, stopsDown: 2 };
    const full = (stopsDown: number) =>
      gearOf({ ...plan, lights: [{ ...key, output: { ...output, stopsDown } }] }).lights[0]?.full;
    const [down, up] = [full(2), full(0)] as { lumenSeconds: number }[];
    expect(down?.lumenSeconds).toBeGreaterThan(0);
    expect((down?.lumenSeconds ?? 0) / (up?.lumenSeconds ?? 1)).toBeCloseTo(1, 9);
  });
  it("what is pinned stays and is not on hand; a search of gear that nobody listed goes by the plan's own", () => {
    const key = plan.lights[0] as Light;
    const pinned = {
      ...plan,
      lights: [
        { ...key, pinned: true },
        { ...key, name: "second" },
      ],
    };
    expect(gearOf(pinned).lights.map(({ name }) => name)).toEqual(["second"]);
    expect(searchedPlan(pinned).brief).toEqual({ ...briefOf(pinned), gear: null });
    const listed = edited(plan, "kit", ["gear"], KITS[0].gear);
    expect(searchedPlan(listed).brief?.gear).toEqual(KITS[0].gear);
  });
  it("looking changes nothing: the plan has its brief with the first change", () => {
    expect(plan.brief).toBeNull();
    const after = edited(plan, "pattern", ["want", "pattern"], "loop");
    expect(after.brief?.want.pattern).toBe("loop");
    expect(after.brief?.gear).toEqual(gearOf(plan));
  });
  it("of more lights than a brief takes the first eight are on hand", () => {
    const key = plan.lights[0] as Light;
    const many = { ...plan, lights: Array.from({ length: 9 }, (_, i) => ({ ...key, name: `light ${i}` })) };
    expect(briefOf(many).gear?.lights).toHaveLength(8);
    edited(many, "pattern", ["want", "pattern"], "loop");
  });
});

describe("[AP81] every change of the form is one step that can be undone", () => {
  it("a change keeps what else was asked; undo takes it back; what is refused says why", () => {
    const session = createSession({
      computer: createComputer(),
      store: createMemoryStore(),
      scheduler: { after: () => () => {} },
    });
    session.replace(JSON.stringify(cellistFile), "cellist");
    const put = (label: string, path: (string | number)[], value: unknown) =>
      session.edit(briefEdit(session.get().plan, label, path, value));
    expect(put("pattern", ["want", "pattern"], "rembrandt").ok).toBe(true);
    expect(put("ratio", ["want", "ratioStops"], { from: 1.2, to: 1.7 }).ok).toBe(true);
    expect(session.get().plan.brief?.want).toMatchObject({
      pattern: "rembrandt",
      ratioStops: { from: 1.2, to: 1.7 },
    });
    expect(session.get().undoLabel).toBe("brief: ratio");
    const refused = put("headroom", ["want", "headroomStops"], 99);
    expect(refused.ok || refused.problems[0]?.path).toBe("brief.want.headroomStops");
    session.undo();
    expect(session.get().plan.brief?.want.ratioStops).toBeNull();
    session.undo();
    expect(session.get().plan.brief).toBeNull();
  });
  it("a light on hand is changed where it stands in the list", () => {
    const plan = edited(cellist(), "kit", ["gear"], KITS[1]?.gear);
    const after = edited(plan, "power", ["gear", "lights", 1, "full", "wattSeconds"], 200);
    expect(after.brief?.gear?.lights.map(({ full }) => "wattSeconds" in full && full.wattSeconds)).toEqual([
      400, 200,
    ]);
  });
  it("each kit that is offered is gear that a plan takes as it is", () => {
    for (const { gear } of KITS) expect(edited(cellist(), "kit", ["gear"], gear).brief?.gear).toEqual(gear);
  });
});

describe("[AP82] the light as it reads now can be asked for again", () => {
  it("pattern and side as read, numbers within what a search is held to; what is not there is free", () => {
    const { want } = emptyBrief() as Brief;
    const face = {
      pattern: "loop",
      litSide: "left",
      side: "square",
      ratioStops: 1.52,
      shadowEdgeMillimetres: null,
    } as Parameters<typeof wantAsRead>[1];
    const camera = { backgroundStops: -2.1 } as Parameters<typeof wantAsRead>[2];
    expect(wantAsRead(want, face, camera)).toEqual({
      ...want,
      pattern: "loop",
      litSide: "left",
      ratioStops: { from: 1.2, to: 1.8 },
      backgroundStops: { from: -2.4, to: -1.8 },
    });
    const dark = { ...face, pattern: "dark", litSide: "even", ratioStops: null } as typeof face;
    const asked = wantAsRead(want, dark, { ...camera, backgroundStops: null });
    expect(asked).toEqual(want);
    expect(applyEdit(cellist(), setField("brief", ["brief", "want"], asked)).ok).toBe(true);
  });
});
