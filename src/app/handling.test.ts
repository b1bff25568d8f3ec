import { describe, expect, test } from "vitest";
import { applyEdit, checkPlan, directionOf, type Edit, type Plan } from "../plan/index.ts";
import { parseFNumber, parseLengthText, parseShutter } from "./entries.ts";
import { aimOnPaper, dragEdit, FLOOR, keyEdit, SIDE, turnEdit } from "./handling.ts";
import { findObject, listObjects, type PlanObject } from "./objects.ts";

function plan(): Plan {
  const made = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 7, depth: 9, height: 3.4 },
    lights: [
      {
        name: "key",
        position: [4.6, 3.2, 2.3],
        direction: { at: [3.5, 4.2, 1.5] },
        face: { shape: "disc", width: 1.5 },
        output: { lumenSeconds: 1600 },
      },
      {
        name: "rim",
        position: [1, 7, 2],
        direction: { bearing: 140, tilt: -10 },
        face: { shape: "point" },
        output: { lumenSeconds: 100 },
      },
    ],
    people: [{ name: "cellist", position: [3.5, 4.3] }],
    camera: { position: [3.5, 1.2, 1.55] },
    meters: [
      { name: "chin", position: [3.5, 4.1, 1.5], direction: { bearing: 180, tilt: 0 } },
      { name: "paper", position: [3.5, 8, 1.5], direction: { bearing: 180, tilt: 0 } },
    ],
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.plan;
}

function object(of: Plan, owner: string): PlanObject {
  const found = findObject(of, owner);
  if (found === null) throw new Error(`no ${owner}`);
  return found;
}

function planAfter(of: Plan, edit: Edit | null): Plan {
  if (edit === null) throw new Error("no edit");
  const edited = applyEdit(of, edit);
  if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
  return edited.plan;
}

