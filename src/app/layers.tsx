import { useMemo } from "preact/hooks";
import type { FieldMap } from "../reading/index.ts";
import { formatStops } from "../units/index.ts";
import { type PowerLine, powerLines } from "./contours.ts";
import { directionTicks } from "./field-probe.ts";
import type { Box } from "./label-places.ts";
import { placeLineLabels } from "./line-labels.ts";
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

/** The numbers on the lines, over everything else so that nothing crosses them. */
export function PowerNumbers(props: {
  lines: readonly PowerLine[];
  projection: Projection;
  inside: Box;
  occupied: readonly Box[];
}) {
  const { lines, projection, inside, occupied } = props;
  const numbers = useMemo(
    () => placeLineLabels(lines, projection, inside, occupied),
    [lines, projection, inside, occupied],
  );
  return (
    <Unspoken class="power-layer">
      {numbers.map(({ stops, x, y }) => (
        <text key={`${stops} ${x} ${y}`} x={x} y={y} dy="0.35em">
          {formatStops(stops, 0)}
        </text>
      ))}
    </Unspoken>
  );
}

/** A smooth curve along a line: from middle to middle of its stretches, each of its points pulling (a quadratic
 * B-spline). It stays within the triangles of neighbouring points, so within a quarter of a cell of the line. */
function curve(points: Float64Array, projection: Projection): string {
  const n = points.length / 2;
  const at = (k: number) => projection.toScreen(points[2 * k] as number, points[2 * k + 1] as number);
  const text = ({ x, y }: { x: number; y: number }) => `${x.toFixed(1)},${y.toFixed(1)}`;
  const middle = (a: number, b: number) => {
    const [p, q] = [at(a), at(b)];
    return { x: (p.x + q.x) / 2, y: (p.y + q.y) / 2 };
  };
  const closed = n > 3 && points[0] === points[2 * n - 2] && points[1] === points[2 * n - 1];
  let data = `M${text(closed ? middle(n - 2, 0) : at(0))}`;
  for (let k = closed ? 0 : 1; k + 1 < n; k++) data += `Q${text(at(k))} ${text(middle(k, k + 1))}`;
  return closed ? `${data}Z` : `${data}L${text(at(n - 1))}`;
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

/** Where the other sheet's layers lie, as that plane is seen from here: edge on. */
export function OtherPlane(props: { of: "Floor" | "Side"; at: number; paper: Box; projection: Projection }) {
  const { of, at, paper, projection } = props;
  if (of === "Floor") {
    const { y } = projection.toScreen(0, at);
    return (
      <Unspoken class="other-plane">
        <path d={`M${paper.x0 + 4},${y}H${paper.x1 - 4}`} />
        <text x={paper.x0 + 6} y={y - 5}>
          Floor's layers
        </text>
      </Unspoken>
    );
  }
  const { x } = projection.toScreen(at, 0);
  return (
    <Unspoken class="other-plane">
      <path d={`M${x},${paper.y0 + 4}V${paper.y1 - 4}`} />
      <text x={x + 5} y={paper.y1 - 7}>
        Side's layers
      </text>
    </Unspoken>
  );
}
