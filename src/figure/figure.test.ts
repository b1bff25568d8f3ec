import { describe, expect, it } from "vitest";
import { CANONICAL_TRIANGLES, CANONICAL_VERTICES } from "./canonical-face.generated.ts";
import {
  buildHead,
  buildPerson,
  frontNeighbours,
  headRotation,
  MATERIAL,
  type Mesh,
  REGION,
} from "./index.ts";

const head = buildHead();
const { positions, triangles, materials } = head.mesh;

function times(m: Float64Array, v: readonly number[]): number[] {
  return [0, 1, 2].map((i) => m[3 * i] * v[0] + m[3 * i + 1] * v[1] + m[3 * i + 2] * v[2]);
}

function volume(m: Mesh): number {
  let sum = 0;
  for (let i = 0; i < m.triangles.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) =>
      Array.from(m.positions.subarray(3 * m.triangles[i + k], 3 * m.triangles[i + k] + 3)),
    );
    sum +=
      (a[0] * (b[1] * c[2] - b[2] * c[1]) -
        a[1] * (b[0] * c[2] - b[2] * c[0]) +
        a[2] * (b[0] * c[1] - b[1] * c[0])) /
      6;
  }
  return sum;
}

describe("[FG1] the head starts from measured data", () => {
  it("the committed mask is the package's own", async () => {
    const { canonicalFace } = await import("../../scripts/canonical-face.mjs");
    expect(canonicalFace()).toEqual({
      vertices: [...CANONICAL_VERTICES],
      triangles: [...CANONICAL_TRIANGLES],
    });
  });
  it("subdivision keeps the nose where it was measured, within half a millimetre", () => {
    const [x, , z] = head.landmarks.noseTip;
    // tip 1: z 7.48, y -1.13 cm; ears at z -3.4, y 0.8; scale 0.0096 m/cm
    expect(Math.abs(x - 0.0096 * (7.475 + 3.4))).toBeLessThan(5e-4);
    expect(Math.abs(z - 0.0096 * (-1.127 - 0.8))).toBeLessThan(5e-4);
  });
  it("has at least 15,000 triangles", () => expect(triangles.length / 3).toBeGreaterThanOrEqual(15000));
});

describe("[FG2] sizes against ANSUR II (2012), means of women and men within two standard deviations", () => {
  it("head breadth 151 mm over the ears' line", () => {
    // ears stand out further: look above them
    let widest = 0;
    for (let v = 0; v < positions.length; v += 3)
      if (positions[v + 2] > 0.05) widest = Math.max(widest, Math.abs(positions[v + 1]));
    expect(Math.abs(2 * widest - 0.151)).toBeLessThan(0.0115);
  });
  it("head length 195 mm, glabella to occiput", () => {
    let back = 0;
    let brow = 0;
    for (let v = 0; v < positions.length; v += 3) {
      back = Math.min(back, positions[v]);
      if (positions[v + 2] > 0.03 && positions[v + 2] < 0.06) brow = Math.max(brow, positions[v]);
    }
    expect(Math.abs(brow - back - 0.195)).toBeLessThan(0.015);
  });
  it("tragion to top of head 129 mm", () => {
    let top = 0;
    for (let v = 2; v < positions.length; v += 3) top = Math.max(top, positions[v]);
    expect(Math.abs(top - 0.129)).toBeLessThan(0.012);
  });
  it("interpupillary distance 62.9 mm", () =>
    expect(Math.abs(2 * head.leftEye.centre[1] - 0.0629)).toBeLessThan(0.007));
  it("menton to sellion 118 mm", () =>
    expect(Math.abs(head.landmarks.noseBridge[2] - head.landmarks.chin[2] - 0.118)).toBeLessThan(0.0128));
  it("the ears of somebody 1.70 m tall are 129 mm under the top", () =>
    expect(buildPerson({ stature: 1.7, pose: "standing", seatHeight: 0.45 }).earHeight).toBeCloseTo(
      1.7 - 0.1294,
      3,
    ));
});

describe("[FG3] the mesh is sound", () => {
  it("the head is open only at the foot of the neck", () => {
    const edges = new Map<string, number>();
    const key = (v: number) =>
      Array.from(positions.subarray(3 * v, 3 * v + 3), (x) => x.toFixed(6)).join(",");
    for (let i = 0; i < triangles.length; i++) {
      const m = materials[Math.floor(i / 3)];
      if (m !== MATERIAL.skin && m !== MATERIAL.lip) continue;
      const a = key(triangles[i]);
      const b = key(triangles[i - (i % 3) + ((i + 1) % 3)]);
      const name = a < b ? `${a}|${b}` : `${b}|${a}`;
      edges.set(name, (edges.get(name) ?? 0) + 1);
    }
    for (const [name, count] of edges) {
      if (count === 2) continue;
      const [x, , z] = name.split("|")[0].split(",").map(Number);
      const neck = z < -0.17;
      // the lids' skirts end inside the globes
      const socket = x > 0.045 && z > 0 && z < 0.035;
      expect(neck || socket, name).toBe(true);
    }
  });
  it("faces out: volumes are positive and plausible", () => {
    expect(volume(head.mesh)).toBeGreaterThan(0.003);
    const person = buildPerson({ stature: 1.7, pose: "seated", seatHeight: 0.45 });
    expect(volume(person.body)).toBeGreaterThan(0.02);
  });
  it("is symmetric: cheeks of equal area", () => {
    const area = (region: number) =>
      head.regions.reduce((sum, r, v) => sum + (r === region ? head.vertexAreas[v] : 0), 0);
    expect(area(REGION.leftCheek)).toBeGreaterThan(5e-4);
    expect(area(REGION.leftCheek) / area(REGION.rightCheek)).toBeCloseTo(1, 2);
    for (const region of Object.values(REGION))
      if (region) expect(area(region), String(region)).toBeGreaterThan(1e-4);
  });
  it("front vertices know their neighbours", () => {
    const { offsets } = frontNeighbours(head);
    head.front.forEach((f, v) => {
      if (f) expect(offsets[v + 1] - offsets[v]).toBeGreaterThan(0);
    });
  });
});

describe("[FG4] turn, tip and tilt", () => {
  it("a quarter turn to own left points the nose to own left", () =>
    expect(times(headRotation(90, 0, 0), [1, 0, 0])[1]).toBeCloseTo(1, 12));
  it("chin up points the nose up", () =>
    expect(times(headRotation(0, 30, 0), [1, 0, 0])[2]).toBeCloseTo(0.5, 12));
  it("a tilt toward the own left shoulder takes the crown to own left", () =>
    expect(times(headRotation(0, 0, 30), [0, 0, 1])[1]).toBeCloseTo(0.5, 12));
  it("turn comes first: after a quarter turn, chin up still lifts the nose", () =>
    expect(times(headRotation(90, 30, 0), [1, 0, 0])[2]).toBeCloseTo(0.5, 12));
});
