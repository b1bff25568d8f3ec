import { describe, expect, it } from "vitest";
import { CANONICAL_TRIANGLES, CANONICAL_VERTICES } from "./canonical-face.generated.ts";
import { buildHead, buildPerson, frontNeighbours, headRotation, REGION } from "./index.ts";
import { LIPS } from "./mask-parts.ts";
import { fromMask } from "./measures.ts";

const head = buildHead();
const { positions, triangles } = head.mesh;
const vertices = positions.length / 3;

/** Millimetres. */
const at = (v: number) => Array.from(positions.subarray(3 * v, 3 * v + 3), (x) => 1000 * x);
/** The largest value of `of` over the vertices that `where` picks. */
function largest(of: (p: number[]) => number, where: (p: number[]) => boolean = () => true): number {
  let most = -Infinity;
  for (let v = 0; v < vertices; v++) {
    const p = at(v);
    if (where(p)) most = Math.max(most, of(p));
  }
  return most;
}

function times(m: Float64Array, v: readonly number[]): number[] {
  return [0, 1, 2].map((i) => m[3 * i] * v[0] + m[3 * i + 1] * v[1] + m[3 * i + 2] * v[2]);
}

describe("[FG1] the face is the measured mask", () => {
  it("[FG1] the committed mask is the package's own", async () => {
    const { canonicalFace } = await import("../../scripts/canonical-face.mjs");
    expect(canonicalFace()).toEqual({
      vertices: [...CANONICAL_VERTICES],
      triangles: [...CANONICAL_TRIANGLES],
    });
  });
  it("[FG1] the tip of the nose lies where the mask has it, worked by hand", () => {
    // vertex 1: y -1.126865, z 7.475576; 0.93 x (7.475576 + 4.8) = 114.163 mm, 0.93 x (-1.126865 - 0.6) = -16.060 mm
    const [x, y, z] = at(1);
    expect(Math.abs(x - 114.163)).toBeLessThan(0.5);
    expect(Math.abs(y)).toBeLessThan(1e-6);
    expect(Math.abs(z + 16.06)).toBeLessThan(0.5);
  });
  it("[FG1] smoothing moves no vertex of the mask by half a millimetre, save lids and lips, which are reshaped", () => {
    for (let v = 0; v < CANONICAL_VERTICES.length / 3; v++) {
      const [x, y, z] = CANONICAL_VERTICES.slice(3 * v, 3 * v + 3);
      if (LIPS.has(v) || (Math.abs(Math.abs(x) - 3.15) < 1.9 && Math.abs(y - 2.63) < 1.1)) continue;
      const want = fromMask(x, y, z).map((c) => 10 * c);
      expect(Math.hypot(...at(v).map((c, k) => c - want[k])), `vertex ${v}`).toBeLessThan(0.5);
    }
  });
  it("[FG1] has at least 15,000 triangles", () =>
    expect(triangles.length / 3).toBeGreaterThanOrEqual(15_000));
});

/** Half a standard deviation of the smaller sample at most: the head is meant to be the mean one, not merely a likely one. */
describe("[FG2] sizes are the means of women and men of ANSUR II (2012), millimetres", () => {
  it.each([
    [
      "head breadth",
      (154.33 + 147.769) / 2,
      2.5,
      () =>
        2 *
        largest(
          (p) => p[1],
          (p) => p[2] > 45,
        ),
    ],
    [
      "head length, glabella to occiput",
      (199.505 + 189.82) / 2,
      3.5,
      () =>
        largest(
          (p) => p[0],
          (p) => p[2] > 30 && p[2] < 60,
        ) + largest((p) => -p[0]),
    ],
    ["tragion to top of head", (131.147 + 126.475) / 2, 3, () => largest((p) => p[2])],
    [
      "bizygomatic breadth",
      (142.622 + 133.765) / 2,
      2.8,
      // before the ears
      () =>
        2 *
        largest(
          (p) => p[1],
          (p) => p[0] > 16 && Math.abs(p[2]) < 15,
        ),
    ],
    ["menton to sellion", (122.644 + 113.095) / 2, 3, () => at(168)[2] - at(152)[2]],
    ["interpupillary distance", (64.0156 + 61.7077) / 2, 1.7, () => 2000 * head.leftEye.centre[1]],
    [
      "eyes to top of head: sitting height less eye height",
      (918.29 - 804.513 + 856.626 - 747.687) / 2,
      3,
      () => largest((p) => p[2]) - 1000 * head.leftEye.centre[2],
    ],
  ])("[FG2] %s %d", (_, mean, tolerance, measured) =>
    expect(Math.abs(measured() - mean)).toBeLessThan(tolerance),
  );

  it("[FG2] ear length 62, mirrored and standing off the head", () => {
    // beyond the widest of the head only ears lie
    const top = largest(
      (p) => p[2],
      (p) => p[1] > 77,
    );
    const foot = -largest(
      (p) => -p[2],
      (p) => p[1] > 72 && p[0] < 0 && p[2] < 20,
    );
    expect(Math.abs(top - foot - (64.215 + 59.361) / 2)).toBeLessThan(8);
    expect(largest((p) => p[1])).toBeCloseTo(
      largest((p) => -p[1]),
      9,
    );
  });

  it("[FG2] shoulders: bideltoid breadth 480 of somebody of mean stature 1.692 m", () => {
    const { body, earHeight } = buildPerson({ stature: 1.692, pose: "standing" });
    let widest = 0;
    for (let v = 0; v < body.positions.length; v += 3) {
      const under = earHeight - body.positions[v + 2];
      if (under > 0.2 && under < 0.3) widest = Math.max(widest, body.positions[v + 1]);
    }
    expect(Math.abs(2000 * widest - (510.425 + 450.324) / 2)).toBeLessThan(15);
  });
});

