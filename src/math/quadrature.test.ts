import { describe, expect, it } from "vitest";
import { gaussLegendre, integrate } from "./index.ts";

describe("[MA2] Gauss-Legendre quadrature", () => {
  // Abramowitz and Stegun, table 25.4, printed to fifteen figures
  it.each([
    [2, [0.577350269189626], [1]],
    [3, [0, 0.774596669241483], [0.888888888888889, 0.555555555555556]],
    [4, [0.339981043584856, 0.861136311594053], [0.652145154862546, 0.347854845137454]],
    [5, [0, 0.538469310105683, 0.906179845938664], [0.568888888888889, 0.478628670499366, 0.236926885056189]],
  ])("%i points are those of the printed table", (n, nodes, weights) => {
    const rule = gaussLegendre(n);
    nodes.forEach((node, i) => {
      const at = n - nodes.length + i;
      expect(rule.nodes[at]).toBeCloseTo(node, 14);
      expect(rule.nodes[n - 1 - at]).toBeCloseTo(-node, 14);
      expect(rule.weights[at]).toBeCloseTo(weights[i], 14);
    });
  });
  it("n points are exact to degree 2n - 1, and no further", () => {
    for (const n of [1, 2, 7, 16, 64]) {
      expect(integrate((x) => x ** (2 * n - 1) + x ** (2 * n - 2), 0, 1, n)).toBeCloseTo(
        1 / (2 * n) + 1 / (2 * n - 1),
        13,
      );
    }
    expect(Math.abs(integrate((x) => x ** 4, 0, 1, 2) - 0.2)).toBeGreaterThan(1e-3);
  });
  it("64 points have ascending nodes inside the ends and weights that sum to 2", () => {
    const { nodes, weights } = gaussLegendre(64);
    expect([...nodes]).toEqual([...nodes].sort((a, b) => a - b));
    expect(nodes[0]).toBeGreaterThan(-1);
    expect(weights.reduce((a, b) => a + b)).toBeCloseTo(2, 13);
  });
  it.each([0, 1.5, Number.NaN])("%f points are refused", (n) =>
    expect(() => gaussLegendre(n)).toThrow(RangeError),
  );
});
