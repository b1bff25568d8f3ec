import { describe, expect, test } from "vitest";
import cellistFile from "../../examples/cellist.json";
import { applyEdit, checkPlan, type Edit, type Plan, placeOf } from "../plan/index.ts";
import { addReading, changeReading, draftOf, firstDraft, removeReading, settled } from "./readings-draft.ts";
import { parseMeter } from "./readings-entries.ts";
import { aimsOf, heldPlaces, lightWords, receptorsOf, whereWords } from "./readings-places.ts";
import { plannedFace } from "./shoot-planned.ts";

const parsed = checkPlan(cellistFile);
if (!parsed.ok) throw new Error("the example is a plan");
const PLAN = parsed.plan;

function edited(plan: Plan, edit: Edit | null): Plan {
  if (edit === null) throw new Error("nothing to do");
  const edited = applyEdit(plan, edit);
  if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
  return edited.plan;
}

describe("[AP103] what a meter shows", () => {
  test.each([
    ["8 4", 8 * 2 ** 0.2],
    ["f/8 + 0.4", 8 * 2 ** 0.2],
    ["5.6 0", 2 ** 2.5],
    ["5,6 3", 2 ** 2.65],
    ["11", 2 ** 3.5],
    ["6.3", 2 ** (8 / 3)],
  ])("%s is %d", (typed, fNumber) => {
    const read = parseMeter(typed);
    expect(read.ok && read.value).toBeCloseTo(fNumber, 9);
  });

  test("a bare decimal is asked about, what is on no lens refused", () => {
    expect(parseMeter("8.4")).toMatchObject({ ok: false, meanings: [{ text: "f/8 + 0.4" }, {}] });
    expect(parseMeter("9 4").ok).toBe(false);
    expect(parseMeter("").ok).toBe(false);
  });
});

describe("[AP104] what goes together", () => {
  test("the plan's meters and everybody's chin can be held at; a spot meter looks at what the plan says", () => {
    const places = heldPlaces(PLAN);
    expect(places.map(({ name }) => name)).toEqual(["chin", "dome", "paper", "cellist's chin"]);
    const [chin, , paper, own] = places as [
      (typeof places)[0],
      unknown,
      (typeof places)[0],
      (typeof places)[0],
    ];
    expect(aimsOf(PLAN, chin, "key", "flat")).toEqual(["planned", "camera", "light"]);
    expect(aimsOf(PLAN, paper, "key", "spot")).toEqual(["planned"]);
    expect(aimsOf(PLAN, own, "key", "dome")).toEqual(["camera", "light"]);
    expect(receptorsOf(own)).not.toContain("spot");
    // before the chin, not in it
    expect(own.position[1]).toBeLessThan(4.52);
    expect(own.position[2]).toBeCloseTo(1.5, 1);
  });

  test("a choice that no longer goes with the others is put right", () => {
    const spot = settled(PLAN, { ...firstDraft(PLAN), at: "meter paper", receptor: "spot" });
    expect(spot).toMatchObject({ receptor: "spot", aim: "planned" });
    expect(settled(PLAN, { ...spot, at: "chin cellist" })).toMatchObject({ receptor: "dome", aim: "camera" });
    expect(settled(PLAN, { ...spot, light: "gone" }).light).toBe("all");
  });

  test("a changed reading keeps the lights as they stood", () => {
    const read = edited(PLAN, addReading(PLAN, { ...firstDraft(PLAN), light: "key", fNumber: 8 }));
    const moved = edited(read, {
      kind: "set",
      label: "key up",
      fields: [{ path: ["lights", 0, "position"], value: [4.45, 3.55, 2.8] }],
    });
    const draft = { ...draftOf(moved, moved.readings[0] as never), fNumber: 11 };
    const changed = edited(moved, changeReading(moved, 0, draft));
    expect(changed.readings[0]).toMatchObject({ fNumber: 11, name: "reading 1" });
    expect(changed.readings[0]?.stood?.[0]?.position).toEqual([4.45, 3.55, 2.45]);
  });
});

describe("[AP103] a reading in the plan", () => {
  test("each is one step, under a name of its own, and can be taken away", () => {
    const draft = settled(PLAN, { ...firstDraft(PLAN), at: "chin cellist", receptor: "dome", aim: "light" });
    expect(addReading(PLAN, draft)).toBeNull();
    const one = edited(PLAN, addReading(PLAN, { ...draft, fNumber: 8 }));
    const two = edited(one, addReading(one, { ...draft, light: "key", fNumber: 9.2 }));
    expect(two.readings.map(({ name }) => name)).toEqual(["reading 1", "reading 2"]);
    expect(placeOf(two, two.readings[0] as never)).toMatchObject({
      receptor: "dome",
      direction: { at: PLAN.lights[0]?.position },
    });
    expect(whereWords(two, two.readings[0] as never, "metric")).toBe(
      "at the cellist's chin, dome, to the light",
    );
    expect(lightWords("all")).toBe("all lights");
    expect(edited(two, removeReading(two, 0)).readings.map(({ name }) => name)).toEqual(["reading 2"]);
  });
});

test("[AP95] the planned light as the camera sees it: the head's own axes turned with head and camera", () => {
  // somebody who faces the lens squarely, level with it: the head's own left is picture right
  const square = edited(PLAN, {
    kind: "set",
    label: "square",
    fields: [
      { path: ["people", 0, "head"], value: { follows: "camera", turn: 0, tip: 0, tilt: 0 } },
      { path: ["camera", "direction"], value: { at: [3.5, 4.6, 1.5] } },
    ],
  });
  const face = plannedFace(square, 0, { azimuth: 35, elevation: 20 });
  expect(face?.fromCamera.azimuth).toBeCloseTo(35, 0);
  // the nose points at the lens from a little above or below
  expect(Math.abs((face?.fromCamera.elevation ?? 0) - 20)).toBeLessThan(3);
  expect(face?.x).toBeCloseTo(0.5, 1);
  expect(plannedFace(square, 0, { azimuth: null, elevation: null })).toBeNull();
  expect(plannedFace(square, 5, { azimuth: 0, elevation: 0 })).toBeNull();
});
