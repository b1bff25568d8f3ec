/** Situations that a portrait photographer meets, worked through with their sums: a day of heads, a shutter too quick, a
 * set-up rebuilt. Invented situations; the sums are by hand and stand beside them (docs/spec/situations.md). */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { amount } from "../properties/amount.ts";
import { nextSitter } from "../src/finder/index.ts";
import type { Plan } from "../src/plan/index.ts";
import { Memory, project, readPlan, renderFrame, tryReadingOf, viewfinder } from "../src/reading/index.ts";
import { placementSheet } from "../src/sheet/index.ts";
import { retyped } from "../src/sheet/testing/retype.ts";
import { stagePerson } from "../src/staging/index.ts";
import { compareFrame, findBand } from "../src/testframe/index.ts";
import { photoOf } from "../src/testframe/testing/photo-of.ts";
import { parseFStops } from "../src/units/index.ts";
import { grey, planOf } from "./plans.ts";

const stops = (a: number, b: number) => Math.log2(a / b);

describe("[SI15] forty heads in two days, 1.50 to 1.95 m tall", () => {
  const KEY = [3.9, 2.7, 2.15] as const;
  const first = planOf({
    room: { width: 6, depth: 6.5, height: 3.2, reflectance: grey(0.4) },
    backdrop: { kind: "paper", position: [3, 5.6], reflectance: 0.4, width: 2.72 },
    people: [{ name: "head 1", position: [3, 3.6], stature: 1.7 }],
    camera: { position: [3, 1.2, 1.6], direction: { at: [3, 3.6, 1.56] }, focalLength: 100 },
    lights: [
      {
        name: "key",
        position: KEY,
        direction: { at: [3, 3.5, 1.6] },
        face: { shape: "polygon", sides: 8, width: 0.9 },
        output: { lumenSeconds: 1600 },
      },
      {
        name: "paper light",
        position: [1.2, 4.6, 1.5],
        direction: { at: [3.4, 5.6, 1.6] },
        face: { shape: "rectangle", width: 0.35, height: 1.2 },
        output: { lumenSeconds: 900 },
      },
    ],
    panels: [
      {
        name: "reflector",
        position: [2.3, 3.2, 1.2],
        direction: { at: [3, 3.6, 1.55] },
        width: 0.8,
        height: 0.8,
      },
    ],
    meters: [{ name: "chin", position: [3, 3.45, 1.5], direction: { at: KEY } }],
  });
  const HEADS = amount(40);
  /** Every stature once, in an order in which tall follow short; heads from the 5th to the 95th percentile. */
  const sitters = Array.from({ length: HEADS }, (_, i) => ({
    name: `head ${i + 2}`,
    stature: 1.5 + (0.45 * ((i * 17) % HEADS)) / (HEADS - 1),
    headSize: 5 + (90 * ((i * 23) % HEADS)) / (HEADS - 1),
  }));
  const series: Plan[] = [];
  for (const sitter of sitters) {
    const { made } = nextSitter(series.at(-1) ?? first, 0, sitter);
    if (!made.ok) throw new Error(made.why);
    series.push(made.after);
  }
  const eyes = (plan: Plan) => {
    const { shape, headOffset } = stagePerson(plan.people[0], plan);
    return headOffset[2] + shape.head.leftEye.centre[2];
  };
  /** Crown and chin in the picture, shares of its height from the top. */
  const headInPicture = (plan: Plan) => {
    const { shape, headOffset, headRotation: r } = stagePerson(plan.people[0], plan);
    const view = viewfinder(plan.camera, 1000);
    return [shape.head.landmarks.crown, shape.head.landmarks.chin].map((p) => {
      const world = [0, 1, 2].map(
        (k) => headOffset[k] + [0, 1, 2].reduce((sum, j) => sum + r[3 * k + j] * p[j], 0),
      );
      return (project(view, world)?.[1] ?? Number.NaN) / view.height;
    });
  };
  it("the key's height over the eyes stays within 3 cm, and what lights the paper stands still", () => {
    const tall = series.map((plan) => plan.people[0].stature);
    expect(Math.min(...tall)).toBe(1.5);
    expect(Math.max(...tall)).toBeCloseTo(1.95, 9);
    const over = first.lights[0].position[2] - eyes(first);
    for (const plan of series) {
      expect(Math.abs(plan.lights[0].position[2] - eyes(plan) - over)).toBeLessThan(0.03);
      expect(plan.lights[1]).toEqual(first.lights[1]);
    }
  });

  it("the head is as large in the picture within 5 %, and at the same height in it", () => {
    const [top, foot] = headInPicture(first);
    for (const plan of series) {
      const [crown, chin] = headInPicture(plan);
      expect(Math.abs((chin - crown) / (foot - top) - 1)).toBeLessThan(0.05);
      expect(Math.abs(crown - top)).toBeLessThan(0.01);
    }
  });

  it("face and background stay within 0.2 stop from the shortest to the tallest, under the same pattern", () => {
    const byStature = series.toSorted((a, b) => a.people[0].stature - b.people[0].stature);
    const last = amount(20) - 1;
    const asked = Array.from({ length: last + 1 }, (_, i) => byStature[Math.round((i * (HEADS - 1)) / last)]);
    const memory = new Memory();
    const before = readPlan(first, "coarse", memory);
    const face = before.people[0].face;
    for (const plan of asked) {
      const is = readPlan(plan, "coarse", memory);
      const after = is.people[0].face;
      const told = `${plan.people[0].stature} m`;
      expect(Math.abs(stops(after.litCheek, face.litCheek)), told).toBeLessThan(0.2);
      expect(Math.abs(stops(is.meters[0].luxSeconds, before.meters[0].luxSeconds)), told).toBeLessThan(0.2);
      const paper = (is.camera.backgroundStops ?? Number.NaN) - (before.camera.backgroundStops ?? Number.NaN);
      expect(Math.abs(paper), told).toBeLessThan(0.2);
      expect(after.pattern, told).toBe(face.pattern);
    }
  });

  it("with key and camera left where they were, the shortest would get other light: the sum tells them apart", () => {
    const shortest = { ...first, people: [{ ...first.people[0], stature: 1.5 }] };
    const [top] = headInPicture(first);
    expect(Math.abs(headInPicture(shortest)[0] - top)).toBeGreaterThan(0.1);
    expect(first.lights[0].position[2] - eyes(shortest)).toBeGreaterThan(
      first.lights[0].position[2] - eyes(first) + 0.15,
    );
  });
});

