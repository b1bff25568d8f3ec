import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  applyEdit,
  begin,
  current,
  type Edit,
  type Plan,
  parsePlan,
  record,
  redo,
  seal,
  setField,
  undo,
} from "./index.ts";

function demo(): Plan {
  const parsed = parsePlan(readFileSync("examples/cellist.json", "utf8"));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.plan;
}

function made(plan: Plan, edit: Edit): Plan {
  const edited = applyEdit(plan, edit);
  if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
  return edited.plan;
}

describe("[PL12] an edit makes a new plan, or is refused and makes none", () => {
  it("the old plan stays, and what is not touched is shared", () => {
    const before = demo();
    const text = JSON.stringify(before);
    const plan = made(before, setField("key up", ["lights", 0, "position", 2], 2.6));
    expect(plan.lights[0].position[2]).toBe(2.6);
    expect(JSON.stringify(before)).toBe(text);
    expect(plan.people).toBe(before.people);
    expect(plan.lights[0].face).toBe(before.lights[0].face);
    expect(plan.lights[0]).not.toBe(before.lights[0]);
  });
  it("an edit that changes nothing gives back the plan itself", () => {
    const plan = demo();
    expect(made(plan, setField("key stays", ["lights", 0, "position"], plan.lights[0].position))).toBe(plan);
  });
  it("an edit that would make a wrong plan is refused with its problem", () => {
    const refused = applyEdit(demo(), setField("key into the floor", ["lights", 0, "position"], [1, 1, -1]));
    expect(refused).toMatchObject({ ok: false, problems: [{ path: "lights[0].position[2]" }] });
  });
  it("so is one of something that is not there", () => {
    const problem = { path: "lights[3]", what: "must be a light of the plan; there is none here" };
    expect(applyEdit(demo(), setField("off", ["lights", 3, "on"], false))).toEqual({
      ok: false,
      problems: [problem],
    });
    expect(applyEdit(demo(), { kind: "remove", label: "", list: "lights", index: 3 })).toEqual({
      ok: false,
      problems: [problem],
    });
    expect(applyEdit(demo(), setField("x", ["lights", 0, "position", 3], 1)).ok).toBe(false);
    expect(applyEdit(demo(), setField("x", ["nowhere", "at"], 1)).ok).toBe(false);
  });
});

describe("[PL13] edits of the lists, and several as one", () => {
  const plan = demo();
  it("what is added is filled in; what is taken away leaves the rest in order", () => {
    const item = { position: [1, 1, 1], direction: { bearing: 0 } };
    const added = made(plan, { kind: "add", label: "add a panel", list: "panels", item });
    expect([added.panels[1].name, added.panels[1].height]).toEqual(["panel 2", 2.4]);
    expect(made(added, { kind: "remove", label: "", list: "panels", index: 0 }).panels).toEqual([
      added.panels[1],
    ]);
  });
  it("several edits are one: each sees what the one before it made", () => {
    const swapped = made(plan, {
      kind: "several",
      label: "the meters change names",
      edits: [
        setField("", ["meters", 0, "name"], plan.meters[1].name),
        setField("", ["meters", 1, "name"], plan.meters[0].name),
        { kind: "remove", label: "", list: "meters", index: 2 },
      ],
    });
    expect(swapped.meters.map((m) => m.name)).toEqual(["dome", "chin"]);
  });
  it("if one of several cannot be, none is made", () => {
    const refused = applyEdit(plan, {
      kind: "several",
      label: "",
      edits: [setField("", ["camera", "iso"], 200), { kind: "remove", label: "", list: "lights", index: 4 }],
    });
    expect(refused).toMatchObject({ ok: false, problems: [{ path: "lights[4]" }] });
  });
});

describe("[GR19] a front that is changed is not the modifier any more that it was named after", () => {
  const path = ["lights", 0] as const;
  const head = { recycle: 1, name: "studio head", modifier: "octa 150" };
  const named = made(demo(), setField("put on", [...path, "head"], head));
  const modifierAfter = (edit: Edit) => made(named, edit).lights[0]?.head?.modifier;

  it("another shape or size takes the name off, and leaves the head", () => {
    expect(modifierAfter(setField("width", [...path, "face", "width"], 1.2))).toBeUndefined();
    const disc = { shape: "disc", width: 1.5 };
    expect(modifierAfter(setField("round", [...path, "face"], disc))).toBeUndefined();
    const after = made(named, setField("round", [...path, "face"], disc)).lights[0].head;
    expect(after).toMatchObject({ recycle: 1, name: "studio head" });
  });
  it("the same again, another place, or an edit that names one leave what is said", () => {
    const { face } = named.lights[0];
    expect(made(named, setField("same", [...path, "face"], face))).toBe(named);
    expect(modifierAfter(setField("up", [...path, "position", 2], 2.5))).toBe("octa 150");
    const fields = [
      { path: [...path, "face", "width"], value: 1.2 },
      { path: [...path, "head"], value: { ...head, modifier: "octa 120" } },
    ];
    expect(modifierAfter({ kind: "set", label: "put on", fields })).toBe("octa 120");
  });
});

describe("[PL14] undo and redo", () => {
  const plan = demo();
  const raised = (z: number) => made(plan, setField("key", ["lights", 0, "position", 2], z));

  it("a drag is one step until it is let go", () => {
    let h = begin(plan);
    for (const z of [2.5, 2.6, 2.7]) h = record(h, "key moved", raised(z), "drag");
    expect(h.steps.length).toBe(2);
    expect(current(undo(h))).toBe(plan);
    expect(current(redo(undo(h))).lights[0].position[2]).toBe(2.7);
    h = record(seal(h), "key moved", raised(2.8), "drag");
    expect(h.steps.map((s) => s.label)).toEqual(["opened", "key moved", "key moved"]);
  });
  it("an edit after undo takes the place of what was undone", () => {
    let h = record(record(begin(plan), "a", raised(2.5)), "b", raised(2.6));
    h = record(undo(h), "c", raised(2.7));
    expect(h.steps.map((s) => s.label)).toEqual(["opened", "a", "c"]);
    expect(redo(h)).toBe(h);
  });
  it("at either end nothing happens, and the history is plain data", () => {
    const h = begin(plan);
    expect(undo(h)).toBe(h);
    expect(redo(h)).toBe(h);
    const kept = record(h, "a", raised(2.5));
    expect(JSON.parse(JSON.stringify(kept))).toEqual(kept);
  });
});
