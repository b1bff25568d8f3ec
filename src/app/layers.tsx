import { useMemo } from "preact/hooks";
import type { FieldMap } from "../reading/index.ts";
import { type PowerLine, powerLines } from "./contours.ts";
import { curve } from "./curve.ts";
import { directionTicks } from "./field-probe.ts";
import type { Box } from "./label-places.ts";
import type { Cuts } from "./plane-cuts.ts";
import type { Projection } from "./projection.ts";
import { Unspoken } from "./unspoken.tsx";

export function usePowerLines(map: FieldMap | null, cuts: Cuts): readonly PowerLine[] {
  return useMemo(() => (map === null ? [] : powerLines(map, cuts)), [map, cuts]);
}

/** Lines of equal exposure, in stops from the reference. */
export function PowerLayer(props: { lines: readonly PowerLine[]; projection: Projection }) {
  const { lines, projection } = props;
  const paths = useMemo(
    () =>
      lines.map(({ stops, lines: pieces }) => ({
        stops,
        kind: stops === 0 ? "at-zero" : Number.isInteger(stops) ? undefined : "half",
        d: pieces.map((points) => curve(points, projection)).join(""),
      })),
    [lines, projection],
  );
  return (
    <Unspoken class="power-layer">
      {paths.map(({ stops, kind, d }) => (
        <path key={stops} class={kind} d={d} />
      ))}
    </Unspoken>
  );
}

/** About this many pixels between two ticks, and this long where all the light comes from one place in the paper. */
const TICK_SPACING_PX = 42;
const TICK_PX = 30;

/** Where the light comes from, as it lies in the paper: each tick leads from its dot toward the source. */
export function DirectionLayer(props: { map: FieldMap; cuts: Cuts; projection: Projection }) {
  const { map, cuts, projection } = props;
  const ticks = useMemo(
    () => directionTicks(map, TICK_SPACING_PX / projection.scale, cuts),
    [map, cuts, projection],
  );
  // all of them as one line and one row of dots: hundreds of elements would be laid out anew at each map
  let lines = "";
  let dots = "";
  for (const tick of ticks) {
    const { x, y } = projection.toScreen(tick.x, tick.y);
    const at = `M${x.toFixed(1)},${y.toFixed(1)}`;
    lines += `${at}l${(tick.dx * TICK_PX).toFixed(1)},${(-tick.dy * TICK_PX).toFixed(1)}`;
    dots += `${at}h0`;
  }
  return (
    <Unspoken class="direction-layer">
      <path d={lines} />
      <path class="dots" d={dots} />
    </Unspoken>
  );
}

/** Where the other sheet's layers lie: their plane, seen edge on. */
export function OtherPlane(props: { level: boolean; at: number; paper: Box; projection: Projection }) {
  const { level, at, paper, projection } = props;
  const { x, y } = projection.toScreen(at, at);
  return (
    <Unspoken class="other-plane">
      <path d={level ? `M${paper.x0 + 4},${y}H${paper.x1 - 4}` : `M${x},${paper.y0 + 4}V${paper.y1 - 4}`} />
    </Unspoken>
  );
}
