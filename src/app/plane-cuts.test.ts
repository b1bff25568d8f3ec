import { describe, expect, test } from "vitest";
import { checkPlan, type Plan } from "../plan/index.ts";
import type { FieldMap } from "../reading/index.ts";
import { powerLines } from "./contours.ts";
import { probeField } from "./field-probe.ts";
import { cutsOf, isParted } from "./plane-cuts.ts";

function plan(parts: object): Plan {
  const checked = checkPlan({
    format: "tapemark/plan",
    version: 1,
    room: { width: 6, depth: 8, height: 3 },
    camera: { position: [3, 1, 1.5], direction: { bearing: 0, tilt: 0 }, focalLength: 85, fNumber: 8 },
    ...parts,
  });
  if (!checked.ok) throw new Error(checked.problems[0]?.what);
  return checked.plan;
}

const panel = {
  name: "flag",
  position: [2, 4, 1.2],
  direction: { bearing: 90, tilt: 0 },
  width: 1,
  height: 2,
};
function near(cut: readonly number[] | undefined, wanted: readonly number[]): void {
  for (const [k, value] of wanted.entries()) expect(cut?.[k]).toBeCloseTo(value, 9);
}
const sorted = ([ax, ay, bx, by]: readonly [number, number, number, number]) =>
  ax + ay < bx + by ? [ax, ay, bx, by] : [bx, by, ax, ay];

describe("sheets that part a map", () => {
  test("[AP35] a panel cuts the Floor along its width at the layers' height, and not above its top", () => {
    const p = plan({ panels: [panel] });
    const [cut, ...more] = cutsOf(p, { plane: "floor", at: 1.6 });
    expect(more).toEqual([]);
    near(cut && sorted(cut), [2, 3.5, 2, 4.5]);
    expect(cutsOf(p, { plane: "floor", at: 2.3 })).toEqual([]);
  });

  test("[AP35] paper cuts the Side from its top down its sweep", () => {
    const backdrop = {
      kind: "paper",
      position: [3, 7],
      bearing: 180,
      width: 2.7,
      top: 2.6,
      sweepRadius: 0.5,
    };
    const cuts = cutsOf(plan({ backdrop }), { plane: "side", at: 3 });
    near(cuts[0] && sorted(cuts[0]), [7, 0.5, 7, 2.6]);
    expect(isParted(cuts, 6.9, 2, 7.1, 2)).toBe(true);
    expect(isParted(cuts, 6.9, 2.7, 7.1, 2.7)).toBe(false);
    expect(cutsOf(plan({ backdrop }), { plane: "side", at: 4.5 })).toEqual([]);
  });

  /** 4 stops brighter to the right of x = 2; a gentle slope into the set on either side. */
  function halves(): FieldMap {
    const n = 60 * 60;
    const map: FieldMap = {
      plane: "floor",
      at: 1.5,
      across0: 0.05,
      up0: 0.05,
      dAcross: 0.1,
      dUp: 0.1,
      columns: 60,
      rows: 60,
      stops: new Float32Array(n),
      luxSeconds: new Float32Array(n),
      bearing: new Float32Array(n).fill(90),
      tilt: new Float32Array(n),
      vectorScalarRatio: new Float32Array(n).fill(2),
      referenceFStops: "f/8 + 0.0",
    };
    for (let j = 0; j < 60; j++) {
      for (let i = 0; i < 60; i++) {
        const at = 60 * j + i;
        map.stops[at] = (i < 20 ? -4 : 0) - 0.5 * (0.05 + 0.1 * j - 3);
        map.luxSeconds[at] = 1000 * 2 ** (map.stops[at] as number);
      }
    }
    return map;
  }

  test("[AP35] no line runs along a sheet, and the probe does not mix its two sides", () => {
    const map = halves();
    const cuts = [[2, -1, 2, 7]] as const;
    const along = (lines: ReturnType<typeof powerLines>) =>
      lines.flatMap(({ lines: pieces }) =>
        pieces.filter((points) => {
          let length = 0;
          for (let k = 2; k < points.length; k += 2)
            if (
              Math.abs((points[k] as number) - 2) < 0.051 &&
              Math.abs((points[k - 2] as number) - 2) < 0.051
            )
              length += Math.abs((points[k + 1] as number) - (points[k - 1] as number));
          return length > 0.3;
        }),
      );
    expect(along(powerLines(map))).not.toEqual([]);
    expect(along(powerLines(map, cuts))).toEqual([]);
    // what is a line on either side stays one
    const zero = powerLines(map, cuts).find(({ stops }) => stops === 0);
    expect(zero?.lines).toHaveLength(1);
    expect(probeField(map, 1.98, 3, cuts)?.stops).toBeCloseTo(-4, 1);
    expect(probeField(map, 2.02, 3, cuts)?.stops).toBeCloseTo(0, 1);
    // without the sheet the two would be mixed
    expect(probeField(map, 1.98, 3)?.stops).toBeGreaterThan(-2);
  });
});
