import { incidentFNumber, METER_CONSTANT } from "../photometry/index.ts";
import type { FieldMap } from "../reading/index.ts";
import { formatFStops, formatLength } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { type Probe, probeField } from "./field-probe.ts";
import type { PaperPoint } from "./handling.ts";
import { useStore } from "./hooks.ts";
import type { Projection } from "./projection.ts";
import { Unspoken } from "./unspoken.tsx";
import { signedStops } from "./wording.ts";

interface ProbeMarkProps {
  readonly bench: Bench;
  readonly map: FieldMap;
  readonly iso: number;
  readonly at: PaperPoint | null;
  /** where the probe stays; it can be moved by keys */
  readonly pinned: PaperPoint | null;
  readonly onMove: (to: PaperPoint | null) => void;
  readonly projection: Projection;
  readonly size: { width: number; height: number };
}

const WIDTH = 170;
const HEIGHT = 54;

/** Reads power and direction at a place on the Floor: what a dome turned to where the light comes from would say. */
export function ProbeMark({ bench, map, iso, at, pinned, onMove, projection, size }: ProbeMarkProps) {
  const view = useStore(bench.view);
  const probe = at === null ? null : probeField(map, at.across, at.up);
  const pin = pinned === null ? null : projection.toScreen(pinned.across, pinned.up);
  const pinProbe = pinned === null ? null : probeField(map, pinned.across, pinned.up);
  const height = formatLength(map.at, view.units);

  function onKeyDown(event: KeyboardEvent) {
    if (pinned === null) return;
    if (event.key === "Escape") return onMove(null);
    const step = event.shiftKey ? 0.5 : 0.05;
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (way === undefined) return;
    event.preventDefault();
    const to = { across: pinned.across + (way[0] ?? 0) * step, up: pinned.up + (way[1] ?? 0) * step };
    const there = probeField(map, to.across, to.up);
    if (there === null) return;
    onMove(to);
    bench.say.set(probeWords(there, iso).join(", "));
  }

  return (
    <g class="probe">
      {pin !== null && pinProbe !== null && (
        // biome-ignore lint/a11y/useSemanticElements: a button element cannot stand inside a drawing
        <g
          role="button"
          tabindex={0}
          aria-label={`Probe at ${height}: ${probeWords(pinProbe, iso).join(", ")}. Arrow keys move it, Escape takes it away.`}
          onKeyDown={onKeyDown}
        >
          <circle class="reach" cx={pin.x} cy={pin.y} r={13} />
          <circle class="ring" cx={pin.x} cy={pin.y} r={4} />
        </g>
      )}
      {at !== null && probe !== null && (
        <Slip at={projection.toScreen(at.across, at.up)} size={size} lines={probeWords(probe, iso)} />
      )}
    </g>
  );
}

/** "f/4 + 0.5 · −1.5 stops", "from 208°, 28° up", "dome to the light" */
function probeWords(probe: Probe, iso: number): [string, string, string] {
  if (!(probe.luxSeconds > 0)) return ["no light here", "", "dome"];
  const fStops = formatFStops(incidentFNumber(probe.luxSeconds, iso, METER_CONSTANT.dome));
  const stops = Number.isFinite(probe.stops) ? ` · ${signedStops(probe.stops)} stops` : "";
  if (probe.bearing === null || probe.tilt === null)
    return [`${fStops}${stops}`, "from everywhere alike", "dome"];
  const up = Math.round(probe.tilt);
  return [
    `${fStops}${stops}`,
    `from ${Math.round(probe.bearing) % 360}°, ${Math.abs(up)}° ${up < 0 ? "down" : "up"}`,
    "dome turned to the light",
  ];
}

/** A slip of paper beside the point, on whichever side there is room. */
function Slip({
  at,
  size,
  lines,
}: {
  at: { x: number; y: number };
  size: { width: number; height: number };
  lines: string[];
}) {
  const x = at.x + 10 + WIDTH > size.width ? Math.max(0, at.x - 10 - WIDTH) : at.x + 10;
  const y = Math.min(Math.max(0, at.y - HEIGHT - 8), size.height - HEIGHT);
  return (
    <Unspoken class="slip" transform={`translate(${Math.round(x)} ${Math.round(y)})`}>
      <rect width={WIDTH} height={HEIGHT} />
      {lines.map((line, index) => (
        <text
          key={index === 0 ? "power" : index === 1 ? "direction" : "receptor"}
          x={9}
          y={18 + index * 15}
          class={index === 0 ? "strong" : undefined}
        >
          {line}
        </text>
      ))}
    </Unspoken>
  );
}
