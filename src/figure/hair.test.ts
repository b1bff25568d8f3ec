/** Hair by brute force: where its skin lies, what it covers, how it hangs. */
import { describe, expect, it } from "vitest";
import { headField } from "./cranium.ts";
import { behindHairline } from "./hairline.ts";
import { bendWithNeck, buildHead, buildPerson, headRotation, MATERIAL, type Mesh } from "./index.ts";
import { volumeOf } from "./solids.ts";
import { at, firstHit, openEnds, winding } from "./testing/probes.ts";

const head = buildHead();
const hairOf = (hair: "short" | "shoulder", headSize = 50): Mesh => {
  const made = buildPerson({ stature: 1.7, pose: "standing", hair, headSize }).hair;
  if (!made) throw new Error("no hair");
  return made;
};
const LENGTHS = ["short", "shoulder"] as const;
const hits = (m: Mesh, from: readonly number[], way: readonly number[]) => firstHit(m, from, way) !== null;

describe.each(LENGTHS)("[FG10] %s hair", (length) => {
  const hair = hairOf(length);
  const count = hair.positions.length / 3;

  it("[FG10] is one closed solid under 15,000 triangles, all of it hair", () => {
    expect(openEnds(hair)).toEqual([]);
    expect(hair.triangles.length / 3).toBeLessThan(15_000);
    expect(volumeOf(hair.positions, hair.triangles)).toBeGreaterThan(0);
    expect(hair.materials.every((m) => m === MATERIAL.hair)).toBe(true);
  });
  it("[FG10] is the same on both sides", () => {
    // a micrometre: what mirrored cells differ by in the last digits
    const key = (p: readonly number[], side: number) =>
      [p[0], side * p[1], p[2]].map((x) => Math.round(x * 1e5)).join();
    const seen = new Set<string>();
    for (let v = 0; v < count; v++) seen.add(key(at(hair, v), 1));
    let lacking = 0;
    for (let v = 0; v < count; v++) if (!seen.has(key(at(hair, v), -1))) lacking++;
    // a coordinate at the edge between two roundings may fall to either side
    expect(lacking / count).toBeLessThan(0.01);
  });
  it("[FG10] stands 8 to 20 mm off the top of the skull, away from the hairline", () => {
    let looked = 0;
    for (let v = 0; v < count; v++) {
      const [x, y, z] = at(hair, v).map((c) => 100 * c);
      if (z < 8 || behindHairline(x, z) < 5) continue;
      looked++;
      const off = 10 * headField(x, y, z);
      expect(off, `${x} ${y} ${z}`).toBeGreaterThan(8);
      expect(off, `${x} ${y} ${z}`).toBeLessThan(20);
    }
    expect(looked).toBeGreaterThan(300);
  });
  it("[FG10] covers the skull: rays from above and behind meet hair before skin", () => {
    for (let v = 0; v < head.front.length; v += 5) {
      const [x, y, z] = at(head.mesh, v);
      if (z < 0.095 || x > 0.05) continue;
      const up = Array.from(head.mesh.normals.subarray(3 * v, 3 * v + 3));
      expect(hits(hair, [x, y, z], up), `${x} ${y} ${z}`).toBe(true);
    }
  });
  it.each([1, 50, 99])("[FG10] covers nothing of the front of the face, percentile %d", (size) => {
    const own = buildHead(size);
    const worn = hairOf(length, size);
    let looked = 0;
    for (let v = 0; v < own.front.length; v += 11) {
      if (!own.front[v]) continue;
      looked++;
      const p = at(own.mesh, v);
      const normal = Array.from(own.mesh.normals.subarray(3 * v, 3 * v + 3));
      expect(hits(worn, p, normal), `${p} along its normal`).toBe(false);
      // as the camera sees it from straight ahead and from a quarter to either side, where it can be seen at all
      for (const turn of [0, 0.6, -0.6]) {
        const way = [Math.cos(turn), Math.sin(turn), 0];
        if (way[0] * normal[0] + way[1] * normal[1] < 0.2) continue;
        expect(hits(worn, p, way), `${p} seen from ${turn}`).toBe(false);
      }
    }
    expect(looked).toBeGreaterThan(200);
  });
});

describe("[FG10] long hair", () => {
  const hair = hairOf("shoulder");
  it("[FG10] ends on the shoulders: 15 to 21 cm under the ears; short hair ends at the nape", () => {
    const lowest = (m: Mesh) => m.positions.reduce((low, c, i) => (i % 3 === 2 ? Math.min(low, c) : low), 1);
    expect(lowest(hair)).toBeLessThan(-0.15);
    expect(lowest(hair)).toBeGreaterThan(-0.21);
    expect(lowest(hairOf("short"))).toBeGreaterThan(-0.09);
  });
  it("[FG10] leaves the throat free and hides the nape", () => {
    expect(hits(hair, [0.035, 0, -0.11], [1, 0, 0])).toBe(false);
    expect(winding(hair, [0.035, 0, -0.11])).toBeCloseTo(0, 2);
    expect(hits(hair, [-0.085, 0, -0.11], [-1, 0, 0])).toBe(true);
  });
  it.each([
    [50, 0, 0],
    [0, -20, 0],
    [-30, 5, 10],
  ])(
    "[FG10] turn %d, tip %d, tilt %d: its ends stay on the shoulders, its crown goes with the head",
    (...pose) => {
      const m = headRotation(...pose);
      const bent = bendWithNeck(hair, 1, m);
      let [ends, crown] = [0, 0];
      for (let v = 0; v < hair.positions.length / 3; v++) {
        const before = at(hair, v);
        const after = at(bent, v);
        const height = 0.272 * before[0] + 0.962 * before[2] + 0.1271;
        if (height > 0.06) {
          expect(after).toEqual(before);
          crown++;
        } else if (height < 0) {
          const body = [0, 1, 2].map(
            (i) => m[3 * i] * after[0] + m[3 * i + 1] * after[1] + m[3 * i + 2] * after[2],
          );
          body.forEach((c, k) => {
            expect(c).toBeCloseTo(before[k], 12);
          });
          ends++;
        }
      }
      expect(ends).toBeGreaterThan(500);
      expect(crown).toBeGreaterThan(1000);
    },
  );
});

it("[FG10] hair of one length and size is one mesh; bare heads have none", () => {
  expect(hairOf("short")).toBe(hairOf("short"));
  expect(buildPerson({ stature: 1.7, pose: "standing" }).hair).toBeNull();
});
