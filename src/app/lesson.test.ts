import { describe, expect, test } from "vitest";
import { applyEdit, type Plan } from "../plan/index.ts";
import { computeMap, Memory, readPlan } from "../reading/index.ts";
import { bridgeOf } from "./layer-height.ts";
import { factsOf, powerAtFace, type Seen, stopsBehind, TASKS } from "./lesson-facts.ts";
import { carry, lessonPlan, lightPlace, type Topic } from "./lesson-plan.ts";

const memory = new Memory();

function see(plan: Plan): Seen {
  const [who] = readPlan(plan, "coarse", memory).people;
  const at = bridgeOf(plan, 0)?.[2] ?? 0;
  const request = { plane: "floor", at, person: 0, reference: { kind: "person", index: 0 } } as const;
  if (who === undefined) throw new Error("nobody");
  return { plan, who, map: computeMap(plan, { ...request, quality: "fine" }, memory) };
}

function carried(plan: Plan, by: Parameters<typeof carry>[2]): Plan {
  const edit = carry(plan, "carried", by);
  const edited = edit && applyEdit(plan, edit);
  if (!edited?.ok) throw new Error(JSON.stringify(edited));
  return edited.plan;
}

const opening = { direction: lessonPlan("direction"), power: lessonPlan("power") };
const fact = (topic: Topic, name: string, seen: Seen, first: Seen) =>
  factsOf(topic, "metric")
    .find((each) => each.name === name)
    ?.of(seen, first);

describe("the page about direction", () => {
  const first = see(opening.direction);

  test("[AP77] it begins with a loop whose tip is told", () => {
    expect(first.who.face.pattern).toBe("loop");
    expect(fact("direction", "nose’s shadow", first, first)).toMatch(/mm to own right, \d+ mm down/);
  });

  test("[AP77] a stop nearer or farther along its line leaves direction, pattern and shadow where they are", () => {
    for (const away of [Math.SQRT1_2, Math.SQRT2]) {
      const { who } = see(carried(opening.direction, { away }));
      const [now, then] = [who.face, first.who.face];
      expect(now.pattern).toBe("loop");
      // the text's "not quite": seen from the bridge the angle is the same, from the nose's tip it is not
      expect(Math.abs((now.light.azimuth ?? 99) - (then.light.azimuth ?? 0))).toBeLessThan(0.5);
      expect(Math.abs((now.light.elevation ?? 99) - (then.light.elevation ?? 0))).toBeLessThan(0.5);
      for (const side of ["leftMillimetres", "upMillimetres"] as const)
        expect(Math.abs((now.noseShadow?.[side] ?? 99) - (then.noseShadow?.[side] ?? 0))).toBeLessThan(2);
    }
  });

  test("[AP77] round and up by 10° move the shadow, and the power stays", () => {
    for (const by of [{ round: -10 }, { up: 10 }]) {
      const seen = see(carried(opening.direction, by));
      const [now, then] = [seen.who.face.noseShadow, first.who.face.noseShadow];
      const moved = Math.hypot(
        (now?.leftMillimetres ?? 0) - (then?.leftMillimetres ?? 0),
        (now?.upMillimetres ?? 0) - (then?.upMillimetres ?? 0),
      );
      expect(moved).toBeGreaterThan(3);
      expect(Math.abs(Math.log2(powerAtFace(seen) / powerAtFace(first)))).toBeLessThan(0.05);
    }
  });

  test("[AP77] the camera walks round: with the head still nothing on the face changes, else everything", () => {
    const walk = (follows: "nothing" | "camera") => {
      const edited = applyEdit(opening.direction, {
        kind: "set",
        label: "walk round",
        fields: [
          { path: ["camera", "position"], value: [0.6, 1.2, 1.6] },
          { path: ["people", 0, "head", "follows"], value: follows },
        ],
      });
      if (!edited.ok) throw new Error(JSON.stringify(edited.problems));
      return see(edited.plan).who.face;
    };
    expect(walk("nothing").light).toEqual(first.who.face.light);
    expect(walk("nothing").side).not.toBe(first.who.face.side);
    expect(
      Math.abs((walk("camera").light.azimuth ?? 0) - (first.who.face.light.azimuth ?? 0)),
    ).toBeGreaterThan(20);
  });

  test("[AP76] its three tasks are open at first and can be reached", () => {
    const done = (plan: Plan) => TASKS.direction.map((task) => task.isDone(see(plan), first));
    expect(done(opening.direction)).toEqual([false, false, false]);
    expect(done(carried(opening.direction, { round: -34, up: 10 }))[0]).toBe(true);
    expect(done(carried(opening.direction, { round: 15 }))[1]).toBe(true);
    expect(done(carried(opening.direction, { away: 0.78 / 1.2112 }))[2]).toBe(true);
  });
});

