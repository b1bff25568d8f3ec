import { describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import { Pcg32 } from "../math/index.ts";
import { checkPlan } from "../plan/index.ts";
import { plumbOf, targetsOf, touchesOf } from "./by-body-target.ts";

const chance = new Pcg32(41, 9);
const between = (low: number, high: number) => low + (high - low) * chance.next();

/** A front turned anyhow, and a shoulder near it. */
function drawn(face: object) {
  const made = checkPlan({
    format: "tapemark/plan",
    version: 1,
    lights: [
      {
        name: "key",
        position: [0, 0, between(1.2, 2.6)],
        direction: { bearing: between(0, 360), tilt: between(-80, 80) },
        roll: between(-90, 90),
        face,
        output: { wattSeconds: 100 },
      },
    ],
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const from = [between(-1.5, 1.5), between(-1.5, 1.5), between(1, 1.8)] as const;
  return { target: targetsOf(made.plan)[0], from: [...from] as [number, number, number] };
}

const far = (a: readonly number[], b: readonly number[]) => Math.hypot(...a.map((x, k) => x - b[k]));
/** Along a rim, whatever its corners. */
const POINTS = 2400;

describe("[BY4] what lies nearest to a shoulder and to a mark, against points laid close beside each other", () => {
  it.each([
    ["octagon", { shape: "polygon", sides: 8, width: 1.2 }],
    ["strip", { shape: "rectangle", width: 0.3, height: 1.4 }],
    ["dish", { shape: "disc", width: 0.55 }],
  ])("%s", (_, face) => {
    for (let n = 0; n < amount(200); n++) {
      const { target, from } = drawn(face);
      const { outline } = target;
      const parts = Math.ceil(POINTS / outline.length);
      const rim = outline.flatMap((a, i) => {
        const b = outline[(i + 1) % outline.length];
        return Array.from({ length: parts }, (_, j) => a.map((x, k) => x + (j / parts) * (b[k] - x)));
      });
      const [touch, front] = touchesOf(target, from);
      const least = Math.min(...rim.map((p) => far(p, from)));
      // no point of it is nearer, and one of those laid is as near but for their spacing
      expect(far(touch.point, from)).toBeLessThan(least + 1e-9);
      expect(least - far(touch.point, from)).toBeLessThan(0.004);
      // on the way from the middle to any point of the rim nothing is nearer than what is told
      const inner = Math.min(
        ...rim.flatMap((p) =>
          [0.25, 0.5, 0.75].map((t) =>
            far(
              p.map((x, k) => target.at[k] + t * (x - target.at[k])),
              from,
            ),
          ),
        ),
      );
      if (front !== undefined) {
        const d = front.point.map((x, k) => x - target.at[k]);
        const along = (p: readonly number[]) => {
          const r = p.map((x, k) => x - target.at[k]);
          return (r[0] * d[0] + r[1] * d[1] + r[2] * d[2]) / Math.hypot(...r);
        };
        const edge = rim.reduce((a, b) => (along(b) > along(a) ? b : a));
        // it lies on the front, not past its rim
        expect(Math.hypot(...d)).toBeLessThan(far(edge, target.at) + 0.004);
      }
      const told = far((front ?? touch).point, from);
      expect(told).toBeLessThan(inner + 1e-9);
      expect(told).toBeLessThanOrEqual(far(touch.point, from) + 1e-9);
      const plumb = plumbOf(target, [from[0], from[1]]);
      const flat = Math.min(...rim.map(([x, y]) => Math.hypot(x - from[0], y - from[1])));
      const found = Math.hypot(plumb.point[0] - from[0], plumb.point[1] - from[1]);
      expect(found).toBeLessThan(flat + 1e-9);
      expect(flat - found).toBeLessThan(0.004);
    }
  });
});
