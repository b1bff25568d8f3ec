import type { Known } from "../plan/index.ts";
import { signedStops } from "./wording.ts";

interface ScaleProps {
  readonly name: string;
  readonly before: Known;
  readonly after: Known | null;
}

const WIDTH = 240;
const STOP = 48;
/** Two stops either way; what lies beyond is drawn at the end. */
const REACH = 2.4;

/** What is taken for it and how sure that is, before and after, on one scale of stops. */
export function StopsScale({ name, before, after }: ScaleProps) {
  const x = (stops: number) => WIDTH / 2 + STOP * Math.min(REACH, Math.max(-REACH, stops));
  const span = ({ stops, uncertaintyStops }: Known, y: number) =>
    `M${x(stops - uncertaintyStops)},${y}H${x(stops + uncertaintyStops)}`;
  const said = (known: Known) => `${signedStops(known.stops)} ± ${known.uncertaintyStops.toFixed(1)} stops`;
  const label = `${name}: ${said(before)}${after === null ? "" : `, after the readings ${said(after)}`}`;
  return (
    <svg class="stops-scale" viewBox={`0 0 ${WIDTH} 40`} role="img" aria-label={label}>
      <path class="scale-foot" d={`M0,26H${WIDTH}`} />
      {[-2, -1, 0, 1, 2].map((stops) => (
        <g key={stops}>
          <path class="scale-foot" d={`M${x(stops)},26v4`} />
          <text x={x(stops)} y={39}>
            {stops === 0 ? "0" : `${stops < 0 ? "−" : "+"}${Math.abs(stops)}`}
          </text>
        </g>
      ))}
      <path class="scale-before" d={span(before, 8)} />
      <circle class="scale-before" cx={x(before.stops)} cy={8} r={2.6} />
      {after !== null && (
        <>
          <path class="scale-after" d={span(after, 18)} />
          <circle class="scale-after" cx={x(after.stops)} cy={18} r={2.6} />
        </>
      )}
    </svg>
  );
}

/** What the two marks of a scale stand for. */
export function ScaleKey({ hasAfter }: { readonly hasAfter: boolean }) {
  return (
    <p class="quiet scale-key">
      stops more (+) or less (−) than its own numbers give
      {hasAfter && (
        <>
          :{" "}
          <span class="scale-sample">
            <i class="before" /> before
          </span>
          <span class="scale-sample">
            <i class="after" /> after
          </span>
        </>
      )}
    </p>
  );
}