describe("the page about power", () => {
  const first = see(opening.power);
  const width = 0.9;

  /** A dome turned to the middle of an even disc reads pi L ((1 - cos a) + sin² a / 2), a the half-angle of the disc: from
   * 2 x scalar + vector / 2, with scalar and vector of a disc on its axis (published-checks sections 5 and 8). */
  const domeOnAxis = (away_m: number) => {
    const a = Math.atan(width / 2 / away_m);
    return 1 - Math.cos(a) + Math.sin(a) ** 2 / 2;
  };

  test("[AP78] the meter says what a disc's own formula says, at every distance", () => {
    // the map's cells are not asked: the reference is traced; two hundredths of a stop are its rays
    for (const away of [0.5, Math.SQRT1_2, Math.SQRT2, 2]) {
      const seen = see(carried(opening.power, { away }));
      const [d, d0] = [lightPlace(seen.plan)?.away_m ?? 0, lightPlace(first.plan)?.away_m ?? 0];
      const read = Math.log2(powerAtFace(seen) / powerAtFace(first));
      expect(Math.abs(read - Math.log2(domeOnAxis(d) / domeOnAxis(d0)))).toBeLessThan(0.02);
    }
  });

  test("[AP78] the law is kept far off and fails near by, and says so", () => {
    const far = see(carried(opening.power, { away: 2 }));
    expect(fact("power", "the law says", far, first)).toBe("−2.0 stops");
    expect(fact("power", "the meter says", far, first)).toMatch(/^−1\.[89] stops$/);
    const near = see(carried(opening.power, { away: 0.5 }));
    expect(fact("power", "the law says", near, first)).toBe("+2.0 stops");
    expect(fact("power", "the meter says", near, first)).toMatch(/^\+1\.[67] stops$/);
  });

  test("[AP78] where it comes from stays, and near light falls off faster", () => {
    const [far, near] = [
      see(carried(opening.power, { away: 2 })),
      see(carried(opening.power, { away: 0.5 })),
    ];
    for (const seen of [far, near])
      expect(
        Math.abs((seen.who.face.light.elevation ?? 0) - (first.who.face.light.elevation ?? 9)),
      ).toBeLessThan(1);
    expect(stopsBehind(near)).toBeLessThan((stopsBehind(first) ?? 0) - 0.5);
    expect(stopsBehind(far)).toBeGreaterThan((stopsBehind(first) ?? 0) + 0.4);
  });

  test("[AP76] its three tasks are open at first and can be reached", () => {
    const done = (plan: Plan) => TASKS.power.map((task) => task.isDone(see(plan), first));
    expect(done(opening.power)).toEqual([false, false, false]);
    const ways = Array.from({ length: 41 }, (_, i) => 0.7 + 0.01 * i);
    expect(ways.some((away) => done(carried(opening.power, { away }))[0])).toBe(true);
    expect(done(carried(opening.power, { away: 2.06 }))).toEqual([false, true, true]);
    const dial = applyEdit(opening.power, {
      kind: "set",
      label: "two stops down",
      fields: [{ path: ["lights", 0, "output", "lumenSeconds"], value: 210 }],
    });
    if (!dial.ok) throw new Error("refused");
    // by the dial it is not by distance
    expect(done(dial.plan)[1]).toBe(false);
  });
});
