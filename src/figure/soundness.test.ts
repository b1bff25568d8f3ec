/** Whether the meshes are solids that light cannot leak into: edges, volumes, and rays by brute force. */
import { describe, expect, it } from "vitest";
import { buildHead, buildPerson, MATERIAL, type Mesh } from "./index.ts";
import { volumeOf } from "./solids.ts";
import { at, directedEdges, distance, firstHit, openEnds, winding } from "./testing/probes.ts";

const head = buildHead();
const standing = buildPerson({ stature: 1.7, pose: "standing" }).body;
const seated = buildPerson({ stature: 1.7, pose: "seated", seatHeight: 0.45 }).body;

describe("[FG3] the meshes are sound", () => {
  it("[FG3] the head's only open edges are the lids' skirts, and those lie inside the globes", () => {
    const ends = openEnds(head.mesh);
    expect(ends.length).toBeGreaterThan(0);
    for (const v of ends) {
      const p = at(head.mesh, v);
      const eye = p[1] > 0 ? head.leftEye : head.rightEye;
      const within = Math.min(
        distance(p, eye.centre) - eye.globeRadius,
        distance(p, eye.corneaCentre) - eye.corneaRadius,
      );
      expect(within, `${p}`).toBeLessThan(0);
    }
  });
  it("[FG3] skin with two eye openings, two globes, two ears: Euler's number 0 + 4 x 2", () => {
    const vertices = head.mesh.positions.length / 3;
    const edges = new Set<number>();
    for (const name of directedEdges(head.mesh).keys()) {
      const [a, b] = [Math.floor(name / vertices), name % vertices];
      edges.add(Math.min(a, b) * vertices + Math.max(a, b));
    }
    expect(vertices - edges.size + head.mesh.triangles.length / 3).toBe(8);
  });
  it.each([
    ["standing", standing],
    ["seated", seated],
  ])("[FG3] the %s body is closed", (_, body) => expect(openEnds(body)).toEqual([]));
  it("[FG3] volumes are those of people: head with neck 4 to 6.5 l, body 45 to 85 l", () => {
    const litres = (m: Mesh) => 1000 * volumeOf(m.positions, m.triangles);
    expect(litres(head.mesh)).toBeGreaterThan(4);
    expect(litres(head.mesh)).toBeLessThan(6.5);
    for (const body of [standing, seated]) {
      expect(litres(body)).toBeGreaterThan(45);
      expect(litres(body)).toBeLessThan(85);
    }
  });
  it("[FG3] no triangle of the front is turned away from its vertices' normals", () => {
    const { positions: p, normals: n, triangles } = head.mesh;
    for (let i = 0; i < triangles.length; i += 3) {
      const corners = [0, 1, 2].map((k) => 3 * triangles[i + k]);
      if (!corners.every((c) => head.front[c / 3])) continue;
      const [a, b, c] = corners;
      const u = [0, 1, 2].map((k) => p[b + k] - p[a + k]);
      const w = [0, 1, 2].map((k) => p[c + k] - p[a + k]);
      const out = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
      for (const v of corners)
        expect(out[0] * n[v] + out[1] * n[v + 1] + out[2] * n[v + 2], `triangle ${i / 3}`).toBeGreaterThan(0);
    }
  });
  it("[FG3] 600 rays from all round meet a face from outside first: nothing is torn, no light leaks in", () => {
    for (let i = 0; i < 600; i++) {
      // evenly spread ways by the golden angle, aimed at points throughout the head
      const z = 1 - (2 * i + 1) / 600;
      const turn = i * 2.399963229728653;
      const r = Math.sqrt(1 - z * z);
      const way = [r * Math.cos(turn), r * Math.sin(turn), z];
      const aim = [0.02 + 0.07 * Math.sin(7 * i), 0.05 * Math.sin(11 * i), 0.02 + 0.07 * Math.sin(13 * i)];
      const hit = firstHit(
        head.mesh,
        aim.map((x, k) => x + way[k]),
        way.map((x) => -x),
      );
      if (hit) expect(hit.facing, `ray ${i}`).toBeLessThan(0);
    }
  });
  it("[FG3] inside is inside: the head's middle, not a meter 3 cm before the chin", () => {
    expect(winding(head.mesh, [0.01, 0.002, 0.04])).toBeCloseTo(1, 2);
    const [x, y, z] = head.landmarks.chin;
    expect(winding(head.mesh, [x + 0.03, y, z])).toBeCloseTo(0, 2);
  });
});

