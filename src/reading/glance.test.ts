import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import { cast } from "../engine/index.ts";
import { Pcg32 } from "../math/index.ts";
import { type Plan, parsePlan } from "../plan/index.ts";
import { GLANCE_WIDTH, glanceFrame, Memory, type PlanReading, readPlan, renderFrame } from "./index.ts";

function example(name: string): Plan {
  const parsed = parsePlan(readFileSync(`examples/${name}.json`, "utf8"));
  if (!parsed.ok) throw new Error(parsed.problems[0].what);
  return parsed.plan;
}

/** The first light somewhere in front of the first person or beside, aimed as it was. */
function movedAbout(plan: Plan, seed: number): Plan {
  const rng = new Pcg32(seed, 7);
  const draw = () => rng.nextUint32() / 2 ** 32;
  const moved = structuredClone(plan);
  const [x, y] = moved.people[0].position;
  const aside = 4 * (draw() - 0.5);
  const far = 0.9 + 1.6 * draw();
  const light = moved.lights[0];
  light.position = [x + far * Math.sin(aside), y - far * Math.cos(aside), 1.2 + 1.6 * draw()];
  return moved;
}

const stops = (a: number, b: number) => Math.abs(Math.log2(a / b));
const quantile = (list: readonly number[], share: number) =>
  list.toSorted((a, b) => a - b)[Math.floor(share * (list.length - 1))];

const EXAMPLES = ["cellist", "manual-start", "manual-rembrandt"] as const;
const SEEDS = [1, 2, 3, 4, 5, 6, 7] as const;

describe("a glance beside the fine reading of the same plan, a light moved about (seeds 1 to 5)", () => {
  const pairs: { glance: PlanReading; fine: PlanReading }[] = [];
  beforeAll(() => {
    for (const name of EXAMPLES) {
      const [quick, slow] = [new Memory(), new Memory()];
      for (const seed of SEEDS.slice(0, 5)) {
        const plan = movedAbout(example(name), seed);
        pairs.push({ glance: readPlan(plan, "glance", quick), fine: readPlan(plan, "fine", slow) });
      }
    }
  }, 120_000);

  test("[GL1] meters that read anything: 19 of 20 within a tenth of a stop, half within a fiftieth", () => {
    const off = pairs.flatMap(({ glance, fine }) =>
      fine.meters.flatMap((m, i) =>
        m.luxSeconds > 0.01 ? [stops(glance.meters[i].luxSeconds, m.luxSeconds)] : [],
      ),
    );
    expect(off.length).toBeGreaterThan(20);
    expect(quantile(off, 0.5)).toBeLessThan(0.02);
    expect(quantile(off, 0.95)).toBeLessThan(0.1);
  });

  test("[GL2] the pattern is the same, or the one it lies next to, in 8 of 10", () => {
    const alike = pairs.filter(({ glance, fine }) => {
      const [a, b] = [glance.people[0].face, fine.people[0].face];
      return a.pattern === b.pattern || a.between === b.pattern || b.between === a.pattern;
    });
    expect(alike.length / pairs.length).toBeGreaterThanOrEqual(0.8);
  });

  test("[GL3] lit cheeks: half within a twentieth of a stop, 9 of 10 within a quarter", () => {
    const off = pairs.map(({ glance, fine }) =>
      stops(glance.people[0].face.litCheek, fine.people[0].face.litCheek),
    );
    expect(quantile(off, 0.5)).toBeLessThan(0.05);
    expect(quantile(off, 0.9)).toBeLessThan(0.25);
  });

  test("[GL4] light comes from the same side and height: half within half a degree, 9 of 10 within three", () => {
    const off = pairs.flatMap(({ glance, fine }) => {
      const [a, b] = [glance.people[0].face.light, fine.people[0].face.light];
      if (a.elevation === null || b.elevation === null) return [];
      const round = Math.abs((a.azimuth ?? 0) - (b.azimuth ?? 0));
      return [Math.max(Math.min(round, 360 - round), Math.abs(a.elevation - b.elevation))];
    });
    expect(off).toHaveLength(pairs.length);
    expect(quantile(off, 0.5)).toBeLessThan(0.5);
    expect(quantile(off, 0.9)).toBeLessThan(3);
  });

  test("[GL5] headroom: half within 0.15 stop, 9 of 10 within a stop; background the same within a fifth", () => {
    const headroom: number[] = [];
    const background: number[] = [];
    for (const { glance, fine } of pairs) {
      if (glance.camera.headroomStops !== null && fine.camera.headroomStops !== null)
        headroom.push(Math.abs(glance.camera.headroomStops - fine.camera.headroomStops));
      if (glance.camera.backgroundStops !== null && fine.camera.backgroundStops !== null)
        background.push(Math.abs(glance.camera.backgroundStops - fine.camera.backgroundStops));
    }
    expect(quantile(headroom, 0.5)).toBeLessThan(0.15);
    expect(quantile(headroom, 0.9)).toBeLessThan(1);
    expect(quantile(background, 0.9)).toBeLessThan(0.2);
  });

  test("[GL6] lights' catchlights stand where the coarse reading has them", () => {
    const plan = movedAbout(example("cellist"), 3);
    const memory = new Memory();
    const lights = (reading: PlanReading) =>
      reading.people[0].face.catchlights.filter((c) => c.kind === "light");
    expect(lights(readPlan(plan, "coarse", memory)).length).toBeGreaterThan(0);
    expect(lights(readPlan(plan, "glance", memory))).toEqual(lights(readPlan(plan, "coarse", memory)));
  });

  test("[GL7] no margins, no shadow edge: they are searched for when all is still", () => {
    for (const { glance } of pairs) {
      expect(glance.people[0].face.margins).toEqual([]);
      expect(glance.people[0].face.shadowEdgeMillimetres).toBeNull();
    }
  });
});

