import { describe, expect, it } from "vitest";
import cellistFile from "../../examples/cellist.json";
import stripFile from "../../examples/strip-by-file.json";
import { applyEdit, checkPlan, newPlan, type Plan, setField } from "../plan/index.ts";
import { copyable, copyParts, cutEdit, isParts, type Pasted, pasteParts } from "./clipboard-parts.ts";

function example(file: unknown): Plan {
  const checked = checkPlan(file);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}
const cellist = example(cellistFile);
const strip = example(stripFile);
const textOf = (plan: Plan, ...owners: string[]) => copyParts(plan, copyable(plan, owners));
function withPasted(plan: Plan, pasted: Pasted): Plan {
  if (!pasted.ok) throw new Error(JSON.stringify(pasted.problems));
  const edited = applyEdit(plan, pasted.edit);
  if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
  return edited.plan;
}
const problemsOf = (text: string) => {
  const pasted = pasteParts(cellist, text);
  return pasted.ok ? [] : pasted.problems.map(({ path, what }) => `${path} ${what}`);
};

describe("[AP65] parts go from plan to plan as text that says what it is", () => {
  it("a light, a panel and a meter arrive as they were, in one edit, and are what is held", () => {
    const text = textOf(cellist, "lights[0]", "panels[0]", "meters[1]", "camera", "backdrop");
    expect(isParts(text)).toBe(true);
    const pasted = pasteParts(newPlanIn(7, 9), text);
    const plan = withPasted(newPlanIn(7, 9), pasted);
    // all but the circuit of the room that it was plugged into
    const { head } = cellist.lights[0];
    expect(head?.circuit).toBe("wall left");
    expect(plan.lights).toEqual([{ ...cellist.lights[0], head: { ...head, circuit: null } }]);
    expect(plan.panels).toEqual(cellist.panels);
    expect(plan.meters).toEqual([cellist.meters[1]]);
    expect(pasted).toMatchObject({ owners: ["lights[0]", "panels[0]", "meters[0]"], notes: [] });
  });
  it("names stay free, also where a number was counted before", () => {
    let plan = cellist;
    for (let i = 0; i < 3; i++) plan = withPasted(plan, pasteParts(plan, textOf(plan, "lights[0]")));
    plan = withPasted(plan, pasteParts(plan, textOf(plan, "lights[1]")));
    expect(plan.lights.map((light) => light.name)).toEqual(["key", "key 2", "key 3", "key 4", "key 5"]);
  });
  it("what would stand outside the room is moved to the nearest place inside, and that is said", () => {
    const small = newPlanIn(3, 3);
    const pasted = pasteParts(small, textOf(cellist, "lights[0]", "people[0]"));
    const plan = withPasted(small, pasted);
    expect(plan.lights[0].position).toEqual([3, 3, 2.45]);
    expect(plan.people[0].position).toEqual([3, 3]);
    expect(pasted).toMatchObject({
      notes: [
        "key stood outside this room and was moved in",
        "cellist stood outside this room and was moved in",
      ],
    });
  });
  it("a light brings the photometric file that it names; another file of that name is not put over", () => {
    const plan = withPasted(newPlan(), pasteParts(newPlan(), textOf(strip, "lights[0]")));
    expect(plan.photometry).toEqual(strip.photometry);
    const [name] = Object.keys(strip.photometry ?? {});
    const other = { ...newPlan(), photometry: { [name]: "IESNA: another" } };
    expect(pasteParts(other, textOf(strip, "lights[0]"))).toMatchObject({
      ok: false,
      problems: [{ path: "photometry" }],
    });
  });
  it("cutting takes out what is held and nothing else", () => {
    const edited = applyEdit(
      cellist,
      cutEdit(cellist, copyable(cellist, ["meters[0]", "meters[2]", "lights[0]"])),
    );
    if (!edited.ok) throw new Error("not cut");
    expect([edited.plan.lights, edited.plan.meters]).toEqual([[], [cellist.meters[1]]]);
  });
  it.each([
    ["torn", '{"format": "tapemark/parts", "lights": [', /clipboard is torn/],
    ["of a newer Tapemark", '{"format": "tapemark/parts", "version": 9}', /version was copied in a newer/],
    [
      "with something odd",
      '{"format": "tapemark/parts", "version": 1, "camera": {}}',
      /camera is nothing that/,
    ],
    ["empty", '{"format": "tapemark/parts", "version": 1}', /clipboard holds nothing to paste/],
    [
      "wrong",
      '{"format": "tapemark/parts", "version": 1, "lights": [{"name": "a"}]}',
      /lights\[0\]\.position must be/,
    ],
    ["something else", '{"a": "\\"tapemark/parts\\""}', /clipboard is no parts/],
  ])("text that is %s is refused with its place and reason", (_, text, words) => {
    expect(problemsOf(text).join("\n")).toMatch(words);
  });
});

function newPlanIn(width: number, depth: number): Plan {
  const edited = applyEdit(newPlan(), setField("room", ["room"], { width, depth, height: 3.4 }));
  if (!edited.ok) throw new Error("no room");
  return edited.plan;
}
