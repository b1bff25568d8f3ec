import { describe, expect, test } from "vitest";
import type { PowerLine } from "./contours.ts";
import { nameBox } from "./label-places.ts";
import { placeLineLabels } from "./line-labels.ts";
import { projectionOf } from "./projection.ts";

const PROJECTION = projectionOf(
  {
    extent: { across0: 0, across1: 7, up0: 0, up1: 9 },
    size: { width: 464, height: 586 },
    margin: { left: 0, right: 0, top: 0, bottom: 0 },
  },
  null,
);
const INSIDE = { x0: 0, y0: 0, x1: 464, y1: 586 };

function circle(stops: number, radius: number): PowerLine {
  const points = new Float64Array(2 * 121);
  for (let k = 0; k <= 120; k++) {
    points[2 * k] = 3.5 + radius * Math.cos((k * Math.PI) / 60);
    points[2 * k + 1] = 4.5 + radius * Math.sin((k * Math.PI) / 60);
  }
  return { stops, lines: [points] };
}

const box = ({ x, y }: { x: number; y: number }) => ({ x0: x - 10, x1: x + 10, y0: y - 6, y1: y + 6 });
type Box = ReturnType<typeof box>;
const meet = (a: Box, b: Box) => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;

describe("numbers on the lines of power", () => {
  test("[AP34] each whole stop has its number on its line, no two on top of each other, none on a name or an object", () => {
    const lines = [circle(0, 0.6), circle(-0.5, 0.9), circle(-1, 1.2), circle(-2, 2), circle(-3, 3.1)];
    const name = nameBox({ owner: "people[0]", text: "cellist", x: 240, y: 250, anchor: "start" });
    const occupied = [name, { x0: 150, y0: 200, x1: 230, y1: 400 }];
    const labels = placeLineLabels(lines, PROJECTION, INSIDE, occupied);
    expect(labels.map((label) => label.stops)).toEqual([0, -1, -2, -3]);
    for (const label of labels) {
      const { across, up } = PROJECTION.toPaper(label.x, label.y);
      const radius = { 0: 0.6, [-1]: 1.2, [-2]: 2, [-3]: 3.1 }[label.stops];
      expect(Math.hypot(across - 3.5, up - 4.5)).toBeCloseTo(radius as number, 2);
      for (const other of labels) if (other !== label) expect(meet(box(label), box(other))).toBe(false);
      for (const thing of occupied) expect(meet(box(label), thing)).toBe(false);
      expect(label.x).toBeGreaterThan(INSIDE.x0 + 10);
      expect(label.x).toBeLessThan(INSIDE.x1 - 10);
    }
  });

  test("[AP34] a line with no free place goes without its number", () => {
    expect(placeLineLabels([circle(-1, 1)], PROJECTION, INSIDE, [INSIDE])).toEqual([]);
  });

  test("[AP34] a second long piece of a line has a number of its own, far from the first", () => {
    const [a, b] = [circle(-2, 1).lines[0], circle(-2, 3).lines[0]] as [Float64Array, Float64Array];
    const shifted = a.map((value, k) => value + (k % 2 === 0 ? 0 : 0.5));
    const labels = placeLineLabels([{ stops: -2, lines: [shifted, b] }], PROJECTION, INSIDE, []);
    expect(labels).toHaveLength(2);
    const [p, q] = labels;
    expect(Math.hypot((p?.x ?? 0) - (q?.x ?? 0), (p?.y ?? 0) - (q?.y ?? 0))).toBeGreaterThan(190);
  });
});
