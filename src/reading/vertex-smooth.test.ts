import { describe, expect, it } from "vitest";
import { buildHead } from "../figure/index.ts";
import { smoothOverMesh } from "./vertex-smooth.ts";

const { mesh } = buildHead();
const count = mesh.positions.length / 3;

describe("[RD16] bounced light on people, evened out along the surface", () => {
  it("[RD16] what is even stays even, to a float", () => {
    const light = new Float32Array(3 * count).fill(0.7);
    smoothOverMesh(mesh, light);
    for (const x of light) expect(x).toBeCloseTo(0.7, 6);
  });

  it("[RD16] grain of one vertex in two falls to under half of itself", () => {
    // by the golden ratio: as good as chance, and the same in every run
    const light = Float32Array.from({ length: 3 * count }, (_, i) => 1 + ((i * 0.6180339887) % 1) - 0.5);
    const spread = (x: Float32Array) => {
      const mean = x.reduce((a, b) => a + b) / x.length;
      return Math.sqrt(x.reduce((a, b) => a + (b - mean) ** 2, 0) / x.length);
    };
    const before = spread(light);
    smoothOverMesh(mesh, light);
    expect(spread(light)).toBeLessThan(0.45 * before);
  });

  it("[RD16] nothing crosses a crease: two faces of a fold keep their own", () => {
    const fold = {
      normals: Float64Array.of(0, 0, 1, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0, 0, 1, 0, 0),
      triangles: Uint32Array.of(0, 1, 2, 1, 3, 2, 3, 4, 5),
    };
    const light = Float32Array.from([1, 1, 1, 1, 1, 1, 1, 1, 1, 5, 5, 5, 5, 5, 5, 5, 5, 5]);
    const kept = light.slice();
    smoothOverMesh(fold, light);
    expect(light).toEqual(kept);
  });
});
