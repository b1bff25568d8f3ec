import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checkPlan, type Plan, parsePlan } from "../plan/index.ts";
import { Memory, readPlan, Stopped } from "../reading/index.ts";
import { HOLD_TOLERANCES } from "./hold-asked.ts";
import { type HoldLimit, type HoldZone, holdZone } from "./index.ts";

function example(name: string): Plan {
  const parsed = parsePlan(readFileSync(`examples/${name}.json`, "utf8"));
  if (!parsed.ok) throw new Error(parsed.problems[0].what);
  return parsed.plan;
}

/** One bare flash level with the eyes, `far` from the mark, straight ahead of somebody who looks at it: open space. */
function ahead(far: number, hold: object, more: object = {}): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    lights: [
      {
        name: "key",
        position: [0, -far, 1.6],
        direction: { at: [0, 0, 1.6] },
        face: { shape: "point" },
        output: { lumenSeconds: 8000 },
      },
    ],
    people: [{ name: "cellist", position: [0, 0], facing: 180 }],
    camera: { position: [0, -6, 1.6], direction: { at: [0, 0, 1.6] } },
    brief: { hold },
    ...more,
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

const zoneOf = (plan: Plan, memory = new Memory()) => holdZone(plan, 0, memory, () => true);
const sideOf = (zone: HoldZone, name: string) => {
  const found = zone.sides.find(({ side }) => side === name);
  if (found === undefined) throw new Error(name);
  return found;
};
/** Everything but the exposure may change. */
const EXPOSURE_ALONE = { exposureStops: 1 / 3, ratioStops: 3, headroomStops: -3 };
/** Cheeks lie so far before the mark, which is under the ears, metres (half of a centimetre either way of it is a
 * twentieth of one in the limit). */
const CHEEK_M = 0.08;

describe("a light straight ahead", () => {
  const far = zoneOf(ahead(3, EXPOSURE_ALONE));

  it("[HZ1] a hard light's exposure limit on its line is the inverse square's, within 1 cm", () => {
    const d = 3 - CHEEK_M;
    const nearer = sideOf(far, "ahead");
    const farther = sideOf(far, "behind");
    expect(nearer.limit).toEqual({ by: "exposure", stops: 1 / 3 });
    expect(farther.limit).toEqual({ by: "exposure", stops: -1 / 3 });
    expect(Math.abs(nearer.centimetres - 100 * d * (1 - 2 ** (-1 / 6)))).toBeLessThan(1 + 0.5);
    expect(Math.abs(farther.centimetres - 100 * d * (2 ** (1 / 6) - 1))).toBeLessThan(1 + 0.5);
  });

  it("[HZ2] it gives a zone that is the same on both sides of its line", () => {
    const [left, right] = [sideOf(far, "own left"), sideOf(far, "own right")];
    expect(Math.abs(left.centimetres - right.centimetres)).toBeLessThanOrEqual(1);
    for (const { x, y } of far.outline) {
      const nearest = Math.min(...far.outline.map((other) => Math.hypot(other.x + x, other.y - y)));
      // each of the two is found to 0.75 cm
      expect(nearest).toBeLessThan(0.02);
    }
    // the circle may lie on either side; mirrored it fits as well
    for (const { x, y } of far.outline)
      expect(Math.hypot(x + far.circle.x, y - far.circle.y)).toBeGreaterThan(far.circle.radius_m - 0.02);
    expect(Math.abs(far.turn.most + far.turn.least)).toBeLessThanOrEqual(1);
  });

  it("[HZ5] one that stands 1.4 times as far gives one that is 1.4 times as long", () => {
    const near = zoneOf(ahead(3 / 1.4, EXPOSURE_ALONE));
    const long = (zone: HoldZone) => sideOf(zone, "ahead").centimetres + sideOf(zone, "behind").centimetres;
    // by the cheek, not by the mark: two centimetres in two metres
    expect(long(far) / long(near)).toBeGreaterThan(1.35);
    expect(long(far) / long(near)).toBeLessThan(1.5);
  });

  it("[HZ9] tolerances are the brief's; those without a brief are what a brief says by itself", () => {
    const tight = zoneOf(ahead(3, { ...EXPOSURE_ALONE, exposureStops: 0.1 }));
    const d = 3 - CHEEK_M;
    expect(Math.abs(sideOf(tight, "behind").centimetres - 100 * d * (2 ** 0.05 - 1))).toBeLessThan(1.5);
    const checked = checkPlan({
      format: "tapemark/plan",
      version: 1,
      camera: ahead(3, {}).camera,
      brief: {},
    });
    if (!checked.ok) throw new Error(checked.problems[0].what);
    expect(checked.plan.brief?.hold).toEqual(HOLD_TOLERANCES);
  });

  it("[HZ9] headroom ends it where the brightest skin has come so much nearer, and is not asked where it is not there", () => {
    const plan = ahead(3, EXPOSURE_ALONE);
    const room = readPlan(plan, "coarse").camera.headroomStops as number;
    const asked = (headroomStops: number) => ahead(3, { ...EXPOSURE_ALONE, headroomStops });
    const ended = sideOf(zoneOf(asked(room - 0.15)), "ahead");
    expect(ended.limit).toEqual({ by: "headroom", stops: room - 0.15 });
    // a nose is nearer than a cheek, by centimetres
    expect(Math.abs(ended.centimetres - 100 * (3 - CHEEK_M) * (1 - 2 ** -0.075))).toBeLessThan(1.5);
    expect(zoneOf(asked(Math.min(3, room + 0.5))).asked.headroomStops).toBeNull();
  });
});