describe("[FG5] regions, landmarks and the way over the face", () => {
  it("[FG5] the head is symmetric to a micrometre", () => {
    const seen = new Set<string>();
    const key = (p: number[], side: number) =>
      [p[0], side * p[1], p[2]].map((x) => Math.round(x * 1000)).join();
    const near = (p: number[]) => {
      for (const dx of [-1, 0, 1])
        for (const dy of [-1, 0, 1])
          for (const dz of [-1, 0, 1])
            if (seen.has(key([p[0] + dx / 1000, -(p[1] + dy / 1000), p[2] + dz / 1000], 1))) return true;
      return false;
    };
    for (let v = 0; v < vertices; v++) seen.add(key(at(v), 1));
    for (let v = 0; v < vertices; v++) expect(near(at(v)), `${at(v)}`).toBe(true);
  });
  it("[FG5] every region is there; left and right are equal", () => {
    const area = (region: number) =>
      head.regions.reduce((sum, r, v) => sum + (r === region ? head.vertexAreas[v] : 0), 0);
    for (const region of Object.values(REGION))
      if (region) expect(area(region), String(region)).toBeGreaterThan(1e-4);
    expect(area(REGION.leftCheek) / area(REGION.rightCheek)).toBeCloseTo(1, 9);
    expect(area(REGION.leftSocket) / area(REGION.rightSocket)).toBeCloseTo(1, 9);
    // 3 to 4 cm across
    expect(area(REGION.leftCheek)).toBeGreaterThan(7e-4);
    expect(area(REGION.leftCheek)).toBeLessThan(16e-4);
  });
  it("[FG5] regions lie on the front and on their own side", () => {
    for (let v = 0; v < vertices; v++) {
      if (!head.regions[v]) continue;
      expect(head.front[v]).toBe(1);
      if (head.regions[v] === REGION.leftCheek) expect(positions[3 * v + 1]).toBeGreaterThan(0.02);
      if (head.regions[v] === REGION.rightCheek) expect(positions[3 * v + 1]).toBeLessThan(-0.02);
    }
  });
  it("[FG5] vertex areas add up to the mesh's area", () => {
    let sum = 0;
    for (let t = 0; t < triangles.length; t += 3) {
      const [a, b, c] = [0, 1, 2].map((k) =>
        positions.subarray(3 * triangles[t + k], 3 * triangles[t + k] + 3),
      );
      const [u, w] = [b, c].map((p) => [0, 1, 2].map((k) => p[k] - a[k]));
      sum += Math.hypot(u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]) / 2;
    }
    expect(head.vertexAreas.reduce((x, y) => x + y, 0)).toBeCloseTo(sum, 12);
  });
  it("[FG5] landmarks lie on the mesh, the tip of the nose ahead of all but 1.5 mm, the crown on top", () => {
    for (const [name, p] of Object.entries(head.landmarks)) {
      let nearest = Infinity;
      for (let v = 0; v < vertices; v++)
        nearest = Math.min(nearest, Math.hypot(...at(v).map((x, k) => x - 1000 * p[k])));
      // openings of the ears are given as axes' ends, beside the bowl of the ear
      expect(nearest, name).toBeLessThan(name.endsWith("Ear") ? 6 : 1e-9);
    }
    expect(largest((p) => p[0]) - 1000 * head.landmarks.noseTip[0]).toBeLessThan(1.5);
    expect(1000 * head.landmarks.crown[2]).toBe(largest((p) => p[2]));
  });
  it("[FG5] neighbours are mutual, rising, on the front, and join the face into one piece", () => {
    const { offsets, neighbours } = frontNeighbours(head);
    const reached = new Set([1]);
    const todo = [1];
    for (let v = todo.pop(); v !== undefined; v = todo.pop())
      for (const w of neighbours.subarray(offsets[v], offsets[v + 1]))
        if (!reached.has(w)) {
          reached.add(w);
          todo.push(w);
        }
    expect(reached.size).toBe(head.front.reduce((sum, f) => sum + f, 0));
    for (let v = 0; v < vertices; v++)
      for (let k = offsets[v]; k < offsets[v + 1]; k++) {
        const w = neighbours[k];
        if (k > offsets[v]) expect(w).toBeGreaterThan(neighbours[k - 1]);
        expect(neighbours.subarray(offsets[w], offsets[w + 1])).toContain(v);
      }
  });
});

