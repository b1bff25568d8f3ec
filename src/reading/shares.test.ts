/** What is traced again, and that what is kept is what would be traced: the table of shares. */
import { describe, expect, it } from "vitest";
import { cast } from "../engine/index.ts";
import { checkPlan, type Plan } from "../plan/index.ts";
import { computeMap, Memory, readPlan, renderFrame, Stopped } from "./index.ts";

function plan(): Plan {
  const at = [3, 3.6, 1.5];
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 6, depth: 7, height: 3 },
    lights: [
      {
        name: "key",
        position: [4, 2.6, 2.2],
        direction: { at },
        face: { shape: "polygon", sides: 8, width: 1.2 },
        output: { lumenSeconds: 800 },
      },
      {
        name: "fill",
        position: [1.8, 2.4, 1.8],
        direction: { at },
        face: { shape: "rectangle", width: 0.6, height: 0.8 },
        output: { lumenSeconds: 300 },
      },
      {
        name: "hair",
        position: [2.4, 5.2, 2.6],
        direction: { at },
        face: { shape: "disc", width: 0.3 },
        output: { lumenSeconds: 200 },
      },
    ],
    panels: [
      {
        name: "card",
        position: [2.2, 3.6, 1.3],
        direction: { bearing: 90, tilt: 0 },
        width: 0.8,
        height: 1.2,
        reflectance: 0.8,
      },
    ],
    people: [{ name: "sitter", position: [3, 3.6], stature: 1.7, facing: 180 }],
    camera: { position: [3, 1, 1.5], direction: { at }, focalLength: 85, fNumber: 8 },
    meters: [
      { name: "flat", position: [3, 3.4, 1.45], direction: { at: [4, 2.6, 2.2] } },
      { name: "dome", position: [3, 3.4, 1.5], direction: { bearing: 180 }, receptor: "dome" },
    ],
  });
  if (!checked.ok) throw new Error(checked.problems[0].what);
  return checked.plan;
}

const FLOOR_MAP = {
  plane: "floor",
  at: 1.5,
  person: 0,
  reference: { kind: "person", index: 0 },
} as const;
const REQUEST = { ...FLOOR_MAP, quality: "coarse" } as const;

function everything(p: Plan, memory: Memory) {
  const frame = renderFrame(p, { width: 60, quality: "coarse" }, memory);
  return {
    reading: readPlan(p, "coarse", memory),
    luminance: frame.luminance,
    map: computeMap(p, REQUEST, memory),
  };
}

function raysOf(work: () => unknown): number {
  const before = cast.rays;
  work();
  return cast.rays - before;
}

