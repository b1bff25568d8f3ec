/** The frames of known light themselves, and their scoring. What the reader makes of them: photo-truth-reader.test.ts. */

import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { buildHead, buildPerson } from "../src/figure/index.ts";
import { warpedPerson } from "../src/figure/testing/warp.ts";
import { angleBetween } from "../src/testframe/compare-observed.ts";
import { headOf, PEOPLE, truthFrame, truthPlan } from "./photo-truth.ts";
import { levelOf } from "./photo-truth-camera.ts";
import { isPatternRight, NEIGHBOURS, type Outcome, quantile, scoreOf } from "./photo-truth-score.ts";

const DEGREE = Math.PI / 180;
const isLong = process.env.TAPEMARK_LONG === "1";

describe("[RT1] frames", () => {
  const frame = truthFrame(7, { shape: "other", kind: "flash" });
  it("[RT1] the same index is the same frame, another index another one", () => {
    const again = truthFrame(7, { shape: "other", kind: "flash" });
    expect(Buffer.from(again.levels).equals(Buffer.from(frame.levels))).toBe(true);
    expect(again.truth).toEqual(frame.truth);
    expect(again.trueFace).toEqual(frame.trueFace);
    const other = truthFrame(8, { shape: "other", kind: "flash" });
    expect(other.truth.fromCamera).not.toEqual(frame.truth.fromCamera);
    expect(Buffer.from(other.levels).equals(Buffer.from(frame.levels))).toBe(false);
  });
  it("[RT2] under one small light the true direction is the line to it", () => {
    // even light adds nothing to a vector; the light's own size and what the shoulders send back move it a little
    expect(frame.plan.lights).toHaveLength(1);
    expect(angleBetween(frame.truth.fromCamera, frame.truth.mainFromCamera)).toBeLessThan(0.5);
  });
  it("[RT3] pose, rotation and angles agree", () => {
    for (const { truth, plan } of [frame, truthFrame(4, { shape: "own", kind: "tight" })]) {
      const m = truth.cameraFromHead;
      for (let i = 0; i < 3; i++)
        for (let j = 0; j < 3; j++) {
          const dot = [0, 1, 2].reduce((sum, k) => sum + m[3 * i + k] * m[3 * j + k], 0);
          expect(dot).toBeCloseTo(i === j ? 1 : 0, 12);
        }
      const { azimuth: az, elevation: el } = truth.inHead;
      const inHead = [
        Math.cos(el * DEGREE) * Math.cos(az * DEGREE),
        Math.cos(el * DEGREE) * Math.sin(az * DEGREE),
        Math.sin(el * DEGREE),
      ];
      for (let k = 0; k < 3; k++)
        expect(truth.from[k]).toBeCloseTo(
          m[3 * k] * inHead[0] + m[3 * k + 1] * inHead[1] + m[3 * k + 2] * inHead[2],
          12,
        );
      // the plan's head follows the camera; the lens looks at the face, not at the ears, which is a few degrees
      const { turn, tip, tilt } = plan.people[0].head;
      expect(Math.abs(truth.head.turn - turn)).toBeLessThan(4);
      expect(Math.abs(truth.head.tip - tip)).toBeLessThan(4);
      expect(Math.abs(truth.head.tilt - tilt)).toBeLessThan(4);
    }
  });
  it("[RT4] the true landmarks lie on the face in the picture", () => {
    const lit = truthFrame(5, { shape: "other", kind: "flash" });
    expect(lit.truth.offLens).toBeLessThan(20);
    const { width, rgb } = lit.picture;
    const { points } = lit.trueFace;
    // inside a lit face nothing is as dark as the surround
    const at = (i: number) => rgb[3 * (Math.floor(points[3 * i + 1]) * width + Math.floor(points[3 * i]))];
    // but nostrils, the line of the mouth, and points of the rim by the ears that the outline cuts
    const dark = Array.from({ length: 468 }, (_, i) => i).filter((i) => !(at(i) > 0.02));
    expect(dark.length).toBeLessThan(25);
    // pupils are the darkest of the eyes
    const [right, left] = [468, 473].map(at);
    for (const [pupil, rim] of [
      [right, 469],
      [left, 474],
    ])
      expect(pupil).toBeLessThan(at(rim) + 0.05);
  });
  it("[RT7] read by the standard curve, only a curve of its own bends tones", () => {
    const bent = (curve: Parameters<typeof levelOf>[1]) =>
      Math.max(...[0.05, 0.18, 0.5].map((x) => Math.abs(Math.log2(decoded(levelOf(x, curve)) / x))));
    expect(bent({ kind: "sRGB", contrast: 0, gamma: 1 })).toBeLessThan(1e-6);
    expect(bent({ kind: "S", contrast: 0.2, gamma: 1 })).toBeGreaterThan(0.2);
    expect(bent({ kind: "linear", contrast: 0, gamma: 1 })).toBeGreaterThan(1);
  });
});