describe("[FG6] people stand and sit as tall as they are", () => {
  it("[FG6] ears lie 129.4 mm under the top of somebody 1.70 m tall", () =>
    // (131.147 + 126.475) / (1756.215 + 1628.473) x 1.70 = 129.40 mm
    expect(buildPerson({ stature: 1.7, pose: "standing" }).earHeight).toBeCloseTo(1.7 - 0.1294, 4));
  it("[FG6] somebody who sits is the sitting height over the seat", () =>
    // (918.290 + 856.626) / (1756.215 + 1628.473) x 1.70 = 891.48 mm
    expect(buildPerson({ stature: 1.7, pose: "seated", seatHeight: 0.5 }).earHeight).toBeCloseTo(
      0.5 + 0.89148 - 0.1294,
      4,
    ));
  it("[FG6] a given eye height is kept", () => {
    const person = buildPerson({ stature: 1.7, pose: "seated", seatHeight: 0.5, eyeHeight: 1.2 });
    expect(person.earHeight + person.head.leftEye.centre[2]).toBeCloseTo(1.2, 12);
  });
  it.each(["standing", "seated"] as const)("[FG6] %s, feet are on the floor", (pose) => {
    const { positions: p } = buildPerson({ stature: 1.8, pose, seatHeight: 0.45 }).body;
    let lowest = Infinity;
    for (let v = 2; v < p.length; v += 3) lowest = Math.min(lowest, p[v]);
    expect(Math.abs(lowest)).toBeLessThan(0.01);
  });
  it("[FG6] the same person is the same shape", () =>
    expect(buildPerson({ stature: 1.7, pose: "standing" })).toBe(
      buildPerson({ stature: 1.7, pose: "standing" }),
    ));
});

describe("[FG4] turn, tip and tilt", () => {
  it("[FG4] a quarter turn to own left points the nose to own left", () =>
    expect(times(headRotation(90, 0, 0), [1, 0, 0])[1]).toBeCloseTo(1, 12));
  it("[FG4] chin up points the nose up", () =>
    expect(times(headRotation(0, 30, 0), [1, 0, 0])[2]).toBeCloseTo(0.5, 12));
  it("[FG4] a tilt toward the own left shoulder takes the crown to own left", () =>
    expect(times(headRotation(0, 0, 30), [0, 0, 1])[1]).toBeCloseTo(0.5, 12));
  it("[FG4] turn comes first: after a quarter turn, chin up still lifts the nose", () =>
    expect(times(headRotation(90, 30, 0), [1, 0, 0])[2]).toBeCloseTo(0.5, 12));
  it("[FG4] a quarter turn takes the own left ear behind; tip leaves it, tilt leaves the nose", () => {
    const near = (got: number[], want: number[]) =>
      got.forEach((x, k) => {
        expect(x).toBeCloseTo(want[k], 12);
      });
    near(times(headRotation(90, 0, 0), [0, 1, 0]), [-1, 0, 0]);
    near(times(headRotation(0, 40, 0), [0, 1, 0]), [0, 1, 0]);
    near(times(headRotation(0, 0, 40), [1, 0, 0]), [1, 0, 0]);
    // chin up by a quarter, the crown points back; then the turn carries it to the own right
    near(times(headRotation(0, 90, 0), [0, 0, 1]), [-1, 0, 0]);
    near(times(headRotation(90, 90, 0), [0, 0, 1]), [0, -1, 0]);
    // tilted by a quarter the left ear points down; tipped as well, the turned nose stays up
    near(times(headRotation(90, 90, 90), [0, 1, 0]), [0, 1, 0]);
    near(times(headRotation(90, 90, 90), [1, 0, 0]), [0, 0, 1]);
  });
});
