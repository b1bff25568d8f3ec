import { useMemo } from "preact/hooks";
import type { FieldMap } from "../reading/index.ts";
import { formatStops } from "../units/index.ts";
import { placeLabels, powerLines } from "./contours.ts";
import { directionTicks } from "./field-probe.ts";
import type { Extent, Projection } from "./projection.ts";
import { Unspoken } from "./unspoken.tsx";

interface LayerProps {
  readonly map: FieldMap;
  readonly projection: Projection;
}

/** Lines of equal exposure, in stops from the person's face, the number on the line. */
export function PowerLayer({
  map,
  projection,
  keepClear,
  extent,
}: LayerProps & { keepClear: readonly { x: number; y: number }[]; extent: Extent }) {
  const lines = useMemo(() => powerLines(map), [map]);
  const labels = useMemo(() => {
    const inset = 14 / projection.scale;
    return placeLabels(lines, keepClear, {
      x0: extent.across0 + inset,
      y0: extent.up0 + inset,
      x1: extent.across1 - inset,
      y1: extent.up1 - inset,
    });
  }, [lines, projection, keepClear, extent]);
  return (
    <Unspoken class="power-layer">
      {lines.map((line) => (
        <path
          key={line.stops}
          class={line.stops === 0 ? "at-face" : Number.isInteger(line.stops) ? undefined : "half"}
          d={line.lines.map((points) => pathData(points, projection)).join("")}
        />
      ))}
      {labels.map((label) => {
        const { x, y } = projection.toScreen(label.x, label.y);
        return (
          <text key={label.stops} x={x} y={y} dy="0.35em">
            {label.stops === 0 ? "0" : formatStops(label.stops, 0)}
          </text>
        );
      })}
    </Unspoken>
  );
}

function pathData(points: Float64Array, projection: Projection): string {
  let data = "";
  for (let k = 0; k < points.length; k += 2) {
    const { x, y } = projection.toScreen(points[k] as number, points[k + 1] as number);
    data += `${k === 0 ? "M" : "L"}${x.toFixed(1)},${y.toFixed(1)}`;
  }
  return data;
}

/** About this many pixels between two ticks, and this long where all the light comes level from one side. */
const TICK_SPACING_PX = 42;
const TICK_PX = 30;

/** Where the light comes from, seen from above: each tick leads from its dot toward the source. */
export function DirectionLayer({ map, projection }: LayerProps) {
  const ticks = useMemo(() => directionTicks(map, TICK_SPACING_PX / projection.scale), [map, projection]);
  return (
    <Unspoken class="direction-layer">
      {ticks.map((tick) => {
        const { x, y } = projection.toScreen(tick.x, tick.y);
        return (
          <g key={`${tick.x} ${tick.y}`}>
            <path
              d={`M${x.toFixed(1)},${y.toFixed(1)}l${(tick.dx * TICK_PX).toFixed(1)},${(-tick.dy * TICK_PX).toFixed(1)}`}
            />
            <circle cx={x} cy={y} r={1.8} />
          </g>
        );
      })}
    </Unspoken>
  );
}
