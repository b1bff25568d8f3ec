import { describe, expect, test } from "vitest";
import type { FieldMap } from "../reading/index.ts";
import { powerLevels, powerLines } from "./contours.ts";
import { curve } from "./curve.ts";
import { directionTicks, probeField } from "./field-probe.ts";
import { projectionOf } from "./projection.ts";

/** A bare point 1 m above the map's plane at (cx, cy): H = 1000 / d², read facing it; 0 stops at 1000 lx.s. */
function pointField(cx: number, cy: number, columns = 70, rows = 90, cell = 0.1): FieldMap {
  const size = columns * rows;
  const map: FieldMap = {
    plane: "floor",
    at: 1.5,
    across0: cell / 2,
    up0: cell / 2,
    dAcross: cell,
    dUp: cell,
    columns,
    rows,
    stops: new Float32Array(size),
    luxSeconds: new Float32Array(size),
    bearing: new Float32Array(size),
    tilt: new Float32Array(size),
    vectorScalarRatio: new Float32Array(size).fill(4),
    referenceFStops: "f/16 + 0.0",
  };
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const dx = cx - (map.across0 + i * cell);
      const dy = cy - (map.up0 + j * cell);
      const square = dx * dx + dy * dy + 1;
      const at = j * columns + i;
      map.luxSeconds[at] = 1000 / square;
      map.stops[at] = Math.log2(1 / square);
      map.bearing[at] = (Math.atan2(dx, dy) * 180) / Math.PI;
      map.tilt[at] = (Math.atan2(1, Math.hypot(dx, dy)) * 180) / Math.PI;
    }
  }
  return map;
}

describe("lines of equal exposure", () => {
  test("[AP3] a point's lines are circles at the inverse-square radius, within a tenth of a cell", () => {
    const lines = powerLines(pointField(3.5, 4.5));
    for (const stops of [-1, -2, -3]) {
      const line = lines.find((candidate) => candidate.stops === stops);
      // 1 / (r² + 1) = 2^stops
      const radius = Math.sqrt(2 ** -stops - 1);
      expect(line?.lines).toHaveLength(1);
      const points = line?.lines[0] as Float64Array;
      for (let k = 0; k < points.length; k += 2) {
        const r = Math.hypot((points[k] as number) - 3.5, (points[k + 1] as number) - 4.5);
        expect(Math.abs(r - radius)).toBeLessThan(0.01);
      }
    }
  });

  test("[AP3] a line that leaves the map is open and does not run along its edge", () => {
    const lines = powerLines(pointField(0.2, 4.5));
    const line = lines.find((candidate) => candidate.stops === -3);
    const radius = Math.sqrt(7);
    expect(line?.lines).toHaveLength(1);
    const points = line?.lines[0] as Float64Array;
    for (let k = 0; k < points.length; k += 2) {
      const r = Math.hypot((points[k] as number) - 0.2, (points[k + 1] as number) - 4.5);
      expect(Math.abs(r - radius)).toBeLessThan(0.03);
    }
  });

  test("[AP3] whole stops everywhere, half stops only within one stop of the face", () => {
    // from just under 0 at the middle down to log2(1 / (3.45² + 4.45² + 1)) = −5.04 in the corner
    expect(powerLevels(pointField(3.5, 4.5))).toEqual([-5, -4, -3, -2, -1, -0.5]);
  });

  test("[AP33] as drawn, smoothly, a line is off its true circle by less than a twentieth of a cell", () => {
    const projection = projectionOf(
      {
        extent: { across0: 0, across1: 7, up0: 0, up1: 9 },
        size: { width: 700, height: 900 },
        margin: { left: 0, right: 0, top: 0, bottom: 0 },
      },
      null,
    );
    const line = powerLines(pointField(3.5, 4.5)).find(({ stops }) => stops === -1);
    const numbers = curve(line?.lines[0] as Float64Array, projection).match(/-?[\d.]+/g) ?? [];
    const points: [number, number][] = [];
    for (let k = 0; k < numbers.length; k += 2) points.push([Number(numbers[k]), Number(numbers[k + 1])]);
    expect(points.length).toBeGreaterThan(60);
    // start, then pull and end of each stretch
    for (let k = 0; k + 2 < points.length; k += 2) {
      const [a, pull, b] = [points[k], points[k + 1], points[k + 2]] as [number[], number[], number[]];
      for (const t of [0, 0.25, 0.5, 0.75]) {
        const mix = (c: number) =>
          (1 - t) ** 2 * (a[c] as number) + 2 * t * (1 - t) * (pull[c] as number) + t * t * (b[c] as number);
        const { across, up } = projection.toPaper(mix(0), mix(1));
        // 1 / (r² + 1) = 1/2; written to a tenth of a pixel, which is a millimetre here
        expect(Math.abs(Math.hypot(across - 3.5, up - 4.5) - 1)).toBeLessThan(0.005);
      }
    }
  });

  test("[AP36] an island within the grain is left out, one that differs from its level stays", () => {
    const map = pointField(3.5, 4.5, 60, 60);
    const island = (stops: number) => {
      map.stops.fill(-2.6);
      map.stops[60 * 30 + 30] = stops;
      map.luxSeconds.forEach((_, k) => {
        map.luxSeconds[k] = 1000 * 2 ** (map.stops[k] as number);
      });
      return powerLines(map).map(({ stops: level, lines }) => [level, lines.length]);
    };
    expect(island(-1.95)).toEqual([]);
    expect(island(-1.5)).toEqual([[-2, 1]]);
  });

  test("[AP3] a map without light has no lines", () => {
    const map = pointField(3.5, 4.5);
    map.stops.fill(Number.NEGATIVE_INFINITY);
    expect(powerLines(map)).toEqual([]);
  });
});

