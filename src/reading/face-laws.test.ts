/** Laws of a face's reading that hold whatever the numbers are. */
import { beforeAll, describe, expect, it } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import { type FaceReading, Memory, readPlan } from "./index.ts";

/** Directions as bearings, so that a whole plan can be turned and mirrored field by field. */
const SET_UP = {
  format: "tapemark/plan",
  version: 1,
  lights: [
    {
      name: "key",
      position: [1.1, -1.2, 2.25],
      direction: { bearing: -40, tilt: -25 },
      roll: 12,
      face: { shape: "rectangle", width: 0.6, height: 0.9 },
      output: { lumenSeconds: 2000 },
    },
    {
      name: "fill",
      position: [-0.4, -2, 1.7],
      direction: { bearing: 10, tilt: -3 },
      face: { shape: "polygon", sides: 8, width: 0.5 },
      output: { lumenSeconds: 160 },
    },
  ],
  panels: [
    { name: "board", position: [-0.8, 0, 1.3], direction: { bearing: 95, tilt: 0 }, width: 0.6, height: 1.2 },
  ],
  people: [{ name: "sitter", position: [0, 0], stature: 1.7, head: { turn: 6, tip: 3, tilt: -4 } }],
  camera: { position: [0.9, -2.3, 1.6], direction: { bearing: -21, tilt: 0 } },
  meters: [{ name: "nose", position: [0, -0.2, 1.6], direction: { bearing: 140, tilt: 20 } }],
};

type Loose = Record<string, unknown>;
type Moved = { position: number[]; direction?: { bearing: number }; roll?: number };

function planOf(change: (plan: typeof SET_UP) => void = () => {}): Plan {
  const document = structuredClone(SET_UP);
  change(document);
  const checked = checkPlan(document);
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.plan;
}

const things = (plan: typeof SET_UP) =>
  [...plan.lights, ...plan.panels, ...plan.people, ...plan.meters, plan.camera] as unknown as Moved[];

const read = (plan: Plan) => readPlan(plan, "fine", new Memory());
const face = (plan: Plan) => read(plan).people[0].face;

/** Points of a front are scattered the same way whichever way it stands: a mirrored one is asked at other places. */
const SAMPLED = 0.01;
const close = (a: number, b: number, share = SAMPLED) => expect(Math.abs(a / b - 1)).toBeLessThan(share);

function sameFace(a: FaceReading, b: FaceReading, sign: 1 | -1) {
  expect(a.pattern).toBe(b.pattern);
  close(a.litCheek, b.litCheek);
  close(a.shadowCheek, b.shadowCheek);
  expect(Math.abs((a.light.azimuth ?? 0) - sign * (b.light.azimuth ?? 0))).toBeLessThan(0.2);
  expect(Math.abs((a.light.elevation ?? 0) - (b.light.elevation ?? 0))).toBeLessThan(0.2);
  close(a.vectorScalarRatio ?? 0, b.vectorScalarRatio ?? 0);
  expect(a.spread).toBe(b.spread);
  expect(a.side).toBe(b.side);
  // the shadow's edge is found on lines a few millimetres apart
  close(a.shadowEdgeMillimetres ?? 0, b.shadowEdgeMillimetres ?? 0, 0.15);
}

/** The amount of the margin on that side; null where none was found. */
function amount({ margins }: FaceReading, change: string, sign: 1 | -1): number | null {
  return margins.find((m) => m.change === change && Math.sign(m.amount) === sign)?.amount ?? null;
}