describe("taking hold", () => {
  test("[AP7] every object of the plan can be taken hold of, under the path that the plan gives it", () => {
    expect(listObjects(plan()).map((each) => `${each.owner} ${each.name}`)).toEqual([
      "lights[0] key",
      "lights[1] rim",
      "people[0] cellist",
      "camera camera",
      "meters[0] chin",
      "meters[1] paper",
    ]);
  });

  test("[AP7] dragging snaps to 5 cm, Alt frees it, walls stop it", () => {
    const before = plan();
    const key = object(before, "lights[0]");
    const snapped = planAfter(before, dragEdit(before, key, FLOOR, { across: 4.123, up: 3.482 }, false));
    expect(snapped.lights[0].position).toEqual([4.1, 3.5, 2.3]);
    const free = planAfter(before, dragEdit(before, key, FLOOR, { across: 4.123, up: 3.482 }, true));
    expect(free.lights[0].position).toEqual([4.123, 3.482, 2.3]);
    const wall = planAfter(before, dragEdit(before, key, FLOOR, { across: 9, up: -2 }, false));
    expect(wall.lights[0].position).toEqual([7, 0, 2.3]);
    const ceiling = planAfter(before, dragEdit(before, key, SIDE, { across: 3.2, up: 5 }, false));
    expect(ceiling.lights[0].position).toEqual([4.6, 3.2, 3.4]);
  });

  test("[AP7] a light that aims at a point goes on aiming at it when it is moved", () => {
    const before = plan();
    const moved = planAfter(
      before,
      dragEdit(before, object(before, "lights[0]"), FLOOR, { across: 2, up: 3 }, false),
    );
    expect(moved.lights[0].direction).toEqual({ at: [3.5, 4.2, 1.5] });
  });

  test("[AP7] turning passes through the hand's place, by 5° or freely, and keeps an aim point's distance", () => {
    const before = plan();
    const rim = planAfter(
      before,
      turnEdit(before, object(before, "lights[1]"), FLOOR, { across: 2, up: 6.1 }, false),
    );
    expect(rim.lights[1].direction).toEqual({ bearing: 130, tilt: -10 });
    const key = object(before, "lights[0]");
    const turned = planAfter(before, turnEdit(before, key, FLOOR, { across: 4.6, up: 9 }, true));
    const { bearing_deg, tilt_deg } = directionOf(turned.lights[0].direction, turned.lights[0].position);
    expect(bearing_deg).toBeCloseTo(0, 1);
    expect(tilt_deg).toBeCloseTo(key.tilt_deg, 1);
    const at = (turned.lights[0].direction as { at: number[] }).at;
    expect(Math.hypot(at[0] - 4.6, at[1] - 3.2, at[2] - 2.3)).toBeCloseTo(Math.hypot(1.1, 1, 0.8), 2);
  });

  test("[AP7] on the Side turning tilts, so that the aim as drawn passes through the hand's place", () => {
    const before = plan();
    const rim = object(before, "lights[1]");
    // bearing 140 leads toward the near wall; up 0.4 for 0.5 along the paper
    const tilted = planAfter(before, turnEdit(before, rim, SIDE, { across: 6.5, up: 2.4 }, true));
    const drawn = aimOnPaper(object(tilted, "lights[1]"), SIDE);
    // the tilt is kept to a tenth of a degree
    expect(drawn.up / drawn.across).toBeCloseTo(0.4 / -0.5, 1);
    expect(Math.abs(drawn.up / drawn.across + 0.8)).toBeLessThan(0.01);
  });

  test("[AP7] a meter held at the person goes with the person; one elsewhere stays; it is one step", () => {
    const before = plan();
    const moved = planAfter(
      before,
      dragEdit(before, object(before, "people[0]"), FLOOR, { across: 4, up: 5 }, false),
    );
    expect(moved.people[0].position).toEqual([4, 5]);
    expect(moved.meters[0].position).toEqual([4, 4.8, 1.5]);
    expect(moved.meters[1].position).toEqual([3.5, 8, 1.5]);
  });

  test("[AP8] arrows nudge 1 cm, Shift 10 cm; Alt and arrows, comma and full stop turn 1°", () => {
    const before = plan();
    const rim = object(before, "lights[1]");
    const press = (key: string, more = {}) =>
      planAfter(before, keyEdit(before, [rim], FLOOR, { key, shiftKey: false, altKey: false, ...more }))
        .lights[1];
    expect(press("ArrowRight").position).toEqual([1.01, 7, 2]);
    expect(press("ArrowDown", { shiftKey: true }).position).toEqual([1, 6.9, 2]);
    expect(press(".").direction).toEqual({ bearing: 141, tilt: -10 });
    expect(press(",").direction).toEqual({ bearing: 139, tilt: -10 });
    expect(press("ArrowLeft", { altKey: true }).direction).toEqual({ bearing: 139, tilt: -10 });
    const side = keyEdit(before, [rim], SIDE, { key: "ArrowUp", shiftKey: false, altKey: true });
    expect(planAfter(before, side).lights[1].direction).toEqual({ bearing: 140, tilt: -9 });
    expect(keyEdit(before, [rim], FLOOR, { key: "a", shiftKey: false, altKey: false })).toBeNull();
  });

  test("[AP8] on the Side a person stays on the floor", () => {
    const before = plan();
    const edit = keyEdit(before, [object(before, "people[0]")], SIDE, {
      key: "ArrowUp",
      shiftKey: true,
      altKey: false,
    });
    expect(planAfter(before, edit).people[0].position).toEqual([3.5, 4.3]);
  });
});

describe("typed numbers", () => {
  test("[AP7] f-numbers are marks or stop and tenths; a bare decimal between marks is asked about", () => {
    expect(parseFNumber("f/8 + 0.4")).toEqual({ ok: true, value: 2 ** 3.2 });
    expect(parseFNumber("6.3")).toEqual({ ok: true, value: 2 ** (16 / 6) });
    expect(parseFNumber("8.4")).toMatchObject({ ok: false, why: expect.stringContaining("two ways") });
  });

  test("[AP7] lengths in either unit, shutters as fractions; what is none says what would be", () => {
    expect(parseLengthText("150cm", "metric")).toEqual({ ok: true, value: 1.5 });
    expect(parseLengthText("far", "metric")).toMatchObject({
      ok: false,
      why: expect.stringContaining("150cm"),
    });
    expect(parseShutter("1/160")).toEqual({ ok: true, value: 1 / 160 });
    expect(parseShutter("0,5 s")).toEqual({ ok: true, value: 0.5 });
    expect(parseShutter("1/0")).toMatchObject({ ok: false });
  });
});
