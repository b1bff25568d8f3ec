import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  addTo,
  aimLight,
  applyEdit,
  begin,
  current,
  type Edit,
  moveCamera,
  moveLight,
  moveMeter,
  movePanel,
  movePerson,
  type Plan,
  parsePlan,
  record,
  redo,
  removeFrom,
  rename,
  seal,
  setBackdrop,
  setCamera,
  setField,
  setLight,
  setMeter,
  setPanel,
  setPerson,
  setRoom,
  turnHead,
  turnLightInPlace,
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
    expect(made(plan, moveLight(plan, 0, plan.lights[0].position))).toBe(plan);
  });
  it("an edit that would make a wrong plan is refused with its problem", () => {
    const refused = applyEdit(demo(), moveLight(demo(), 0, [1, 1, -1]));
    expect(refused).toMatchObject({ ok: false, problems: [{ path: "lights[0].position[2]" }] });
  });
  it("so is one of something that is not there", () => {
    const problem = { path: "lights[3]", what: "must be a light of the plan; there is none here" };
    expect(applyEdit(demo(), setLight(demo(), 3, { on: false }))).toEqual({ ok: false, problems: [problem] });
    expect(applyEdit(demo(), removeFrom(demo(), "lights", 3))).toEqual({ ok: false, problems: [problem] });
    expect(applyEdit(demo(), setField("x", ["lights", 0, "position", 3], 1)).ok).toBe(false);
    expect(applyEdit(demo(), setField("x", ["nowhere", "at"], 1)).ok).toBe(false);
  });
});

describe("[PL13] the operations of the trade, and what they are called", () => {
  const plan = demo();
  it.each<[Edit, string, (p: Plan) => unknown, unknown]>([
    [
      moveLight(plan, 0, [3.1, 3.45, 2.4]),
      "key moved to 3.10, 3.45, 2.40",
      (p) => p.lights[0].position,
      [3.1, 3.45, 2.4],
    ],
    [
      aimLight(plan, 0, [3, 4, 1.5]),
      "key aimed at 3.00, 4.00, 1.50",
      (p) => p.lights[0].direction,
      { at: [3, 4, 1.5] },
    ],
    [
      turnLightInPlace(plan, 0, 315, -30),
      "key turned to 315°, tilt -30°",
      (p) => p.lights[0].direction,
      { bearing: 315, tilt: -30 },
    ],
    [setLight(plan, 0, { on: false }), "key: on false", (p) => p.lights[0].on, false],
    [
      movePanel(plan, 0, [2, 4, 1.2]),
      "V-flat, black moved to 2.00, 4.00, 1.20",
      (p) => p.panels[0].position[0],
      2,
    ],
    [
      setPanel(plan, 0, { reflectance: 0.8 }),
      "V-flat, black: reflectance 0.8",
      (p) => p.panels[0].reflectance,
      0.8,
    ],
    [movePerson(plan, 0, [3, 4]), "cellist moved to 3.00, 4.00", (p) => p.people[0].position, [3, 4]],
    [setPerson(plan, 0, { facing: 190 }), "cellist: facing 190", (p) => p.people[0].facing, 190],
    [turnHead(plan, 0, { turn: 12.5 }), "cellist's head: turn 12.5°", (p) => p.people[0].head.turn, 12.5],
    [moveCamera([3, 1, 1.4]), "camera moved to 3.00, 1.00, 1.40", (p) => p.camera.position[2], 1.4],
    [setCamera({ fNumber: 5.6, iso: 200 }), "camera: f number 5.6, iso 200", (p) => p.camera.iso, 200],
    [moveMeter(plan, 0, [3, 4, 1]), "chin moved to 3.00, 4.00, 1.00", (p) => p.meters[0].position, [3, 4, 1]],
    [setMeter(plan, 0, { receptor: "dome" }), "chin: receptor dome", (p) => p.meters[0].receptor, "dome"],
    [setRoom(null), "no room", (p) => p.room, null],
    [setBackdrop(null), "no backdrop", (p) => p.backdrop, null],
    [rename(plan, "lights", 0, "main"), "key renamed main", (p) => p.lights[0].name, "main"],
    [
      addTo("panels", { position: [1, 1, 1], direction: { bearing: 0 } }),
      "panel added",
      (p) => [p.panels[1].name, p.panels[1].height],
      ["panel 2", 2.4],
    ],
    [removeFrom(plan, "panels", 0), "V-flat, black taken away", (p) => p.panels, []],
  ])("%#: $label", (edit, label, field, value) => {
    expect(edit.label).toBe(label);
    expect(field(made(plan, edit))).toEqual(value);
  });
  it("a room of another size says its size", () => {
    const room = { ...(plan.room as NonNullable<Plan["room"]>), depth: 10 };
    expect(setRoom(room).label).toBe("room 7.00 x 10.00 x 3.40 m");
    expect(made(plan, setRoom(room)).room?.depth).toBe(10);
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