describe("what stands there", () => {
  const INDOORS = {
    room: { width: 8, depth: 8, height: 3, bounce: false },
    camera: { position: [4, 0.5, 1.6], direction: { at: [0.7, 4, 1.6] } },
  };
  const OPEN = { exposureStops: 3, ratioStops: 3, headroomStops: -3 };

  it("[HZ6] a wall, a panel, a light's stand and somebody else end it, by name", () => {
    const plan = ahead(3, OPEN, {
      ...INDOORS,
      lights: [
        {
          name: "key",
          position: [0.7, 2, 1.6],
          direction: { at: [0.7, 4, 1.6] },
          face: { shape: "point" },
          output: { lumenSeconds: 2000 },
        },
      ],
      panels: [
        { name: "board", position: [0.7, 4.6, 1], direction: { bearing: 180, tilt: 0 }, width: 1, height: 2 },
      ],
      people: [
        { name: "cellist", position: [0.7, 4], facing: 180 },
        { name: "page turner", position: [1.7, 4], facing: 180 },
      ],
    });
    const zone = zoneOf(plan);
    // own right is the left of the room
    expect(sideOf(zone, "own right").limit).toEqual({ by: "wall", name: "the left wall" });
    expect(Math.abs(sideOf(zone, "own right").centimetres - 40)).toBeLessThanOrEqual(1);
    expect(sideOf(zone, "behind").limit).toEqual({ by: "thing", name: "board" });
    expect(Math.abs(sideOf(zone, "behind").centimetres - 35)).toBeLessThanOrEqual(1);
    expect(sideOf(zone, "own left").limit).toEqual({ by: "thing", name: "page turner" });
    expect(Math.abs(sideOf(zone, "own left").centimetres - 40)).toBeLessThanOrEqual(1);
  });

  it("[HZ6] what stands nearer at the mark already may come nearer by a fifth", () => {
    const plan = ahead(3, OPEN, {
      ...INDOORS,
      lights: [{ ...ahead(3, OPEN).lights[0], position: [0.2, 1, 1.6], direction: { at: [0.2, 4, 1.6] } }],
      people: [{ name: "cellist", position: [0.2, 4], facing: 180 }],
    });
    const { centimetres, limit } = sideOf(zoneOf(plan), "own right");
    expect(limit).toEqual({ by: "wall", name: "the left wall" });
    expect(Math.abs(centimetres - 4)).toBeLessThanOrEqual(1);
  });
});

describe("[HZ3] the pattern's limit", () => {
  it("[HZ3] is where the margins of a fine reading have it, within their step", () => {
    const plan = example("manual-start");
    const brief = checkPlan({
      ...plan,
      brief: { hold: { exposureStops: 3, ratioStops: 3, headroomStops: -3 } },
    });
    if (!brief.ok) throw new Error(brief.problems[0].what);
    const zone = zoneOf(brief.plan);
    const { margins } = readPlan(plan, "fine").people[0].face;
    const found = (change: string, sign: number) =>
      margins.find((m) => m.change === change && Math.sign(m.amount) === sign);
    let held = 0;
    const same = (margin: ReturnType<typeof found>, amount: number, limit: HoldLimit, within: number) => {
      if (margin === undefined) return;
      if (limit.by === "ratio") {
        // three stops are the most that may be allowed
        expect(amount).toBeLessThan(Math.abs(margin.amount) + within);
        return;
      }
      held++;
      expect(limit).toEqual({ by: "pattern", pattern: margin.pattern });
      expect(Math.abs(Math.abs(margin.amount) - amount)).toBeLessThanOrEqual(within);
    };
    for (const [change, sign, side] of [
      ["driftAhead", 1, "ahead"],
      ["driftAhead", -1, "behind"],
      ["driftAside", 1, "own left"],
      ["driftAside", -1, "own right"],
    ] as const) {
      const { centimetres, limit } = sideOf(zone, side);
      same(found(change, sign), centimetres, limit, 3);
    }
    same(found("turn", 1), zone.turn.most, zone.turn.mostLimit, 1);
    same(found("turn", -1), -zone.turn.least, zone.turn.leastLimit, 1);
    same(found("raise", 1), zone.tip.most, zone.tip.mostLimit, 1);
    same(found("raise", -1), -zone.tip.least, zone.tip.leastLimit, 1);
    expect(held).toBeGreaterThanOrEqual(3);
  });
});