describe("[RD6] shares", () => {
  it("output, on and off, colour, f-number, shutter and ISO trace nothing", () => {
    const memory = new Memory();
    everything(plan(), memory);
    const changes: ((p: Plan) => void)[] = [
      (p) => Object.assign(p.lights[0], { output: { lumenSeconds: 123 } }),
      (p) => Object.assign(p.lights[1], { on: false }),
      (p) => Object.assign(p.lights[2], { kelvin: 3200, gel: { rgb: [1, 0.5, 0.2] } }),
      (p) => Object.assign(p.camera, { fNumber: 4, shutter: 1 / 60, iso: 400, whiteBalance: 3200 }),
      (p) => Object.assign(p, { ambient: { lux: 50 } }),
    ];
    for (const change of changes) {
      const next = plan();
      change(next);
      expect(
        raysOf(() => everything(next, memory)),
        change.toString(),
      ).toBe(0);
    }
  });

  it("so it is for a fine reading with its margins, under one light", () => {
    const memory = new Memory();
    const alone = (change: (p: Plan) => void = () => {}) => {
      const p = plan();
      p.lights.splice(1);
      change(p);
      return p;
    };
    const before = readPlan(alone(), "fine", memory).people[0].face;
    const brighter = alone((p) => Object.assign(p.lights[0], { output: { lumenSeconds: 12_345 } }));
    const shiny = alone((p) => Object.assign(p.people[0].skin, { shine: 0.1 }));
    expect(raysOf(() => readPlan(brighter, "fine", memory))).toBe(0);
    expect(raysOf(() => readPlan(shiny, "fine", memory))).toBe(0);
    expect(readPlan(brighter, "fine", memory).people[0].face.margins).toEqual(before.margins);
  });

  it("a light that moves aside is traced alone", () => {
    const memory = new Memory();
    const all = raysOf(() => everything(plan(), memory));
    const aside = plan();
    aside.lights[2].position = [2.5, 5.3, 2.6];
    const one = raysOf(() => everything(aside, memory));
    expect(one).toBeGreaterThan(0);
    // one of three lights, and none of the rays that look round
    expect(one).toBeLessThan(all / 3);
  });

  it("whatever moves, what was kept gives the same bits as starting anew", () => {
    const memory = new Memory();
    everything(plan(), memory);
    const p = plan();
    const moves: ((p: Plan) => void)[] = [
      // through the way of the fill to the face and out again, into the picture and out again
      (q) => Object.assign(q.lights[2], { position: [2.4, 3, 1.7] }),
      (q) => Object.assign(q.lights[2], { position: [2.4, 5.2, 2.6] }),
      (q) => Object.assign(q.lights[0], { position: [3.2, 3, 1.6] }),
      (q) => Object.assign(q.lights[0], { roll: 20, on: false }),
      (q) => Object.assign(q.lights[0], { position: [4, 2.6, 2.2], on: true }),
      (q) => Object.assign(q.panels[0], { width: 0.5 }),
      (q) => q.lights.splice(1, 1),
    ];
    for (const move of moves) {
      move(p);
      expect(everything(structuredClone(p), memory), move.toString()).toEqual(
        everything(structuredClone(p), new Memory()),
      );
    }
  });

  it("so it is for a fine frame, in which pixels ask their neighbours", () => {
    const memory = new Memory();
    const frame = (p: Plan, kept: Memory) => renderFrame(p, { width: 60, quality: "fine" }, kept).luminance;
    const p = plan();
    const first = frame(p, memory);
    for (const position of [
      [2.4, 3, 1.7],
      [2.2, 2.9, 1.6],
    ] as const) {
      p.lights[2].position = [...position];
      expect(frame(structuredClone(p), memory)).toEqual(frame(structuredClone(p), new Memory()));
    }
    // and back
    expect(frame(plan(), memory)).toEqual(first);
  });

  it("work that takes long says how far it is, and stops when it is told to", () => {
    for (const work of [
      (go: (done: number) => boolean) => readPlan(plan(), "fine", new Memory(), go),
      (go: (done: number) => boolean) =>
        renderFrame(plan(), { width: 60, quality: "fine" }, new Memory(), go),
      (go: (done: number) => boolean) =>
        computeMap(plan(), { ...REQUEST, quality: "fine" }, new Memory(), go),
    ]) {
      const heard: number[] = [];
      work((done) => heard.push(done) > 0);
      expect(heard.length).toBeGreaterThan(8);
      for (let i = 1; i < heard.length; i++) expect(heard[i]).toBeGreaterThanOrEqual(heard[i - 1]);
      expect(heard.at(-1)).toBeLessThanOrEqual(1);
      expect(() => work((done) => done < 0.3)).toThrow(Stopped);
    }
  });
});

it("[RD8] paper behind and under a sitter returns light, from the side that faces the camera and from its back", () => {
  const meterAt = (reflectance: number, position: number[], bearing: number) => {
    const checked = checkPlan({
      format: "tapemark/plan",
      version: 1,
      lights: [
        {
          name: "key",
          position: [position[0], position[1], 2.4],
          direction: { bearing, tilt: -20 },
          face: { shape: "disc", width: 0.6 },
          output: { lumenSeconds: 1000 },
        },
      ],
      backdrop: {
        kind: "cove",
        position: [3, 6],
        bearing: 180,
        top: 3,
        width: 4,
        sweepRadius: 0.8,
        floorLength: 2,
        reflectance,
      },
      meters: [{ name: "to the paper", position, direction: { bearing } }],
    });
    if (!checked.ok) throw new Error(checked.problems[0].what);
    return readPlan(checked.plan, "fine").meters[0].byLight.key.bounced;
  };
  for (const [position, bearing] of [
    [[3, 4.5, 1.5], 0],
    [[3, 7.5, 1.5], 180],
  ] as const) {
    const half = meterAt(0.4, [...position], bearing);
    const white = meterAt(0.8, [...position], bearing);
    expect(half).toBeGreaterThan(1);
    // once reflected it is twice, as from the rounded back; inside the sweep it lights itself a little more
    expect(white / half).toBeGreaterThan(2 - 1e-9);
    expect(white / half).toBeLessThan(3);
  }
});
