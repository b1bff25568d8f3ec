/** Spectacles on the head by brute force: lenses on their rims, rims off the face, bridge on the nose. */
import { describe, expect, it } from "vitest";
import { buildHead, buildPerson, type Glasses, type GlassesFit, type Lens, MATERIAL } from "./index.ts";
import { volumeOf } from "./solids.ts";
import { at, distance, firstHit, openEnds, winding } from "./testing/probes.ts";

const ORDINARY: GlassesFit = { lensWidth: 0.05, lensHeight: 0.038, tilt: 8, wrap: 5, curve: 4 };
const made = (fit: Partial<GlassesFit> = {}, headSize = 50): Glasses => {
  const person = buildPerson({ stature: 1.7, pose: "standing", headSize, glasses: { ...ORDINARY, ...fit } });
  if (!person.glasses) throw new Error("no glasses");
  return person.glasses;
};
const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, x, k) => sum + x * b[k], 0);

/** Where a straight line ahead at (left, up) meets the lens's front: worked from its sphere, or plane. */
function frontAt(lens: Lens, left: number, up: number): number {
  const [x, y, z] = lens.centre;
  if (lens.curveRadius === Infinity)
    return x - (lens.ahead[1] * (left - y) + lens.ahead[2] * (up - z)) / lens.ahead[0];
  const middle = lens.centre.map((c, k) => c - lens.curveRadius * lens.ahead[k]);
  const off2 = (left - middle[1]) ** 2 + (up - middle[2]) ** 2;
  return middle[0] + Math.sqrt(lens.curveRadius ** 2 - off2);
}

describe("[FG11] the lenses are what was asked for", () => {
  const { lenses } = made();
  it("[FG11] 50 x 38 mm, front radius 0.53 m / 4 = 132.5 mm; flat for 0 dioptres", () => {
    for (const lens of lenses) {
      expect(lens.halfWidth).toBe(0.025);
      expect(lens.halfHeight).toBe(0.019);
      expect(lens.curveRadius).toBeCloseTo(0.1325, 12);
    }
    expect(made({ curve: 0 }).lenses[0].curveRadius).toBe(Infinity);
  });
  it("[FG11] tops lean out by 8 degrees, each turns 5 degrees to its own side, axes are square to each other", () => {
    for (const [i, lens] of lenses.entries()) {
      const side = i === 0 ? 1 : -1;
      expect((Math.asin(-lens.ahead[2]) * 180) / Math.PI).toBeCloseTo(8, 9);
      expect((Math.atan2(lens.ahead[1], lens.ahead[0]) * 180) / Math.PI).toBeCloseTo(5 * side, 9);
      expect(lens.up[0]).toBeGreaterThan(0);
      const axes = [lens.ahead, lens.left, lens.up];
      axes.forEach((a, j) => {
        axes.forEach((b, k) => {
          expect(dot(a, b)).toBeCloseTo(j === k ? 1 : 0, 12);
        });
      });
    }
  });
  it("[FG11] left and right are mirror images, the own left first", () => {
    const [left, right] = lenses;
    expect([left.eye, right.eye]).toEqual(["left", "right"]);
    for (const k of [0, 1, 2]) {
      const sign = k === 1 ? -1 : 1;
      expect(right.centre[k]).toBe(sign * left.centre[k]);
      expect(right.ahead[k]).toBeCloseTo(sign * left.ahead[k], 15);
    }
  });
});

const FITS: [string, Partial<GlassesFit>, number][] = [
  ["ordinary", {}, 50],
  ["ordinary, small head", {}, 1],
  ["ordinary, large head", {}, 99],
  ["narrow", { lensWidth: 0.044, lensHeight: 0.024, curve: 2 }, 50],
  ["wrapped", { lensWidth: 0.06, lensHeight: 0.04, wrap: 20, curve: 8 }, 50],
  ["flat and upright", { tilt: 0, wrap: 0, curve: 0 }, 50],
  ["large", { lensWidth: 0.056, lensHeight: 0.05 }, 50],
];