describe("[SI14] a dark band along the lower edge at 1/200", () => {
  const plan = planOf({
    people: [{ name: "sitter", position: [2, 3] }],
    camera: { position: [2, 1, 1.6], direction: { at: [2, 3, 1.55] }, shutter: 1 / 200 },
    backdrop: { kind: "paper", position: [2, 4.6], reflectance: 0.4 },
    lights: [
      {
        name: "key",
        position: [2.9, 2, 2.1],
        direction: { at: [2, 2.9, 1.55] },
        face: { shape: "disc", width: 0.6 },
        output: { lumenSeconds: 900 },
      },
    ],
  });
  /** The second curtain already covers the lowest fifth when the flash fires: what room lamps give is left there, and the
   * curtain's edge is soft over a fiftieth of the height. */
  function curtained({ width, height, rgb }: { width: number; height: number; rgb: Float32Array }) {
    const out = Float32Array.from(rgb);
    for (let y = 0; y < height; y++) {
      const shut = Math.max(0, Math.min(1, (y / height - 0.8) / 0.02));
      for (let i = 3 * y * width; i < 3 * (y + 1) * width; i++) out[i] *= 1 - 0.95 * shut;
    }
    return { width, height, rgb: out };
  }

  it("is told as sync with the shutter that was set; 1/125 is what to try, and no light is to give more", () => {
    const memory = new Memory();
    const { width, height, luminance } = renderFrame(plan, { width: 96, quality: "coarse" }, memory);
    const brightest = luminance.reduce((a, b) => Math.max(a, b));
    const frame = { width, height, rgb: luminance.map((l) => l / brightest) };
    expect(findBand(frame)).toBeNull();
    const band = findBand(curtained(frame));
    expect(band?.edge).toBe("bottom");
    expect(Math.abs((band?.share ?? 0) - 0.2)).toBeLessThan(0.04);

    const read = (of: Plan) => tryReadingOf(readPlan(of, "coarse", memory), 0);
    const photo = photoOf(plan, read(plan), { shutter: 1 / 200 });
    const { causes } = compareFrame({
      plan,
      person: 0,
      photo: { ...photo, image: { ...photo.image, band } },
      face: 0,
      read,
    });
    expect(causes.map(({ cause }) => cause)).toEqual(["sync"]);
    expect(causes[0].why).toContain("at 1/200 s");
    expect(causes[0].check).toContain("1/125");
    expect(causes[0].cure).toBe("shutter to 1/125 s or longer; more power does not help");
  });
});

