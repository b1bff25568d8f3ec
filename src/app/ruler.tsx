import { type LengthUnits, METRES_PER_INCH } from "../units/index.ts";
import { type Extent, type Projection, rulerMarks } from "./projection.ts";
import { Unspoken } from "./unspoken.tsx";

interface RulerProps {
  readonly projection: Projection;
  readonly extent: Extent;
  readonly units: LengthUnits;
}

/** Metres or feet along the near wall and up the left one: the drawing says its own scale. */
export function Ruler({ projection, extent, units }: RulerProps) {
  const unit = units === "metric" ? 1 : 12 * METRES_PER_INCH;
  const across = rulerMarks(extent.across0, extent.across1, unit, projection.scale);
  const up = rulerMarks(extent.up0, extent.up1, unit, projection.scale);
  const origin = projection.toScreen(extent.across0, extent.up0);
  return (
    <Unspoken class="ruler">
      {across.map((mark) => {
        const { x } = projection.toScreen(mark * unit, extent.up0);
        return (
          <g key={mark}>
            <path d={`M${x},${origin.y}v5`} />
            <text x={x} y={origin.y + 17} text-anchor="middle">
              {mark}
            </text>
          </g>
        );
      })}
      {up.map((mark) => {
        const { y } = projection.toScreen(extent.across0, mark * unit);
        return (
          <g key={mark}>
            <path d={`M${origin.x},${y}h-5`} />
            <text x={origin.x - 9} y={y} dy="0.35em" text-anchor="end">
              {mark}
            </text>
          </g>
        );
      })}
    </Unspoken>
  );
}