describe.each(FITS)("[FG11] %s", (name, fit, headSize) => {
  const { frame, lenses } = made(fit, headSize);
  const head = buildHead(headSize);
  const count = frame.positions.length / 3;

  it("[FG11] the frame is closed and dark, and the same on both sides", () => {
    expect(openEnds(frame)).toEqual([]);
    expect(frame.materials.every((m) => m === MATERIAL.spectacleFrame)).toBe(true);
    expect(volumeOf(frame.positions, frame.triangles)).toBeGreaterThan(1e-6);
    expect(frame.positions.reduce((sum, c, i) => sum + (i % 3 === 1 ? c : 0), 0)).toBeCloseTo(0, 9);
  });
  it("[FG11] every lens's outline lies within its rim", () => {
    for (const lens of lenses)
      for (let i = 0; i < 40; i++) {
        // walked here by angle: out from the middle until the rounded rectangle ends
        const turn = (2 * Math.PI * (i + 0.5)) / 40;
        const [c, s] = [Math.cos(turn), Math.sin(turn)];
        const inside = (t: number) => {
          const x = Math.max(0, Math.abs(t * c) - (lens.halfWidth - lens.cornerRadius));
          const y = Math.max(0, Math.abs(t * s) - (lens.halfHeight - lens.cornerRadius));
          return Math.hypot(x, y) < lens.cornerRadius;
        };
        let [low, high] = [0, 0.1];
        for (let step = 0; step < 40; step++) {
          const t = (low + high) / 2;
          if (inside(t)) low = t;
          else high = t;
        }
        const r = lens.curveRadius;
        const sag = r === Infinity ? 0 : r - Math.sqrt(r * r - low * low);
        const p = [0, 1, 2].map(
          (k) => lens.centre[k] + low * (c * lens.left[k] + s * lens.up[k]) - sag * lens.ahead[k],
        );
        expect(winding(frame, p), `${lens.eye} ${i}`).toBeGreaterThan(0.9);
      }
  });
  it("[FG11] the front lies ahead of the cornea's apex by 13 mm at least, 15.5 at most where the lens is not large", () => {
    const eye = head.leftEye;
    const apex = eye.corneaCentre[0] + eye.corneaRadius;
    const vertex = frontAt(lenses[0], eye.centre[1], eye.centre[2]) - apex;
    expect(vertex).toBeGreaterThan(0.013);
    if (name.startsWith("ordinary") || name === "narrow") expect(vertex).toBeLessThan(0.0155);
    // near the pupils' spacing: as far as half a lens and the nose allow
    const nearest = Math.max(eye.centre[1], lenses[0].halfWidth + 0.0085);
    expect(lenses[0].centre[1] - nearest).toBeGreaterThanOrEqual(-1e-12);
    expect(lenses[0].centre[1] - nearest).toBeLessThan(0.0065);
  });
  it("[FG11] nothing passes through the face but pads and bridge by less than a millimetre, and the temples' ends", () => {
    let looked = 0;
    // every seventh reaches every side of the rods, which have ten; the other half is its mirror image
    for (let v = 0; v < count; v += 7) {
      const p = at(frame, v);
      if (p[1] < 0 || p[0] < 0.01 * head.scale) continue;
      looked++;
      const out = firstHit(head.mesh, p, [1, 0, 0]);
      if (!out || out.facing < 0) continue;
      expect(Math.abs(p[1]), `${p}`).toBeLessThan(0.014);
      let nearest = Infinity;
      for (let w = 0; w < head.front.length; w++) nearest = Math.min(nearest, distance(at(head.mesh, w), p));
      // to the nearest vertex, which lie up to 2 mm apart
      expect(nearest, `${p}`).toBeLessThan(0.0025);
    }
    expect(looked).toBeGreaterThan(100);
  });
  it("[FG11] no lens cuts the skin", () => {
    for (const lens of lenses.slice(0, 1))
      for (let i = -4; i <= 4; i++)
        for (let j = -4; j <= 4; j++) {
          const [u, w] = [(i / 4) * (lens.halfWidth - lens.cornerRadius), (j / 4) * lens.halfHeight];
          const r = lens.curveRadius;
          const sag = r === Infinity ? 0 : r - Math.sqrt(r * r - u * u - w * w);
          const p = [0, 1, 2].map(
            (k) => lens.centre[k] + u * lens.left[k] + w * lens.up[k] - sag * lens.ahead[k],
          );
          const hit = firstHit(head.mesh, [p[0] + 0.2, p[1], p[2]], [-1, 0, 0]);
          expect(hit?.t ?? 1, `${lens.eye} ${i} ${j}`).toBeGreaterThan(0.2);
        }
  });
  it("[FG11] the bridge rests on the nose, and light cannot pass under it", () => {
    let gap = Infinity;
    for (let v = 0; v < count; v++) {
      const p = at(frame, v);
      if (Math.abs(p[1]) > 0.002 || p[0] < 0.08) continue;
      const hit = firstHit(head.mesh, [p[0] + 0.2, p[1], p[2]], [-1, 0, 0]);
      if (hit) gap = Math.min(gap, hit.t - 0.2);
    }
    expect(gap).toBeLessThan(0.0003);
    expect(gap).toBeGreaterThan(-0.001);
  });
});

it("[FG11] the same glasses on the same head are one shape; without them there are none", () => {
  expect(made()).toBe(made());
  expect(buildPerson({ stature: 1.7, pose: "standing" }).glasses).toBeNull();
});