describe("the probe and the ticks", () => {
  test("[AP4] reads between cells as the point does: exposure within 1 %, direction within 1°", () => {
    const map = pointField(3.5, 4.5);
    for (const [x, y] of [
      [1.23, 2.71],
      [5.02, 7.49],
      [3.1, 4.9],
    ] as const) {
      const square = (3.5 - x) ** 2 + (4.5 - y) ** 2 + 1;
      const probe = probeField(map, x, y);
      expect(probe?.luxSeconds).toBeGreaterThan((1000 / square) * 0.99);
      expect(probe?.luxSeconds).toBeLessThan((1000 / square) * 1.01);
      const bearing = ((Math.atan2(3.5 - x, 4.5 - y) * 180) / Math.PI + 360) % 360;
      expect(Math.abs((probe?.bearing ?? 999) - bearing)).toBeLessThan(1);
      expect(probe?.stops).toBeCloseTo(Math.log2(1 / square), 1);
    }
  });

  test("[AP4] mixes directions across north without going the long way round", () => {
    const probe = probeField(pointField(3.5, 8.9), 3.5, 1);
    const bearing = probe?.bearing ?? 180;
    expect(Math.min(bearing, 360 - bearing)).toBeLessThan(1);
  });

  test("[AP4] outside the map there is nothing to read; where nothing arrives there is no direction", () => {
    const map = pointField(3.5, 4.5);
    expect(probeField(map, -0.3, 2)).toBeNull();
    map.luxSeconds.fill(0);
    map.bearing.fill(Number.NaN);
    map.tilt.fill(Number.NaN);
    map.stops.fill(Number.NEGATIVE_INFINITY);
    expect(probeField(map, 2, 2)).toMatchObject({
      luxSeconds: 0,
      bearing: null,
      stops: Number.NEGATIVE_INFINITY,
    });
    expect(directionTicks(map, 1)).toEqual([]);
  });

  test("[AP4] ticks point at the light, shorter where it comes from above", () => {
    const ticks = directionTicks(pointField(3.5, 4.5), 1);
    expect(ticks).toHaveLength(7 * 9);
    for (const tick of ticks) {
      const [dx, dy] = [3.5 - tick.x, 4.5 - tick.y];
      const distance = Math.hypot(dx, dy);
      if (distance < 0.3) continue;
      expect(Math.hypot(tick.dx, tick.dy)).toBeCloseTo(distance / Math.hypot(distance, 1), 1);
      expect((tick.dx * dx + tick.dy * dy) / distance / Math.hypot(tick.dx, tick.dy)).toBeGreaterThan(0.999);
    }
  });

  test("[AP38] on the Side a tick is the vector as it lies in that paper: into the set, and up", () => {
    const map: FieldMap = { ...pointField(3.5, 4.5), plane: "side" };
    const way = (bearing: number, tilt: number, ratio: number) => {
      map.bearing.fill(bearing);
      map.tilt.fill(tilt);
      map.vectorScalarRatio.fill(ratio);
      const [tick] = directionTicks(map, 3);
      return [tick?.dx, tick?.dy] as [number, number];
    };
    const near = (found: readonly number[], wanted: readonly number[]) => {
      for (const [k, value] of wanted.entries()) expect(found[k]).toBeCloseTo(value, 5);
    };
    near(way(0, 0, 4), [1, 0]);
    near(way(180, 30, 4), [-Math.cos(Math.PI / 6), 0.5]);
    near(way(0, 90, 2), [0, 0.5]);
    // from the right wall: straight out of the paper
    near(way(90, 0, 4), [0, 0]);
  });
});
