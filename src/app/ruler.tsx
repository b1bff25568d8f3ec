import type { LengthUnits } from "../units/index.ts";
import type { Extent, Projection } from "./projection.ts";
import { rulerMarks } from "./ruler-marks.ts";
import { Unspoken } from "./unspoken.tsx";

interface RulerProps {
  readonly projection: Projection;
  /** the part of the paper that is seen */
  readonly seen: Extent;
  readonly units: LengthUnits;
}

/** Metres or feet along the near edge of what is seen and up its left one: the drawing says its own scale. */
export function Ruler({ projection, seen, units }: RulerProps) {
  const across = rulerMarks(seen.across0, seen.across1, units, projection.scale);
  const up = rulerMarks(seen.up0, seen.up1, units, projection.scale);
  const origin = projection.toScreen(seen.across0, seen.up0);
  return (
    <Unspoken class="ruler">
      {across.map(({ at_m, text }) => {
        const { x } = projection.toScreen(at_m, seen.up0);
        return (
          <g key={at_m}>
            <path d={`M${x},${origin.y}v5`} />
            <text x={x} y={origin.y + 17} text-anchor="middle">
              {text}
            </text>
          </g>
        );
      })}
      {up.map(({ at_m, text }) => {
        const { y } = projection.toScreen(seen.across0, at_m);
        return (
          <g key={at_m}>
            <path d={`M${origin.x},${y}h-5`} />
            <text x={origin.x - 8} y={y} dy="0.35em" text-anchor="end">
              {text}
            </text>
          </g>
        );
      })}
    </Unspoken>
  );
}
