import { describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { ratioUncertaintyStops, uncertaintyStops } from "./certainty.ts";
import {
  computeMap,
  goodToWords,
  Memory,
  notCalibratedWords,
  quickTrier,
  readPlan,
  renderFrame,
} from "./index.ts";

const light = (name: string, x: number, more: object = {}) => ({
  name,
  position: [x, 2.2, 2.1],
  direction: { at: [3, 4.1, 1.5] },
  face: { shape: "disc", width: 0.8 },
  output: { wattSeconds: 300, stopsDown: 3 },
  ...more,
});
const measured = (uncertaintyStops: number, stops = 0) => ({ calibration: { stops, uncertaintyStops } });

function planOf(lights: object[], room: object | null = null): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room,
    lights,
    people: [{ name: "cellist", position: [3, 4.2] }],
    camera: { position: [3, 1, 1.5], direction: { at: [3, 4.2, 1.5] } },
    meters: [
      { name: "chin", position: [3, 4.03, 1.5], direction: { at: [1.5, 2.2, 2.1] }, receptor: "dome" },
    ],
  });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}
const share = (direct: number, bounced = 0) => ({ direct, bounced });

describe("[CA6] how sure a reading is", () => {
  it("one light alone: as sure as the light", () => {
    expect(uncertaintyStops(planOf([light("key", 2, measured(0.3))]), { key: share(80) })).toBeCloseTo(
      0.3,
      12,
    );
  });
  it("two lights: by what each gives, independently of each other", () => {
    const plan = planOf([light("key", 2, measured(0.3)), light("fill", 4, measured(0.8))]);
    const sure = uncertaintyStops(plan, { key: share(75), fill: share(25) });
    expect(sure).toBeCloseTo(Math.hypot(0.75 * 0.3, 0.25 * 0.8), 12);
  });
  it("what comes back from the room adds the room's own doubt; ambient light is taken as given", () => {
    const room = { width: 6, depth: 6, height: 3, calibration: { bounceStops: 0, uncertaintyStops: 0.4 } };
    const plan = planOf([light("key", 2, measured(0.3))], room);
    const sure = uncertaintyStops(plan, { key: share(40, 40), ambient: share(20) });
    expect(sure).toBeCloseTo(Math.hypot(0.8 * 0.3, 0.4 * 0.4), 12);
  });
  it("of two cheeks what both get from one light goes out", () => {
    const plan = planOf([light("key", 2, measured(0.5)), light("fill", 4, measured(0.2))]);
    expect(ratioUncertaintyStops(plan, { key: share(8) }, { key: share(2) })).toBeCloseTo(0, 12);
    const sure = ratioUncertaintyStops(
      plan,
      { key: share(9), fill: share(1) },
      { key: share(1), fill: share(1) },
    );
    expect(sure).toBeCloseTo(Math.hypot(0.4 * 0.5, 0.4 * 0.2), 12);
  });
  it("nothing there has no doubt to tell", () => {
    expect(uncertaintyStops(planOf([light("key", 2)]), {})).toBeNull();
    expect(goodToWords(null)).toBeNull();
  });
  it("agrees with lights turned up by what they may be off", () => {
    const lights = [light("key", 2, measured(0.06)), light("fill", 4.4, measured(0.04))];
    const memory = new Memory();
    const read = (each: object[]) => readPlan(planOf(each), "coarse", memory);
    const before = read(lights);
    const moved = [0, 1].map((i) => {
      const off = lights.map((l, k) => (k === i ? { ...l, ...measured(1, i === 0 ? 0.06 : 0.04) } : l));
      const after = read(off);
      return [
        Math.log2(after.meters[0].luxSeconds / before.meters[0].luxSeconds),
        Math.log2(after.people[0].face.litCheek / before.people[0].face.litCheek),
        (after.people[0].face.ratioStops ?? 0) - (before.people[0].face.ratioStops ?? 0),
      ];
    });
    const each = [0, 1, 2].map((k) => Math.hypot(moved[0][k], moved[1][k]));
    const { uncertaintyStops: meter } = before.meters[0];
    const { litCheekUncertaintyStops: cheek, ratioUncertaintyStops: ratio } = before.people[0].face;
    // first order: a step of six hundredths of a stop is off by its square
    [meter, cheek, ratio].forEach((sure, k) => {
      expect(Math.abs((sure ?? 9) - each[k])).toBeLessThan(0.001);
    });
  });
});

