import { describe, expect, it } from "vitest";
import { buildBvh, SceneBuilder, Tracer, Walker } from "../engine/index.ts";
import { EDGE_RANGE, EDGE_STEP, EdgeFinder } from "./quick-edges.ts";
import { SKY_ACROSS, SKY_CELLS, SKY_DIRECTIONS, SKY_NODES, skyNode, writeSkyDirection } from "./quick-sky.ts";

describe("[QF1] the sky grid and the angles kept on it", () => {
  it("holds unit directions that go on over the rim", () => {
    const d = new Float64Array(3);
    const between = (a: number, b: number) =>
      Math.hypot(...[0, 1, 2].map((k) => SKY_DIRECTIONS[3 * a + k] - SKY_DIRECTIONS[3 * b + k]));
    for (let n = 0; n < SKY_NODES; n++) {
      const [i, j] = [n % SKY_ACROSS, Math.floor(n / SKY_ACROSS)];
      writeSkyDirection(d, 0, i, j);
      expect(Math.hypot(...d)).toBeCloseTo(1, 12);
      // the widest step of the grid
      for (const [a, b] of [
        [i + 1, j],
        [i - 1, j],
        [i, j + 1],
        [i, j - 1],
      ])
        expect(between(n, skyNode(a, b))).toBeLessThan(0.08);
    }
    expect(Math.hypot(...SKY_DIRECTIONS.subarray(0, 3))).toBeCloseTo(1, 12);
    writeSkyDirection(d, 0, SKY_CELLS / 2, SKY_CELLS / 2);
    expect([...d]).toEqual([1, 0, 0]);
  });

  it("tells how far a straight edge is: closed form (0.3 degrees)", () => {
    // a wall 10 cm ahead, on the left of a slanting line through the point straight ahead
    const slant = 0.4;
    const [c, s] = [Math.cos(slant), Math.sin(slant)];
    const corner = (left: number, up: number) => [0.1, left * c - up * s, left * s + up * c];
    const positions = Float64Array.from([corner(0, -3), corner(3, -3), corner(3, 3), corner(0, 3)].flat());
    const triangles = Uint32Array.of(0, 1, 2, 0, 2, 3);
    const wall = {
      walker: new Walker(buildBvh(positions, triangles)),
      positions,
      normals: new Float64Array(12),
      triangles,
      tileOfTriangle: Int32Array.of(-1, -1),
      rotation: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1),
      offset: new Float64Array(3),
      sphere: Float64Array.of(0, 0, 0, 6),
    };
    const tracer = new Tracer({ ...new SceneBuilder().build(), meshes: [wall] });
    const out = new Int8Array(SKY_NODES);
    new EdgeFinder(tracer).write(Float64Array.of(0, 0, 0, 1, 0, 0), 0, out, 0, 1);
    let near = 0;
    for (let n = 0; n < SKY_NODES; n++) {
      const [x, y, z] = SKY_DIRECTIONS.subarray(3 * n, 3 * n + 3);
      // far aside the rays end before the wall does, which is another edge
      if (x < 0.5) continue;
      const angle = -Math.asin(y * c + z * s);
      if (Math.abs(angle) > EDGE_RANGE - 0.02) expect(Math.abs(out[n])).toBeGreaterThan(110);
      else {
        near++;
        expect(Math.abs(out[n] * EDGE_STEP - angle)).toBeLessThan((0.3 * Math.PI) / 180);
      }
    }
    expect(near).toBeGreaterThan(300);
  });
});
