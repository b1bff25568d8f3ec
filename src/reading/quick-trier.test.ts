import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { cast } from "../engine/index.ts";
import { Pcg32 } from "../math/index.ts";
import { checkPlan, type Plan, parsePlan } from "../plan/index.ts";
import { stage } from "../staging/index.ts";
import { Memory, quickTrier, readPlan, type TryReading, tryReadingOf } from "./index.ts";
import type { Lighting } from "./lighting.ts";
import { shadowEdgeMillimetres } from "./shadow-edge.ts";
import { quickEdgeMillimetres } from "./try-edge.ts";

function example(name: string): Plan {
  const parsed = parsePlan(readFileSync(`examples/${name}.json`, "utf8"));
  if (!parsed.ok) throw new Error(parsed.problems[0].what);
  return parsed.plan;
}

function round([x, y]: readonly number[], p: readonly number[], degrees: number): [number, number, number] {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return [x + c * (p[0] - x) - s * (p[1] - y), y + s * (p[0] - x) + c * (p[1] - y), p[2]];
}

/** One or two things of a plan moved about as they are on set. */
function varied(base: Plan, seed: number): Plan {
  const rng = new Pcg32(seed, 11);
  const unit = () => rng.nextUint32() / 2 ** 32;
  const draw = (most: number) => most * (2 * unit() - 1);
  const plan = structuredClone(base);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(unit() * list.length)];
  const light = pick(plan.lights);
  const who = pick(plan.people);
  const mark = plan.people[0].position;
  const ways: (() => void)[] = [
    () => {
      light.position = round(mark, light.position, draw(25));
    },
    () => {
      light.position[2] += draw(0.3);
    },
    () => {
      const far = 1 + draw(0.25);
      for (const k of [0, 1]) light.position[k] = mark[k] + far * (light.position[k] - mark[k]);
    },
    () => {
      if ("at" in light.direction) light.direction.at[0] += draw(0.4);
    },
    () => {
      plan.camera.position = round(mark, plan.camera.position, draw(15));
    },
    () => {
      who.head.turn += draw(15);
    },
    () => {
      who.head.tip += draw(10);
    },
    () => {
      for (const k of [0, 1]) who.position[k] += draw(0.25);
    },
    () => {
      if (plan.panels.length > 0) for (const k of [0, 1]) plan.panels[0].position[k] += draw(0.25);
    },
  ];
  const first = Math.floor(unit() * ways.length);
  ways[first]();
  if (seed % 2 === 1) ways[(first + 1 + Math.floor(unit() * (ways.length - 1))) % ways.length]();
  return plan;
}

const EXAMPLES = ["cellist", "manual-rembrandt", "group"] as const;
const SEEDS = [1, 2, 3, 4] as const;

const quantile = (list: readonly number[], share: number) =>
  list.toSorted((a, b) => a - b)[Math.floor(share * (list.length - 1))];
const stops = (a: number, b: number) => Math.abs(Math.log2(a / b));