describe("[RF10] laws of a face's reading", () => {
  let planned: FaceReading;
  beforeAll(() => {
    planned = face(planOf());
  });

  it("[RF10] the set-up has what the laws are about", () => {
    expect(planned.litSide).toBe("left");
    expect(planned.side).not.toBe("square");
    expect(planned.margins.length).toBeGreaterThan(3);
    expect(planned.shadowEdgeMillimetres).not.toBeNull();
    expect(planned.catchlights.filter((c) => c.visible).length).toBeGreaterThanOrEqual(2);
  });

  it("[RF10] mirror a set-up and everything mirrors", () => {
    const mirrored = face(
      planOf((plan) => {
        for (const thing of things(plan)) {
          thing.position[0] *= -1;
          if (thing.direction) thing.direction.bearing *= -1;
          if (thing.roll !== undefined) thing.roll *= -1;
        }
        const { head } = plan.people[0];
        head.turn *= -1;
        head.tilt *= -1;
      }),
    );
    sameFace(mirrored, planned, -1);
    expect(mirrored.litSide).toBe("right");
    for (const [change, mirrors] of [
      ["turn", -1],
      ["driftAside", -1],
      ["raise", 1],
      ["lightHeight", 1],
    ] as const)
      for (const sign of [1, -1] as const) {
        const one = amount(planned, change, sign);
        const other = amount(mirrored, change, (sign * mirrors) as 1 | -1);
        expect(other === null, `${change} ${sign}`).toBe(one === null);
        // coarse samples: a border lies within a step of its halving, or two
        if (one !== null && other !== null)
          expect(Math.abs(other - mirrors * one), `${change} ${sign}`).toBeLessThanOrEqual(
            change === "turn" || change === "raise" ? 1.5 : 4,
          );
      }
    const swapped = { left: "right", right: "left" } as const;
    for (const c of planned.catchlights) {
      const image = mirrored.catchlights.find(
        (m) => m.light === c.light && m.eye === swapped[c.eye] && m.kind === c.kind,
      );
      expect(image?.visible, `${c.light} in the ${c.eye} eye`).toBe(c.visible);
      if (!c.visible || !image) continue;
      const apart = (((image.clock + c.clock) % 12) + 12) % 12;
      // the middle of what shows is taken over a grid: a tenth of an hour
      expect(Math.min(apart, 12 - apart)).toBeLessThan(0.1);
      close(image.widthMillimetres, c.widthMillimetres, 0.02);
    }
  });

  it("[RF10] turn the whole plan and nothing changes", () => {
    const by = 37;
    const c = Math.cos((by * Math.PI) / 180);
    const s = Math.sin((by * Math.PI) / 180);
    const turned = face(
      planOf((plan) => {
        for (const thing of things(plan)) {
          const [x, y] = thing.position;
          // bearings run clockwise from +y
          thing.position[0] = x * c + y * s;
          thing.position[1] = y * c - x * s;
          if (thing.direction) thing.direction.bearing += by;
        }
        Object.assign(plan.people[0], { facing: 180 + by });
      }),
    );
    sameFace(turned, planned, 1);
    expect(turned.litSide).toBe(planned.litSide);
    expect(turned.nearest?.pattern).toBe(planned.nearest?.pattern);
  });

  it("[RF10] shift the whole plan and nothing changes", () => {
    const shifted = face(
      planOf((plan) => {
        for (const thing of things(plan)) {
          thing.position[0] += 13;
          thing.position[1] -= 7;
        }
      }),
    );
    sameFace(shifted, planned, 1);
    expect(shifted.nearest?.pattern).toBe(planned.nearest?.pattern);
  });

  it("[RF10] double all outputs and only exposures change", () => {
    const doubled = face(
      planOf((plan) => {
        for (const light of plan.lights) light.output.lumenSeconds *= 2;
      }),
    );
    const { litCheek, shadowCheek, ...rest } = doubled;
    const { litCheek: lit, shadowCheek: shadow, ...same } = planned;
    expect(rounded(rest)).toEqual(rounded(same));
    close(litCheek, 2 * lit, 1e-9);
    close(shadowCheek, 2 * shadow, 1e-9);
  });

  it("[RF10] move the camera with the head still: only broad or short, catchlights and glasses follow", () => {
    const moved = face(
      planOf((plan) => {
        plan.camera.position = [-1.8, -1.6, 1.7];
        plan.camera.direction.bearing = 48;
      }),
    );
    const { side, catchlights, ...rest } = moved;
    const { side: wasSide, catchlights: were, ...same } = planned;
    expect(rest).toEqual(same);
    expect(side).not.toBe(wasSide);
    expect(catchlights).not.toEqual(were);
  });
});

/** Sums of doubled numbers are not doubled to the last bit where a ratio is taken. */
function rounded(reading: Loose | object): unknown {
  return JSON.parse(
    JSON.stringify(reading, (_, v: unknown) => (typeof v === "number" ? Number(v.toPrecision(9)) : v)),
  );
}