describe("[SI16] rebuilt after six weeks with other heads, from paper only", () => {
  const plan = planOf(JSON.parse(readFileSync("examples/cellist.json", "utf8")));
  const units = "metric";
  const memory = new Memory();
  const read = (of: Plan) => readPlan(of, "coarse", memory);
  const pages = placementSheet(plan, read(plan), { paper: "a4", units });
  const paper = planOf(retyped(pages, units, undefined));
  /** "alone f/5.6 + 0.5": what the sheet says that the key reads by itself. */
  const printed = parseFStops(/alone (f\/[\d.]+ \+ \d\.\d)/.exec(pages.join("\n"))?.[1] ?? "");
  if (printed === null) throw new Error("the sheet gives no reading of the key alone");

  /** Another maker's head, marked in thirds, behind an octagon a tenth of a metre less wide; at the sheet's place and aim. */
  const withOtherHead = (stopsDown: number) =>
    planOf({
      ...paper,
      lights: paper.lights.map((light) => ({
        ...light,
        face: { shape: "polygon", sides: 8, width: 1.4 },
        beam: { exponent: 1, edgeDrop: 0.3 },
        output: { wattSeconds: 800, lumensPerWatt: 30, efficiency: 0.5, stopsDown },
        dial: { marked: "fractions", range: 8, step: 1 / 3 },
      })),
    });
  const dome = (of: Plan) => {
    const meter = read(of).meters.find(({ name }) => name === "dome");
    if (meter === undefined || meter.fNumber === null) throw new Error("no dome");
    return meter.fNumber;
  };
  const apart = (a: number, b: number) => 2 * stops(a, b);

  it("the alone reading sets the new dial: within 0.2 stop, though thirds are all it has; the old dial's mark is far off", () => {
    const first = 3;
    const wanted = first + apart(dome(withOtherHead(first)), printed);
    const set = Math.round(3 * wanted) / 3;
    expect(Math.abs(apart(dome(withOtherHead(set)), printed))).toBeLessThan(0.2);
    expect(Math.abs(apart(dome(withOtherHead(set)), dome(plan)))).toBeLessThan(0.2);
    // what the old head's dial said, set on the new one: log2(800 x 30 x 0.5 / (400 x 35 x 0.55)) = 0.64 too much
    expect(Math.abs(apart(dome(withOtherHead(2.2)), dome(plan)) - 0.64)).toBeLessThan(0.1);
  });

  it("the front is as wide as seen within 10 %, catchlights stand within half an hour, and the pattern is the same", () => {
    const [was, is] = [plan, withOtherHead(3)];
    // the sheet's place is the plan's within 5 mm, so widths as seen go as the fronts': 1.4 / 1.5 = 0.933
    expect(Math.abs(1.4 / 1.5 - 1)).toBeLessThan(0.1);
    const away = (of: Plan) =>
      Math.hypot(...of.lights[0].position.map((at, k) => at - of.meters[0].position[k]));
    expect(Math.abs(1.4 / away(is) / (1.5 / away(was)) - 1)).toBeLessThan(0.1);
    const [before, after] = [read(was).people[0].face, read(is).people[0].face];
    expect(after.pattern).toBe(before.pattern);
    expect(after.catchlights.length).toBe(before.catchlights.length);
    expect(before.catchlights.length).toBeGreaterThan(0);
    before.catchlights.forEach(({ clock }, i) => {
      const off = Math.abs(after.catchlights[i].clock - clock);
      expect(Math.min(off, 12 - off)).toBeLessThan(0.5);
    });
  });
});