describe("variations of examples beside fine readings of the same (seeds 1 to 4)", () => {
  const pairs: { quick: TryReading; fine: TryReading }[] = [];
  beforeAll(() => {
    for (const name of EXAMPLES) {
      const [base, memory] = [example(name), new Memory()];
      const trier = quickTrier(base, 0, memory, { quality: "fine" });
      for (const seed of SEEDS) {
        const plan = varied(base, seed);
        pairs.push({ quick: trier.read(plan), fine: tryReadingOf(readPlan(plan, "fine", memory), 0) });
      }
    }
  }, 600_000);

  const apart = (of: (r: TryReading) => number | null) =>
    pairs.flatMap(({ quick, fine }) => {
      const [a, b] = [of(quick), of(fine)];
      expect(a === null).toBe(b === null);
      return a === null || b === null ? [] : [Math.abs(a - b)];
    });

  it("[QF17] cheeks: half within a fiftieth of a stop, all within an eighth; their ratio alike", () => {
    const lit = pairs.map(({ quick, fine }) => stops(quick.litCheek, fine.litCheek));
    const shadow = pairs.map(({ quick, fine }) => stops(quick.shadowCheek, fine.shadowCheek));
    expect(quantile(lit, 0.5)).toBeLessThan(0.02);
    expect(quantile(shadow, 0.5)).toBeLessThan(0.03);
    for (const off of [...lit, ...shadow, ...apart((r) => r.ratioStops)]) expect(off).toBeLessThan(0.125);
  });

  it("[QF18] the pattern is the fine one's or one of two where either lies between; side and lit side alike", () => {
    for (const { quick, fine } of pairs) {
      expect([quick.pattern, quick.between]).toContain(
        fine.between === quick.pattern ? quick.pattern : fine.pattern,
      );
      expect(quick.side).toBe(fine.side);
      expect(quick.litSide).toBe(fine.litSide);
    }
    const alike = pairs.filter(({ quick, fine }) => quick.pattern === fine.pattern);
    expect(alike.length / pairs.length).toBeGreaterThanOrEqual(0.9);
  });

  it("[QF19] where the light comes from: half within a tenth of a degree, all within half of one", () => {
    for (const of of [(r: TryReading) => r.light.azimuth, (r: TryReading) => r.light.elevation]) {
      const off = apart(of);
      expect(quantile(off, 0.5)).toBeLessThan(0.1);
      for (const each of off) expect(each).toBeLessThan(0.5);
    }
  });

  it("[QF20] the edge of the nose's shadow: half within 5 %, nine of ten within 15 %", () => {
    const off = pairs.flatMap(
      ({ quick: { shadowEdgeMillimetres: a }, fine: { shadowEdgeMillimetres: b } }) =>
        a !== null && b !== null ? [Math.abs(a / b - 1)] : [],
    );
    expect(off.length).toBeGreaterThan(pairs.length / 2);
    expect(quantile(off, 0.5)).toBeLessThan(0.05);
    expect(quantile(off, 0.9)).toBeLessThan(0.15);
  });

  it("[QF21] the same lights show in the same eyes, at the same hour within a twentieth", () => {
    const off = pairs.flatMap(({ quick, fine }) => {
      const named = (r: TryReading) => r.catchlights.map(({ eye, light }) => `${eye} ${light}`);
      expect(named(quick)).toEqual(named(fine));
      return quick.catchlights.map(({ clock }, i) => {
        const hours = Math.abs(clock - fine.catchlights[i].clock);
        return Math.min(hours, 12 - hours);
      });
    });
    expect(off.length).toBeGreaterThan(pairs.length);
    for (const each of off) expect(each).toBeLessThan(0.05);
  });

  it("[QF22] headroom: half within a twentieth of a stop, all within 0.15", () => {
    const off = apart((r) => r.headroomStops);
    expect(quantile(off, 0.5)).toBeLessThan(0.05);
    for (const each of off) expect(each).toBeLessThan(0.15);
  });

  it("[QF23] background: half within a fortieth of a stop, nine of ten within a tenth, all within a quarter", () => {
    const off = apart((r) => r.backgroundStops);
    expect(quantile(off, 0.5)).toBeLessThan(0.025);
    expect(quantile(off, 0.9)).toBeLessThan(0.1);
    for (const each of off) expect(each).toBeLessThan(0.25);
  });

  it("[QF24] lit cheeks of the others: half within a twentieth of a stop, all within 0.15", () => {
    const off = pairs.flatMap(({ quick, fine }) =>
      quick.litCheeks.slice(1).map((cheek, i) => stops(cheek, fine.litCheeks[i + 1])),
    );
    expect(off.length).toBe(3 * SEEDS.length);
    expect(quantile(off, 0.5)).toBeLessThan(0.05);
    for (const each of off) expect(each).toBeLessThan(0.15);
  });
});