function decoded(level: number): number {
  return level <= 0.04045 ? level / 12.92 : ((level + 0.055) / 1.055) ** 2.4;
}

describe("[RT5] other heads", () => {
  const mean = buildPerson({ stature: 1.7, pose: "standing" });
  const people = Array.from({ length: isLong ? PEOPLE : 6 }, (_, i) => i);
  const heads = people.map((person) => warpedPerson(mean, headOf(person).warp).head);
  const front = Array.from({ length: mean.head.front.length }, (_, v) => v).filter((v) => mean.head.front[v]);
  const rms = (a: Float64Array, b: Float64Array) => {
    const [p, q] = [centred(a), centred(b)];
    const scale = Math.sqrt(
      sum(front, (v, k) => q[3 * v + k] ** 2) / sum(front, (v, k) => p[3 * v + k] ** 2),
    );
    return 1000 * Math.sqrt(sum(front, (v, k) => (scale * p[3 * v + k] - q[3 * v + k]) ** 2) / front.length);
  };
  function centred(p: Float64Array): Float64Array {
    const middle = [0, 1, 2].map((k) => front.reduce((s, v) => s + p[3 * v + k], 0) / front.length);
    return p.map((x, i) => x - middle[i % 3]);
  }
  function sum(list: readonly number[], of: (v: number, k: number) => number): number {
    return list.reduce((s, v) => s + of(v, 0) + of(v, 1) + of(v, 2), 0);
  }
  it("[RT5] each is another face than the mean one and than any other", () => {
    for (const [i, head] of heads.entries()) {
      const off = rms(mean.head.mesh.positions, head.mesh.positions);
      expect(off, `person ${i}`).toBeGreaterThan(1.4);
      expect(off, `person ${i}`).toBeLessThan(5);
      for (const other of heads.slice(0, i))
        expect(rms(other.mesh.positions, head.mesh.positions)).toBeGreaterThan(1.5);
    }
  });
  it("[RT5] no trait is beyond two standard deviations", () => {
    for (const person of people)
      for (const [name, amount] of Object.entries(headOf(person).traits))
        expect(Math.abs(amount), name).toBeLessThanOrEqual(2);
  });
  it("[RT5] faces stay whole: no triangle of the front is turned over, the nose aside stays a nose", () => {
    const { triangles, normals } = mean.head.mesh;
    for (const [i, head] of heads.entries()) {
      let turned = 0;
      for (let t = 0; t < triangles.length; t += 3) {
        const corners = triangles.subarray(t, t + 3);
        if (!corners.every((v) => head.front[v])) continue;
        const n = normalOf(head.mesh.positions, corners);
        const was = normals.subarray(3 * corners[0], 3 * corners[0] + 3);
        if (n[0] * was[0] + n[1] * was[1] + n[2] * was[2] < 0) turned++;
      }
      expect(turned, `person ${i}`).toBeLessThanOrEqual(MEAN_TURNED);
    }
  });
  it("[RT5] lids stay on the eyes, which keep their size", () => {
    for (const head of heads)
      for (const side of ["leftEye", "rightEye"] as const) {
        const [eye, was] = [head[side], mean.head[side]];
        expect(eye.globeRadius).toBe(was.globeRadius);
        for (const v of front) {
          const away = Math.hypot(
            ...[0, 1, 2].map((k) => mean.head.mesh.positions[3 * v + k] - was.centre[k]),
          );
          if (away > 0.0145) continue;
          const now = Math.hypot(...[0, 1, 2].map((k) => head.mesh.positions[3 * v + k] - eye.centre[k]));
          expect(now).toBeCloseTo(away, 9);
        }
      }
  });
});

/** Of the mean head's own, where nostrils and lips fold in: against a corner's smooth normal. */
const MEAN_TURNED = (() => {
  const { mesh, front } = buildHead();
  let turned = 0;
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const corners = mesh.triangles.subarray(t, t + 3);
    if (!corners.every((v) => front[v])) continue;
    const n = normalOf(mesh.positions, corners);
    const was = mesh.normals.subarray(3 * corners[0], 3 * corners[0] + 3);
    if (n[0] * was[0] + n[1] * was[1] + n[2] * was[2] < 0) turned++;
  }
  return turned + 4;
})();

