import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { applyEdit, checkPlan, directionOf, type Edit, type Plan } from "../plan/index.ts";
import { drawFloor } from "../sheet/index.ts";
import { freeName } from "./adding.ts";
import { type Command, commandEdit, ownerAfter, pinnedWords } from "./commands.ts";
import { dragEdit, FLOOR, keyEdit, SIDE } from "./handling.ts";
import { findObject, heldObjects, listObjects, moveObjects } from "./objects.ts";

const SEED = 20_261_124;
const SETUP = {
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
      roll: 12,
    },
    {
      name: "rim",
      position: [1, 7, 2],
      direction: { bearing: 140, tilt: -10 },
      face: { shape: "point" },
      output: { lumenSeconds: 100 },
    },
  ],
  panels: [{ name: "white", position: [2.4, 4, 1.2], direction: { bearing: 100, tilt: 0 } }],
  people: [
    { name: "cellist", position: [3.5, 4.3], head: { turn: -8 } },
    { name: "page turner", position: [2.2, 4.9], facing: 150, head: { turn: 20, tip: 5, tilt: -7 } },
  ],
  backdrop: { kind: "paper", position: [3.4, 8], bearing: 175 },
  camera: { position: [3.5, 1.2, 1.55], direction: { at: [3.5, 4.3, 1.55] } },
  meters: [{ name: "chin", position: [3.5, 4.1, 1.5], direction: { bearing: 180, tilt: 0 } }],
  marks: [{ name: "mark", position: [3.5, 4.3] }],
};

function planOf(document: object = SETUP): Plan {
  const made = checkPlan(document);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.plan;
}

function planAfter(plan: Plan, edit: Edit | null): Plan {
  if (edit === null) throw new Error("no edit");
  const edited = applyEdit(plan, edit);
  if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
  return edited.plan;
}

const hold = (plan: Plan, ...owners: string[]) =>
  heldObjects(plan, { selected: owners[0] ?? null, also: owners.slice(1) });
const ask = (plan: Plan, owners: string[], command: Command, person = 0) =>
  commandEdit(plan, hold(plan, ...owners), command, person);

function pinned(plan: Plan, ...owners: string[]): Plan {
  return planAfter(plan, ask(plan, owners, "pin").edit);
}

describe("several things held", () => {
  test("[AP20] they move by as much as each other, as one edit; the first that meets a wall stops them all", () => {
    const plan = planOf();
    const key = findObject(plan, "lights[0]");
    if (key === null) throw new Error("no key");
    const along = hold(plan, "lights[1]", "panels[0]");
    const moved = planAfter(plan, dragEdit(plan, key, FLOOR, { across: 4.3, up: 4 }, false, along));
    expect(moved.lights[0].position).toEqual([4.3, 4, 2.3]);
    expect(moved.lights[1].position).toEqual([0.7, 7.8, 2]);
    expect(moved.panels[0].position).toEqual([2.1, 4.8, 1.2]);
    const stopped = planAfter(plan, dragEdit(plan, key, FLOOR, { across: 0.5, up: 3.2 }, false, along));
    // the rim light stood a metre from the left wall
    expect(stopped.lights.map((light) => light.position[0])).toEqual([3.6, 0]);
    expect(stopped.panels[0].position[0]).toBe(1.4);
  });

  test("[AP20] nudged and turned together; on the Side what stands on the floor stays there", () => {
    const plan = planOf();
    const held = hold(plan, "lights[1]", "people[0]");
    const key = { key: "ArrowUp", shiftKey: true, altKey: false };
    const raised = planAfter(plan, keyEdit(plan, held, SIDE, key));
    expect(raised.lights[1].position).toEqual([1, 7, 2.1]);
    expect(raised.people[0].position).toEqual([3.5, 4.3]);
    const turned = planAfter(plan, keyEdit(plan, held, FLOOR, { ...key, key: ",", shiftKey: false }));
    expect(turned.lights[1].direction).toEqual({ bearing: 139, tilt: -10 });
    expect(turned.people[0].facing).toBe(179);
  });

  test("[AP20] an aim at somebody who goes along goes along, and keeps its height; alone it stays", () => {
    const plan = planOf();
    const by = [0.5, -0.5, 0] as const;
    const both = planAfter(plan, moveObjects(plan, hold(plan, "lights[0]", "people[0]"), by as never));
    expect(both.lights[0].direction).toEqual({ at: [4, 3.7, 1.5] });
    // the meter at the chin goes with the person, once
    expect(both.meters[0].position).toEqual([4, 3.6, 1.5]);
    const alone = planAfter(plan, moveObjects(plan, hold(plan, "lights[0]"), by as never));
    expect(alone.lights[0].direction).toEqual({ at: [3.5, 4.2, 1.5] });
  });

  test("[AP20] what an undo took away is no longer held", () => {
    expect(hold(planOf(), "lights[7]", "lights[1]", "nothing").map(({ owner }) => owner)).toEqual([
      "lights[1]",
    ]);
  });

  test("[AP20] all are taken away as one edit, but for the camera", () => {
    const plan = planOf();
    const owners = listObjects(plan).map(({ owner }) => owner);
    const asked = ask(plan, owners, "take away");
    const empty = planAfter(plan, asked.edit);
    expect(listObjects(empty).map(({ owner }) => owner)).toEqual(["camera"]);
    expect(asked.why).toMatch(/camera stays/);
    expect(asked.edit?.label).toBe("take away key and 7 more");
  });

  test("[AP20] what others are called once something is gone", () => {
    const plan = planOf();
    const gone = hold(plan, "lights[0]", "people[1]");
    expect(ownerAfter("lights[1]", gone)).toBe("lights[0]");
    expect(ownerAfter("lights[0]", gone)).toBeNull();
    expect(ownerAfter("people[0]", gone)).toBe("people[0]");
    expect(ownerAfter("camera", gone)).toBe("camera");
    expect(ownerAfter(null, gone)).toBeNull();
  });
});