describe("the demo", () => {
  const plan = example("cellist");
  const memory = new Memory();
  const zone = zoneOf(plan, memory);
  const face = (place: readonly [number, number]) =>
    readPlan({ ...plan, people: [{ ...plan.people[0], position: [...place] }] }, "coarse").people[0].face;
  const at = face(zone.mark);

  it("[HZ4] read anew by the whole coarse reading, it holds just inside and does not just outside", () => {
    // a coarse reading's shadow cheek is good to a twentieth of a stop; the pattern's limit to 3 cm
    const within = 0.05;
    for (const k of [0, 7, 14, 21, 28]) {
      const { x, y, limit } = zone.outline[k];
      const there = face([x, y]);
      expect(there.pattern).toBe(at.pattern);
      const exposure = Math.log2(there.litCheek / at.litCheek);
      const ratio = (there.ratioStops as number) - (at.ratioStops as number);
      expect(Math.abs(exposure)).toBeLessThan(1 / 3 + within);
      expect(Math.abs(ratio)).toBeLessThan(1 / 3 + within);
      if (limit.by === "exposure") expect(exposure).toBeCloseTo(limit.stops, 1);
      else if (limit.by === "ratio") expect(Math.abs(ratio - limit.stops)).toBeLessThan(within);
      else throw new Error(`ended by ${limit.by}`);
    }
  });

  it("[HZ7] goes once round the mark, in 24 directions and more where neighbours differ", () => {
    const { outline, mark } = zone;
    expect(outline.length).toBeGreaterThan(24);
    expect(outline.length).toBeLessThanOrEqual(48);
    const bearings = outline.map(({ x, y }) => Math.atan2(y - mark[1], x - mark[0]));
    let round = 0;
    bearings.forEach((b, k) => {
      const step = (bearings[(k + 1) % bearings.length] - b + 4 * Math.PI) % (2 * Math.PI);
      expect(step).toBeGreaterThan(0);
      expect(step).toBeLessThan(0.27);
      round += step;
    });
    expect(round).toBeCloseTo(2 * Math.PI, 9);
  });

  it("[HZ8] its circle lies inside it", () => {
    const { circle, outline } = zone;
    expect(circle.radius_m).toBeGreaterThan(0.1);
    for (const { x, y } of outline)
      expect(Math.hypot(x - circle.x, y - circle.y)).toBeGreaterThanOrEqual(circle.radius_m - 1e-9);
  });

  it("[HZ10] the same plan gives the same bits, known before or not", () => {
    expect(zoneOf(plan)).toEqual(zone);
    expect(zoneOf(plan, memory)).toEqual(zone);
  });

  it("[HZ10] it says how far it is, and stops when nobody wants it", () => {
    const said: number[] = [];
    holdZone(plan, 0, memory, (done) => said.push(done) > 0);
    expect(said).toEqual(said.toSorted((a, b) => a - b));
    expect(said.at(-1)).toBeLessThanOrEqual(1);
    let left = 20;
    expect(() => holdZone(plan, 0, memory, () => left-- > 0)).toThrow(Stopped);
  });

  it("[HZ11] in the dark there is nothing to hold", () => {
    const dark = { ...plan, lights: plan.lights.map((light) => ({ ...light, on: false })) };
    const none = zoneOf(dark);
    expect(none.circle.radius_m).toBe(0);
    expect(none.sides.map(({ centimetres }) => centimetres)).toEqual([0, 0, 0, 0]);
    expect(none.turn.mostLimit).toEqual({ by: "pattern", pattern: "dark" });
  });
});