describe("[CA7] in words", () => {
  it.each([
    [0.31, "good to 0.3 stop"],
    [0.04, "good to 0.1 stop"],
    [0.94, "a guess within about one stop"],
    [1.4, "a guess within about one stop"],
  ])("%d stop: %s", (stops, words) => expect(goodToWords(stops)).toBe(words));
  it("says which lights nobody has measured", () => {
    const all = "Not calibrated: within about one stop until a meter has confirmed a reading.";
    const some = "Not calibrated (fill): within about one stop until a meter has confirmed a reading.";
    expect(notCalibratedWords(planOf([light("key", 2), light("fill", 4)]))).toBe(all);
    expect(notCalibratedWords(planOf([light("key", 2, measured(0.1)), light("fill", 4)]))).toBe(some);
    expect(notCalibratedWords(planOf([light("key", 2, measured(0.1))]))).toBeNull();
  });
});

const ROOM = { width: 6, depth: 6, height: 3 };
const MAP = { plane: "floor", at: 1.5, person: 0, reference: { kind: "meter", index: 0 } } as const;
describe("[CA4] [CA5] what was measured shows in every reading", () => {
  const memory = new Memory();
  const up = planOf([light("key", 2, measured(0.1, 0.7))], ROOM);
  const turned = planOf(
    [light("key", 2, { output: { wattSeconds: 300, stopsDown: 2.3 }, ...measured(0.1) })],
    ROOM,
  );
  it("a light 0.7 stop stronger reads as one turned up by 0.7: meters, face, headroom", () => {
    const [a, b] = [up, turned].map((plan) => readPlan(plan, "coarse", memory));
    expect(a.meters[0].luxSeconds / b.meters[0].luxSeconds).toBeCloseTo(1, 12);
    expect(a.people[0].face.litCheek / b.people[0].face.litCheek).toBeCloseTo(1, 12);
    expect(a.camera.headroomStops).toBeCloseTo(b.camera.headroomStops ?? 9, 9);
  });
  it("so it does in frame and map, and where steps are tried", () => {
    const trier = quickTrier(planOf([light("key", 2)], ROOM), 0, memory);
    const [a, b] = [up, turned].map((plan) => ({
      frame: renderFrame(plan, { width: 24, quality: "coarse" }, memory).luminance.reduce((x, y) => x + y, 0),
      map: computeMap(plan, { ...MAP, quality: "coarse" }, memory).luxSeconds.reduce((x, y) => x + y, 0),
      tried: trier.read(plan, ["shadowEdgeMillimetres", "catchlights", "backgroundStops"]).litCheek,
    }));
    expect(a.frame / b.frame).toBeCloseTo(1, 6);
    expect(a.map / b.map).toBeCloseTo(1, 6);
    expect(a.tried / b.tried).toBeCloseTo(1, 9);
  });
  it("a room that sends back more reads as one of that reflectance", () => {
    const odds = (r: number, stops: number) => (2 ** stops * r) / (1 - r + 2 ** stops * r);
    const walls = (stops: number) =>
      Object.fromEntries(
        Object.entries({ floor: 0.35, ceiling: 0.75, near: 0.6, far: 0.6, left: 0.6, right: 0.6 }).map(
          ([wall, r]) => [wall, odds(r, stops)],
        ),
      );
    const calibration = { bounceStops: -0.8, uncertaintyStops: 0.5 };
    const told = readPlan(planOf([light("key", 2)], { ...ROOM, calibration }), "coarse", new Memory());
    const painted = planOf([light("key", 2)], { ...ROOM, reflectance: walls(-0.8) });
    const read = readPlan(painted, "coarse", new Memory());
    expect(told.meters[0].byLight.key.bounced / read.meters[0].byLight.key.bounced).toBeCloseTo(1, 9);
    const plain = readPlan(planOf([light("key", 2)], ROOM), "coarse", new Memory());
    const lost = Math.log2(told.meters[0].byLight.key.bounced / plain.meters[0].byLight.key.bounced);
    // between what is sent back once from the brightest wall (0.75) and what goes round for ever in a closed even room
    expect(lost).toBeGreaterThan(-0.8);
    expect(lost).toBeLessThan(Math.log2(odds(0.75, -0.8) / 0.75));
  });
});
