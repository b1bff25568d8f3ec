import { describe, expect, it } from "vitest";
import cellistFile from "../../examples/cellist.json";
import shortFile from "../../examples/manual-short.json";
import type { SetUp } from "../finder/index.ts";
import { applyEdit, checkPlan, type Light, type Plan, setField } from "../plan/index.ts";
import { fullTrier, Memory } from "../reading/index.ts";
import { briefOf } from "./find-brief.ts";
import { isSameQuestion, isTaken, takeEdit } from "./find-take.ts";

function planOf(file: unknown): Plan {
  const checked = checkPlan(file);
  if (!checked.ok) throw new Error("the example is broken");
  return checked.plan;
}
const applied = (plan: Plan, edit: Parameters<typeof applyEdit>[1]): Plan => {
  const edited = applyEdit(plan, edit);
  if (!edited.ok) throw new Error(edited.problems.map((p) => `${p.path}: ${p.what}`).join("\n"));
  return edited.plan;
};

/** A set-up as the search answers: the lights and the people of another example, in the room of the first. */
function setUpFor(asked: Plan): SetUp {
  const { lights, people } = planOf(shortFile);
  const plan = { ...asked, lights, people, panels: [], meters: [] };
  const reading = fullTrier(0, "glance", new Memory()).read(plan);
  return {
    kind: "two lights",
    title: "two lights, from own left",
    plan,
    isMet: true,
    wishes: [],
    reading,
    hold: null,
  };
}

describe("[AP86] taking a set-up is one step", () => {
  const table = applied(
    planOf(cellistFile),
    setField("mark", ["marks"], [{ name: "stool", position: [1, 2] }]),
  );
  const asked = { ...table, brief: briefOf(table) };
  const setUp = setUpFor(asked);
  it("it replaces lights, panels, people, camera and meters; title, marks, room and brief stay", () => {
    const taken = applied(table, takeEdit(asked, setUp));
    expect(taken.lights.map(({ name }) => name)).toEqual(setUp.plan.lights.map(({ name }) => name));
    expect([taken.panels, taken.meters]).toEqual([[], []]);
    expect(taken.title).toBe(table.title);
    expect(taken.marks).toBe(table.marks);
    expect(taken.room).toBe(table.room);
    expect(taken.backdrop).toBe(table.backdrop);
    expect(taken.brief).toEqual(asked.brief);
    expect(isTaken(taken, setUp)).toBe(true);
    const [{ name, ...rest } = {}] = setUp.plan.lights as readonly Partial<Light>[];
    const turnedRound = {
      ...setUp,
      plan: { ...setUp.plan, lights: [{ ...rest, name }, ...setUp.plan.lights.slice(1)] },
    };
    expect(isTaken(taken, turnedRound as SetUp)).toBe(true);
    expect(isTaken(table, setUp)).toBe(false);
  });
  it("says which in the words of undo", () => {
    expect(takeEdit(asked, setUp).label).toBe("set-up: two lights, from own left");
  });
});

describe("[AP85] an answer is old once what is asked has changed", () => {
  const table = planOf(cellistFile);
  const asked = { ...table, brief: briefOf(table) };
  it("a set-up that was taken and a light that was moved are no new question", () => {
    const taken = applied(table, takeEdit(asked, { ...setUpFor(asked), plan: { ...asked, lights: [] } }));
    expect(isSameQuestion(asked, { ...taken, brief: briefOf(taken) })).toBe(true);
    const moved = applied(asked, setField("moved", ["lights", 0, "position"], [3, 3, 2]));
    expect(isSameQuestion(asked, moved)).toBe(true);
  });
  it("another wish, another room, another face are", () => {
    for (const change of [
      setField("pattern", ["brief", "want", "pattern"], "split"),
      setField("room", ["room", "height"], 3.6),
      setField("stature", ["people", 0, "stature"], 1.9),
      setField("gear", ["brief", "gear", "panels"], []),
    ])
      expect(isSameQuestion(asked, applied(asked, change)), change.label).toBe(false);
  });
});
