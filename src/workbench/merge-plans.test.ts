import { describe, expect, it } from "vitest";
import { checkPlan, newPlan, type Plan } from "../plan/index.ts";
import { mergePlans } from "./merge-plans.ts";

function plan(change: object): Plan {
  const made = checkPlan({ ...newPlan(), ...change });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.plan;
}
const light = (name: string, more: object = {}) => ({
  name,
  position: [1, 1, 2],
  direction: { at: [2, 3, 1.5] },
  face: { shape: "disc", width: 0.5 },
  output: { wattSeconds: 400, stopsDown: 2 },
  ...more,
});
const base = plan({ lights: [light("key"), light("fill")] });
const names = (merged: Plan | null) => merged?.lights.map((each) => each.name);

describe("[WB10] what two keepers changed in different fields becomes one plan", () => {
  it("the title here, the power of a light there", () => {
    const mine = plan({ ...base, title: "mine" });
    const theirs = plan({ ...base, lights: [light("key", { output: { wattSeconds: 200 } }), light("fill")] });
    const merged = mergePlans(base, mine, theirs);
    expect(merged?.title).toBe("mine");
    expect(merged?.lights[0].output).toMatchObject({ wattSeconds: 200 });
  });
  it("two fields of one light", () => {
    const mine = plan({ ...base, lights: [light("key", { position: [1.5, 1, 2] }), light("fill")] });
    const theirs = plan({ ...base, lights: [light("key", { kelvin: 3200 }), light("fill")] });
    expect(mergePlans(base, mine, theirs)?.lights[0]).toMatchObject({ position: [1.5, 1, 2], kelvin: 3200 });
  });
  it("entries are told apart by name: added on both sides, taken away on one", () => {
    const mine = plan({ ...base, lights: [light("fill"), light("rim")] });
    const theirs = plan({ ...base, lights: [light("key"), light("fill"), light("hair")] });
    expect(names(mergePlans(base, mine, theirs))).toEqual(["fill", "hair", "rim"]);
  });
  it.each([
    ["the same field", { title: "mine" }, { title: "theirs" }],
    ["one place of one light", moved(1.2), moved(1.4)],
    ["taken away here and changed there", { lights: [light("fill")] }, moved(1.4)],
    ["the same name given to two things", added(1.2), added(1.4)],
  ])("%s is nobody's to decide", (_, mine, theirs) => {
    expect(mergePlans(base, plan({ ...base, ...mine }), plan({ ...base, ...theirs }))).toBeNull();
  });
  it("two changes that are each right and together are no plan are not made", () => {
    const mine = plan({ ...base, room: { width: 3, depth: 6, height: 3 } });
    const theirs = plan({ ...base, lights: [light("key", { position: [4.5, 1, 2] }), light("fill")] });
    expect(mergePlans(base, mine, theirs)).toBeNull();
  });
});

function moved(x: number) {
  return { lights: [light("key", { position: [x, 1, 2] }), light("fill")] };
}
function added(x: number) {
  return { lights: [light("key"), light("fill"), light("rim", { position: [x, 1, 2] })] };
}