describe("marks", () => {
  const near = (free: boolean, at: readonly [number, number]) => {
    const plan = planOf({ ...SETUP, marks: [{ name: "mark", position: [5.03, 6.02] }] });
    const person = findObject(plan, "people[0]");
    if (person === null) throw new Error("nobody");
    return planAfter(plan, dragEdit(plan, person, FLOOR, { across: at[0], up: at[1] }, free)).people[0]
      .position;
  };
  test("[AP21] a person comes onto a mark within 8 cm, and no farther away; Alt leaves him where he is", () => {
    expect(near(false, [5.1, 6.03])).toEqual([5.03, 6.02]);
    expect(near(false, [5.11, 6.06])).toEqual([5.1, 6.05]);
    expect(near(true, [5.1, 6.03])).toEqual([5.1, 6.03]);
  });
});

describe("copies", () => {
  test("[AP23] each has a free name, one step aside, aims as the first does; copies are held", () => {
    const plan = pinned(planOf(), "lights[0]");
    const asked = ask(plan, ["lights[0]", "lights[1]", "meters[0]"], "duplicate");
    const copied = planAfter(plan, asked.edit);
    expect(copied.lights.map((light) => light.name)).toEqual(["key", "rim", "key 2", "rim 2"]);
    expect(copied.lights[2]).toMatchObject({ position: [4.9, 3.2, 2.3], pinned: false, roll: 12 });
    expect(copied.lights[2].direction).toEqual(copied.lights[0].direction);
    expect(asked.holds).toEqual(["lights[2]", "lights[3]", "meters[1]"]);
    const again = planAfter(copied, ask(copied, ["lights[2]"], "duplicate").edit);
    expect(again.lights[4].name).toBe("key 3");
  });
  test("[AP23] at the right wall the copy stands to the left; there is one camera and one backdrop", () => {
    const plan = planOf({ ...SETUP, marks: [{ name: "mark", position: [6.9, 0.1] }] });
    const copied = planAfter(plan, ask(plan, ["marks[0]", "camera"], "duplicate").edit);
    expect(copied.marks[1].position).toEqual([6.6, 0.1]);
    expect(ask(plan, ["camera"], "duplicate")).toEqual({
      edit: null,
      why: expect.stringContaining("one camera"),
    });
    expect(ask(plan, ["backdrop"], "duplicate").edit).toBeNull();
  });
  test(`[AP23] a free name is none of those taken and fits into a plan (seed ${SEED})`, () => {
    const name = fc.oneof(fc.string({ minLength: 1, maxLength: 80 }), fc.stringMatching(/^key( [1-4])?$/));
    fc.assert(
      fc.property(name, fc.array(fc.stringMatching(/^key( [1-9])?$/)), (like, taken) => {
        const free = freeName(like, [...taken, like]);
        expect([...taken, like]).not.toContain(free);
        expect(free.length).toBeLessThanOrEqual(80);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });
});

describe("the other side of the sitter", () => {
  test("[AP24] places, bearings, points and roll change sides; the sitter and his head stay; another turns his head the other way", () => {
    const plan = planOf();
    const owners = listObjects(plan).map(({ owner }) => owner);
    const mirrored = planAfter(plan, ask(plan, owners, "mirror").edit);
    expect(mirrored.lights[0]).toMatchObject({
      position: [2.4, 3.2, 2.3],
      direction: { at: [3.5, 4.2, 1.5] },
      roll: -12,
    });
    expect(mirrored.lights[1]).toMatchObject({ position: [6, 7, 2], direction: { bearing: 220, tilt: -10 } });
    expect(mirrored.backdrop).toMatchObject({ position: [3.6, 8], bearing: 185 });
    expect(mirrored.people[0]).toEqual(plan.people[0]);
    expect(mirrored.people[1]).toMatchObject({
      position: [4.8, 4.9],
      facing: 210,
      head: { turn: -20, tip: 5, tilt: 7 },
    });
  });

  test("[AP24] what would stand outside the room is named and nothing is mirrored; without anybody there is no axis", () => {
    const plan = planOf({ ...SETUP, people: [{ name: "cellist", position: [1, 4] }] });
    expect(ask(plan, ["lights[0]", "lights[1]"], "mirror")).toEqual({
      edit: null,
      why: expect.stringMatching(/^key would stand outside the room/),
    });
    expect(ask(plan, ["people[0]"], "mirror").edit).toBeNull();
    expect(ask(planOf({ ...SETUP, people: [] }), ["lights[0]"], "mirror")).toMatchObject({ edit: null });
  });

  const metre = (low: number, high: number) =>
    fc.integer({ min: low * 1000, max: high * 1000 }).map((v) => v / 1000);
  const tenths = (low: number, high: number) =>
    fc.integer({ min: low * 10, max: high * 10 }).map((v) => v / 10);
  const place = fc.tuple(metre(-20, 20), metre(-20, 20), metre(0, 4));
  const aim = fc.oneof(
    fc.record({ bearing: tenths(0, 359), tilt: tenths(-90, 90) }),
    fc.record({ at: fc.tuple(metre(30, 40), metre(-20, 20), metre(0, 4)) }),
  );
  const setup = fc.record({
    key: fc.tuple(place, aim, tenths(-180, 180)),
    panel: fc.tuple(place, aim),
    other: fc.tuple(metre(-20, 20), metre(-20, 20), tenths(0, 359), tenths(-90, 90)),
    sitter: fc.tuple(metre(-20, 20), metre(-20, 20), tenths(0, 359)),
  });

  test(`[AP24] mirrored twice everything is as before, and once as far from the axis on the other side (seed ${SEED})`, () => {
    fc.assert(
      fc.property(setup, ({ key, panel, other, sitter }) => {
        const plan = planOf({
          ...SETUP,
          room: null,
          lights: [{ ...SETUP.lights[0], position: key[0], direction: key[1], roll: key[2] }],
          panels: [{ name: "white", position: panel[0], direction: panel[1] }],
          people: [
            { name: "cellist", position: sitter.slice(0, 2), facing: sitter[2] },
            { name: "other", position: other.slice(0, 2), facing: other[2], head: { turn: other[3] } },
          ],
        });
        const owners = listObjects(plan).map(({ owner }) => owner);
        const once = planAfter(plan, ask(plan, owners, "mirror").edit);
        const twice = planAfter(once, ask(once, owners, "mirror").edit);
        for (const object of listObjects(plan)) {
          const back = findObject(twice, object.owner);
          const over = findObject(once, object.owner);
          if (back === null || over === null) throw new Error(object.owner);
          const turned = Math.abs(back.bearing_deg - object.bearing_deg) % 360;
          expect(Math.min(turned, 360 - turned)).toBeLessThan(1e-4);
          for (const axis of [0, 1, 2] as const) {
            // a plan keeps micrometres
            expect(Math.abs(back.position[axis] - object.position[axis])).toBeLessThan(2.5e-6);
          }
          const away = (p: readonly number[]) =>
            Math.hypot((p[0] as number) - sitter[0], (p[1] as number) - sitter[1]);
          expect(away(over.position)).toBeCloseTo(away(object.position), 5);
          expect(over.tilt_deg).toBeCloseTo(object.tilt_deg, 3);
        }
        expect(twice.lights[0].roll).toBeCloseTo(plan.lights[0].roll, 6);
        expect(twice.people[1].head).toEqual(plan.people[1].head);
        expect(once.people[0]).toEqual(plan.people[0]);
        const aimed = directionOf(twice.lights[0].direction, twice.lights[0].position);
        expect(aimed.tilt_deg).toBeCloseTo(
          directionOf(plan.lights[0].direction, plan.lights[0].position).tilt_deg,
          3,
        );
      }),
      { seed: SEED, numRuns: 200 },
    );
  });
});

describe("pins", () => {
  test("[AP25] a pin is put in by one edit, for all that are held, and taken out by the next", () => {
    const plan = planOf();
    const owners = listObjects(plan).map(({ owner }) => owner);
    const first = pinned(plan, "lights[0]");
    expect(listObjects(first).filter((object) => object.pinned)).toHaveLength(1);
    const all = pinned(first, ...owners);
    expect(listObjects(all).every((object) => object.pinned)).toBe(true);
    expect(listObjects(pinned(all, ...owners)).some((object) => object.pinned)).toBe(false);
  });
  test("[AP25] among several what is pinned stays, and is named", () => {
    const plan = pinned(planOf(), "lights[0]");
    const gone = ask(plan, ["lights[0]", "lights[1]"], "take away");
    expect(planAfter(plan, gone.edit).lights.map((light) => light.name)).toEqual(["key"]);
    expect(gone.why).toBe("key is pinned and stays.");
    const over = ask(plan, ["lights[0]", "panels[0]"], "mirror");
    const mirrored = planAfter(plan, over.edit);
    expect(mirrored.lights).toEqual(plan.lights);
    expect(mirrored.panels).not.toEqual(plan.panels);
    expect(ask(plan, ["lights[0]"], "take away")).toMatchObject({
      edit: null,
      why: "key is pinned and stays.",
    });
    expect(pinnedWords(hold(pinned(plan, "camera"), "lights[0]", "camera"))).toBe(
      "key and 1 more are pinned and stay.",
    );
  });
  test("[AP25] a pinned meter stays when the person it is held at is moved", () => {
    const plan = pinned(planOf(), "meters[0]");
    const moved = planAfter(plan, moveObjects(plan, hold(plan, "people[0]"), [1, 0, 0]));
    expect(moved.meters[0].position).toEqual(plan.meters[0].position);
  });
});

test(`[AP29] wherever something is dragged to, its drawn middle is its place in the plan (seed ${SEED})`, () => {
  const spot = fc.record({
    across: fc.double({ min: -1, max: 8, noNaN: true }),
    up: fc.double({ min: -1, max: 10, noNaN: true }),
    free: fc.boolean(),
  });
  fc.assert(
    fc.property(
      spot,
      fc.constantFrom("lights[0]", "panels[0]", "meters[0]", "marks[0]", "camera"),
      (to, owner) => {
        const plan = planOf();
        const object = findObject(plan, owner);
        if (object === null) throw new Error(owner);
        const moved = planAfter(plan, dragEdit(plan, object, FLOOR, to, to.free));
        const label = drawFloor(moved).labels.find((each) => each.owner === owner);
        const [x, y] = findObject(moved, owner)?.position ?? [];
        expect(label?.at).toEqual([x, y]);
        if (!to.free && to.across > 0 && to.across < 7) {
          expect(x).toBeCloseTo(Math.round(to.across / 0.05) * 0.05, 9);
        }
      },
    ),
    { seed: SEED, numRuns: 60 },
  );
});