function normalOf(p: Float64Array, [a, b, c]: Uint32Array): [number, number, number] {
  const u = [0, 1, 2].map((k) => p[3 * b + k] - p[3 * a + k]);
  const w = [0, 1, 2].map((k) => p[3 * c + k] - p[3 * a + k]);
  return [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
}

describe("[RT6] the lights of 300 frames", () => {
  // set up only, not rendered
  const ways = Array.from({ length: 300 }, (_, i) => truthPlan(i, { shape: "own" }));
  it("[RT6] lie at all angles off the lens, high and low", () => {
    const off = ways.map((w) => w.offLens);
    for (let from = 0; from < 110; from += 10)
      expect(off.filter((x) => x >= from && x < from + 10).length, `${from}`).toBeGreaterThanOrEqual(15);
    const elevations = ways.map((w) => w.elevation);
    expect(Math.min(...elevations)).toBeLessThan(-20);
    expect(Math.min(...elevations)).toBeGreaterThanOrEqual(-31);
    expect(Math.max(...elevations)).toBeGreaterThan(60);
    expect(elevations.filter((x) => x > 0).length).toBeGreaterThan(180);
  });
  it("[RT8] the flash set is one light straight at a face that looks at the lens", () => {
    for (let i = 0; i < 60; i++) {
      const { plan } = truthPlan(i, { shape: "own", kind: "flash" });
      expect(plan.lights).toHaveLength(1);
      const { turn, tip, tilt } = plan.people[0].head;
      expect(Math.max(Math.abs(turn), Math.abs(tip), Math.abs(tilt))).toBeLessThanOrEqual(6);
      const { output } = plan.lights[0];
      const flash = "meter" in output ? (output.meter.fNumber ** 2 * 250) / 100 : 0;
      expect(Math.log2(flash / (plan.ambient.lux * plan.camera.shutter))).toBeGreaterThanOrEqual(5);
    }
  });
});

describe("[RT9] scoring", () => {
  it("[RT9] worked by hand: angles and ranks", () => {
    expect(angleBetween({ azimuth: 10, elevation: 0 }, { azimuth: -10, elevation: 0 })).toBeCloseTo(20, 9);
    expect(angleBetween({ azimuth: 0, elevation: 80 }, { azimuth: 180, elevation: 80 })).toBeCloseTo(20, 9);
    expect(angleBetween({ azimuth: 90, elevation: 30 }, { azimuth: 0, elevation: 30 })).toBeCloseTo(
      75.5225,
      3,
    );
    expect(quantile([3, 1, 2], 0.5)).toBe(2);
    expect(quantile([0, 10], 0.9)).toBeCloseTo(9, 12);
  });
  it("[RT9] a wrong side, a wrong ratio and a wrong name are found out", () => {
    const made = (told: object, truth: object = {}) =>
      ({
        truth: {
          fromCamera: { azimuth: 30, elevation: 20 },
          litSide: "left",
          ratioStops: 1,
          pattern: "loop",
          between: null,
          offLens: 36,
          ...truth,
        },
        told: {
          confidence: "good",
          lightFromCamera: { azimuth: 31, elevation: 19 },
          uncertaintyDegrees: 3,
          litSide: "left",
          ratioStops: 1.1,
          ratioUncertaintyStops: 0.2,
          pattern: "loop",
          between: null,
          ...told,
        },
        error: 1.3,
        aside: 1,
        up: -1,
      }) as unknown as Outcome;
    const all = scoreOf([
      made({}),
      made({
        litSide: "right",
        ratioStops: 1.5,
        pattern: "split",
        lightFromCamera: { azimuth: -31, elevation: 19 },
      }),
      made({ pattern: "rembrandt", between: "loop" }),
      made({ pattern: "rim" }),
    ]);
    expect([all.sideRight, all.sideOpposite, all.sideSigns, all.heightSigns]).toEqual([0.75, 0.25, 0.75, 1]);
    expect([all.ratioWithin, all.ratioHonest]).toEqual([0.75, 0.75]);
    expect([all.patternStrict, all.patternRight, all.patternNear]).toEqual([0.25, 0.5, 0.5]);
    expect([all.withinTwoThirds, all.meanUp, all.median]).toEqual([1, -1, 1.3]);
    expect(isPatternRight(made({ pattern: "flat" }, { between: "flat" }))).toBe(true);
  });
  it("[RT10] neighbours are those that share ten cells' borders in the printed charts", () => {
    const text = readFileSync("docs/pattern-charts.md", "utf8");
    const letters = new Map([
      ["F", "flat"],
      ["B", "butterfly"],
      ["L", "loop"],
      ["R", "rembrandt"],
      ["S", "split"],
      ["I", "rim"],
      ["U", "under"],
    ]);
    const borders = new Map<string, number>();
    for (const chart of text.split("\n## ").filter((part) => part.includes("```"))) {
      const rows = chart.split("```")[1].trim().split("\n").slice(1);
      const names = rows.map((row) =>
        row
          .trim()
          .split(/\s+/)
          .slice(1)
          .map((cell) => letters.get(cell[0]) ?? ""),
      );
      names.forEach((row, j) => {
        row.forEach((name, i) => {
          for (const beside of [row[i + 1], names[j + 1]?.[i]]) {
            if (!beside || beside === name) continue;
            const key = [name, beside].sort().join(" ");
            borders.set(key, (borders.get(key) ?? 0) + 1);
          }
        });
      });
    }
    const expected = [...borders].filter(([, count]) => count >= 10).map(([key]) => key);
    expect(NEIGHBOURS.map((pair) => [...pair].sort().join(" ")).sort()).toEqual(expected.sort());
  });
});