describe("a glance", () => {
  test("[GL8] the same plan gives the same bits, whatever was looked at before", () => {
    const plan = movedAbout(example("group"), 5);
    const used = new Memory();
    for (const seed of [1, 2]) {
      readPlan(movedAbout(example("group"), seed), "glance", used);
      readPlan(movedAbout(example("group"), seed), "coarse", used);
    }
    expect(readPlan(plan, "glance", used)).toEqual(readPlan(plan, "glance", new Memory()));
    const request = { width: GLANCE_WIDTH };
    expect(glanceFrame(plan, request, used)).toEqual(glanceFrame(plan, request, new Memory()));
  });

  test("[GL9] asks a fifth of the rays of a coarse reading and frame or fewer once a light moved; the frame none of its own", () => {
    const memory = new Memory();
    const width = GLANCE_WIDTH;
    const rays = (work: () => unknown) => {
      const before = cast.rays;
      work();
      return cast.rays - before;
    };
    const [first, then] = [1, 2].map((seed) => movedAbout(example("cellist"), seed));
    readPlan(first, "glance", memory);
    readPlan(first, "coarse", memory);
    renderFrame(first, { width, quality: "coarse" }, memory);
    const coarse = rays(() => {
      readPlan(then, "coarse", memory);
      renderFrame(then, { width, quality: "coarse" }, memory);
    });
    const glance = rays(() => readPlan(then, "glance", memory));
    expect(glance).toBeGreaterThan(0);
    expect(glance).toBeLessThan(coarse / 5);
    expect(rays(() => glanceFrame(then, { width }, memory))).toBe(0);
  });

  test("[GL10] its frame is a soft version of the coarse one: 1 % of the brightest apart in the mean, and as bright", () => {
    const off: number[] = [];
    for (const seed of SEEDS) {
      const plan = movedAbout(example("cellist"), seed);
      const memory = new Memory();
      const glance = glanceFrame(plan, { width: GLANCE_WIDTH }, memory);
      const coarse = renderFrame(plan, { width: GLANCE_WIDTH, quality: "coarse" }, memory);
      expect([glance.width, glance.height]).toEqual([coarse.width, coarse.height]);
      let [apart, sum, all, brightest] = [0, 0, 0, 0];
      coarse.luminance.forEach((value, i) => {
        apart += Math.abs(glance.luminance[i] - value);
        sum += glance.luminance[i];
        all += value;
        brightest = Math.max(brightest, value);
      });
      expect(apart / coarse.luminance.length / brightest, `seed ${seed}`).toBeLessThan(0.01);
      off.push(Math.abs(sum / all - 1));
      expect(glance.badSamples).toBe(0);
    }
    expect(quantile(off, 0.8)).toBeLessThan(0.02);
    expect(Math.max(...off)).toBeLessThan(0.1);
  });

  test("[GL11] a light dragged through the picture stands in it, before what is behind and behind what is before it", () => {
    const plan = example("cellist");
    const memory = new Memory();
    glanceFrame(plan, { width: GLANCE_WIDTH }, memory);
    plan.lights[0].position = [3.6, 6, 1.6];
    plan.lights[0].direction = { at: [3.5, 1.9, 1.5] };
    const moved = structuredClone(plan);
    const glance = glanceFrame(moved, { width: GLANCE_WIDTH }, memory);
    const coarse = renderFrame(moved, { width: GLANCE_WIDTH, quality: "coarse" }, new Memory());
    expect(glance.seen).toEqual(coarse.seen);
    expect(new Set(glance.seen)).toContain(3);
  });

  test("[GL12] pins, marks and names trace nothing; a new name is the one that is read", () => {
    const plan = example("cellist");
    for (const effort of ["glance", "coarse"] as const) {
      const memory = new Memory();
      const before = readPlan(plan, effort, memory);
      const renamed = structuredClone(plan);
      renamed.people[0] = { ...renamed.people[0], name: "player", pinned: true };
      renamed.panels[0] = { ...renamed.panels[0], name: "board", pinned: true };
      renamed.lights[0] = { ...renamed.lights[0], name: "main", pinned: true };
      if (renamed.backdrop) renamed.backdrop.pinned = true;
      const rays = cast.rays;
      const after = readPlan(renamed, effort, memory);
      expect(cast.rays - rays).toBe(0);
      expect(after.people[0].name).toBe("player");
      const names = (reading: PlanReading) => reading.people[0].face.catchlights.map((c) => c.light);
      const expected = names(before).map((n) => ({ key: "main", "V-flat, black": "board" })[n] ?? n);
      expect(names(after)).toEqual(expected);
      expect(names(after)).toContain("main");
      expect(Object.keys(after.meters[0].byLight)).toContain("main");
    }
  });
});