describe("[FG7] eyes", () => {
  it("[FG7] lids lie off the globe and the cornea, everywhere", () => {
    for (const eye of [head.leftEye, head.rightEye])
      for (let v = 0; v < head.front.length; v++) {
        if (!head.front[v]) continue;
        const p = at(head.mesh, v);
        expect(distance(p, eye.centre)).toBeGreaterThan(eye.globeRadius + 2e-4);
        if (p[0] > eye.corneaCentre[0])
          expect(distance(p, eye.corneaCentre)).toBeGreaterThan(eye.corneaRadius + 2e-4);
      }
  });
  it("[FG7] from in front the eye shows pupil, iris and white, with lids close above and below", () => {
    const seen = (y: number, z: number) => {
      const [cx, cy, cz] = head.leftEye.centre;
      const hit = firstHit(head.mesh, [cx + 0.1, cy + y, cz + z], [-1, 0, 0]);
      return hit ? cx + 0.1 - hit.t : Number.NaN;
    };
    // apex of the cornea: 5.6 + 7.8 mm before the globe's centre
    expect(seen(0, 0) - head.leftEye.centre[0]).toBeCloseTo(0.0134, 4);
    // 8 mm above and below the line of sight the skin is first, before where the globe would be
    const globe = Math.sqrt(0.012 ** 2 - 0.008 ** 2);
    for (const z of [0.008, -0.008])
      expect(seen(0, z) - head.leftEye.centre[0]).toBeGreaterThan(globe + 5e-4);
  });
  it("[FG7] rays at a slant through the opening never meet the inside of skin or globe", () => {
    const [cx, cy, cz] = head.leftEye.centre;
    for (let i = -15; i <= 15; i += 3)
      for (let j = -6; j <= 6; j += 2)
        for (const [dy, dz] of [
          [0, 0],
          [0.7, 0],
          [-0.7, 0],
          [0, 0.6],
          [0, -0.6],
        ]) {
          const length = Math.hypot(1, dy, dz);
          const way = [-1 / length, dy / length, dz / length];
          const through = [cx + 0.013, cy + i / 1000, cz + j / 1000];
          const hit = firstHit(
            head.mesh,
            through.map((x, k) => x - 0.2 * way[k]),
            way,
          );
          expect(hit?.facing ?? -1, `${i},${j} ${dy},${dz}`).toBeLessThan(0);
        }
  });
  it("[FG7] iris 5.9 mm, cornea 7.8 mm, globe 12 mm in radius; the materials are there", () => {
    expect(head.leftEye.irisRadius).toBeCloseTo(0.0059, 6);
    expect(head.leftEye.corneaRadius).toBeCloseTo(0.0078, 6);
    expect(head.leftEye.globeRadius).toBeCloseTo(0.012, 6);
    for (const m of [MATERIAL.pupil, MATERIAL.iris, MATERIAL.sclera, MATERIAL.lip])
      expect(head.mesh.materials.includes(m)).toBe(true);
  });
  it("[FG7] every vertex of an eye lies on its globe or its cornea; iris and pupil are discs of their radius", () => {
    const eye = head.leftEye;
    let widest = 0;
    head.mesh.materials.forEach((m, t) => {
      if (m !== MATERIAL.sclera && m !== MATERIAL.iris && m !== MATERIAL.pupil) return;
      for (const v of head.mesh.triangles.subarray(3 * t, 3 * t + 3)) {
        const p = at(head.mesh, v);
        if (p[1] < 0) continue;
        const off = Math.min(
          Math.abs(distance(p, eye.centre) - eye.globeRadius),
          Math.abs(distance(p, eye.corneaCentre) - eye.corneaRadius),
        );
        expect(off).toBeLessThan(1e-9);
        if (m !== MATERIAL.sclera)
          widest = Math.max(widest, Math.hypot(p[1] - eye.centre[1], p[2] - eye.centre[2]));
      }
    });
    expect(widest).toBeCloseTo(eye.irisRadius, 9);
  });
});