describe("what a trier keeps to", () => {
  const base = example("cellist");
  const memory = new Memory();
  const whole = tryReadingOf(readPlan(base, "coarse", memory), 0);

  it("[QF16] the base reads as its whole reading does", () => {
    const read = quickTrier(base, 0, memory).read(base);
    for (const name of ["litCheek", "shadowCheek", "ratioStops", "backgroundStops", "headroomStops"] as const)
      expect(read[name]).toBeCloseTo(whole[name] as number, 9);
    expect(read.light.azimuth).toBeCloseTo(whole.light.azimuth as number, 6);
    expect(read.light.elevation).toBeCloseTo(whole.light.elevation as number, 6);
    expect(read.litCheeks[0]).toBeCloseTo(whole.litCheeks[0], 9);
    expect([read.pattern, read.side, read.litSide]).toEqual([whole.pattern, whole.side, whole.litSide]);
    expect(read.catchlights).toEqual(whole.catchlights);
  });

  it("[QF25] the same plan gives the same bits, whatever was read before", () => {
    const trier = quickTrier(base, 0, memory);
    const first = SEEDS.map((seed) => trier.read(varied(base, seed)));
    const other = quickTrier(base, 0, new Memory());
    const backward = [...SEEDS].reverse().map((seed) => other.read(varied(base, seed)));
    expect(backward.reverse()).toEqual(first);
  });

  it("[QF26] what is left out is null or nobody; the rest is as it was", () => {
    const trier = quickTrier(base, 0, memory);
    const plan = varied(base, 2);
    const read = trier.read(plan, [
      "shadowEdgeMillimetres",
      "catchlights",
      "backgroundStops",
      "headroomStops",
      "litCheeks",
    ]);
    const all = trier.read(plan);
    expect(read).toEqual({
      ...all,
      shadowEdgeMillimetres: null,
      catchlights: [],
      backgroundStops: null,
      headroomStops: null,
      litCheeks: [],
    });
  });

  it("[QF27] a new power traces next to nothing; every variation an eighth of a coarse reading's rays", () => {
    const trier = quickTrier(base, 0, memory);
    trier.read(base);
    const raysOf = (work: () => unknown) => {
      const before = cast.rays;
      work();
      return cast.rays - before;
    };
    const brighter = structuredClone(base);
    Object.assign(brighter.lights[0].output, { stopsDown: 1.2 });
    // the bridge of the nose asks its 64 parts of each light
    expect(raysOf(() => trier.read(brighter))).toBeLessThan(100);
    for (const seed of SEEDS) {
      const plan = varied(base, seed);
      const quick = raysOf(() => trier.read(plan));
      expect(quick).toBeLessThan(raysOf(() => readPlan(plan, "coarse", new Memory())) / 8);
    }
  });

  it("[QF28] looked up, the cheeks are the traced ones within 2 %", () => {
    const [traced, looked] = [{}, { isMany: true }].map((options) => quickTrier(base, 0, memory, options));
    for (const dx of [-0.2, 0.15]) {
      const plan = structuredClone(base);
      plan.people[0].position[0] += dx;
      const [a, b] = [traced, looked].map((trier) => trier.read(plan, ["shadowEdgeMillimetres"]));
      expect(Math.abs(a.litCheek / b.litCheek - 1)).toBeLessThan(0.02);
      expect(Math.abs(a.shadowCheek / b.shadowCheek - 1)).toBeLessThan(0.02);
      expect(b.pattern).toBe(a.pattern);
    }
  });

  it("[QF29] a white panel put in lightens the shadow; with no light on nothing is read", () => {
    const trier = quickTrier(base, 0, memory);
    const more = structuredClone(base);
    more.panels.push({
      ...structuredClone(more.panels[0]),
      name: "white",
      reflectance: 0.85,
      position: [2.8, 4.2, 1.2],
    });
    const [with_, without] = [trier.read(more), trier.read(base)];
    expect(with_.shadowCheek).toBeGreaterThan(1.03 * without.shadowCheek);
    const off = structuredClone(base);
    off.lights[0].on = false;
    const dark = trier.read(off);
    expect([dark.pattern, dark.headroomStops, dark.backgroundStops, dark.shadowEdgeMillimetres]).toEqual([
      "dark",
      null,
      null,
      null,
    ]);
    expect(dark.catchlights).toEqual([]);
  });
});

describe("[QF20] the edge of the nose's shadow, looked up, beside rays over a grid of lights", () => {
  it("half within 5 %, nine of ten within a sixth; there is one where there is one", () => {
    const off: number[] = [];
    for (const width of [0.15, 0.5, 1.5])
      for (const azimuth of [-50, -20, 35, 65])
        for (const elevation of [5, 35]) {
          const { scene, people, ...rest } = lit(width, azimuth, elevation);
          const sign = azimuth > 0 ? 1 : -1;
          const rays = shadowEdgeMillimetres(
            { stage: { scene, people, ...rest } } as unknown as Lighting,
            0,
            0,
            sign,
          );
          const quick = quickEdgeMillimetres(people[0], scene.emitters[0], sign);
          expect(quick === null).toBe(rays === null);
          if (quick !== null && rays !== null) off.push(Math.abs(quick / rays - 1));
        }
    expect(off.length).toBeGreaterThan(12);
    expect(quantile(off, 0.5)).toBeLessThan(0.05);
    expect(quantile(off, 0.9)).toBeLessThan(1 / 6);
  }, 120_000);
});

/** Somebody who faces the camera, lit by a disc 1.4 m off. */
function lit(width: number, azimuth: number, elevation: number) {
  const at = [0, -0.1, 1.55];
  const [a, e] = [(azimuth * Math.PI) / 180, (elevation * Math.PI) / 180];
  const toward = [Math.sin(a) * Math.cos(e), -Math.cos(a) * Math.cos(e), Math.sin(e)];
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    title: "One light",
    lights: [
      {
        name: "key",
        position: at.map((x, k) => x + 1.4 * toward[k]),
        direction: { at },
        face: { shape: "disc", width },
        output: { lumenSeconds: 1 },
      },
    ],
    people: [{ name: "sitter", position: [0, 0], facing: 180, stature: 1.7 }],
    camera: { position: [0, -2.5, 1.5], direction: { at }, focalLength: 85, fNumber: 8 },
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return stage(checked.plan);
}
