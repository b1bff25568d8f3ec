import type { ComponentChildren } from "preact";
import { useMemo } from "preact/hooks";
import type { HoldZone } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import type { Drawing } from "../sheet/index.ts";
import type { Bench } from "./bench.ts";
import type { Written } from "./drawing-view.tsx";
import { isGuessing } from "./guess.ts";
import { holdOf } from "./hold-follower.ts";
import { type HoldLabel, holdLabels } from "./hold-labels.ts";
import { useStore } from "./hooks.ts";
import { type Box, nameBox } from "./label-places.ts";
import { paperBox } from "./layer-notes.tsx";
import type { Projection } from "./projection.ts";
import { shownPlan } from "./shown-plan.ts";
import { Unspoken } from "./unspoken.tsx";

interface HoldLayerProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly drawing: Drawing;
  readonly projection: Projection;
  readonly written: Written;
  /** what else is written, clear of this */
  readonly children: (written: Written) => ComponentChildren;
}

const NO_LABELS: readonly HoldLabel[] = [];

/** The hold zone on the Floor, over everything that stands there: the outline round the mark as it is taped, the largest
 * circle that fits, and what ends it on each side. Hidden while somebody guesses: it would tell. */
export function HoldLayer({ bench, plan, drawing, projection, written, children }: HoldLayerProps) {
  const { showHold, guess, alone, units } = useStore(bench.view);
  const state = useStore(holdOf(bench).store);
  const zone = showHold && !isGuessing(guess) ? withArea(state.zone) : null;
  const facing = zone === null ? undefined : state.of?.people[zone.person]?.facing;
  const isStale = state.of !== shownPlan(plan, alone);
  const tape = useMemo(() => (zone === null ? [] : alongTape(zone, projection)), [zone, projection]);
  const labels = useMemo(() => {
    if (zone === null || facing === undefined || isStale) return NO_LABELS;
    const taken = [...written.taken, ...tape, ...thingBoxes(drawing, zone, projection)];
    const paper = paperBox(drawing.extent, projection);
    return holdLabels(zone, facing, projection, units, within(paper, written.window), taken);
  }, [zone, tape, facing, isStale, drawing, projection, units, written]);
  const clear = useMemo(
    () =>
      tape.length === 0
        ? written
        : { ...written, taken: [...written.taken, ...tape, ...labels.map(nameBox)] },
    [written, tape, labels],
  );
  return (
    <>
      {zone !== null && (
        <Unspoken class={isStale ? "hold-layer stale" : "hold-layer"}>
          <path class="outline" d={outlinePath(zone, projection)} />
          <Circle {...{ zone, projection }} />
          <path class="leader" d={labels.map(({ leader }) => leaderPath(leader)).join("")} />
          {labels.map(({ text, x, y, anchor }) => (
            <text key={text + anchor + y} x={x} y={y} text-anchor={anchor}>
              {text}
            </text>
          ))}
        </Unspoken>
      )}
      {children(clear)}
    </>
  );
}

/** In the dark there is none to draw. */
function withArea(zone: HoldZone | null): HoldZone | null {
  return zone === null || zone.asked.pattern === "dark" ? null : zone;
}

function outlinePath({ outline }: HoldZone, projection: Projection): string {
  const points = outline.map(({ x, y }) => projection.toScreen(x, y));
  return `${points.map(({ x, y }, k) => `${k === 0 ? "M" : "L"}${x.toFixed(1)},${y.toFixed(1)}`).join("")}Z`;
}

function leaderPath(leader: HoldLabel["leader"]): string {
  if (leader === null) return "";
  const [a, b] = leader;
  return `M${a.x.toFixed(1)},${a.y.toFixed(1)}L${b.x.toFixed(1)},${b.y.toFixed(1)}`;
}

function Circle({ zone, projection }: { zone: HoldZone; projection: Projection }) {
  const { x, y } = projection.toScreen(zone.circle.x, zone.circle.y);
  return <circle cx={x} cy={y} r={zone.circle.radius_m * projection.scale} />;
}

/** Boxes so far apart along the tape, and half as wide as this, pixels. */
const BOX_EVERY_PX = 8;
const HALF_TAPE_PX = 3;

/** What no word may cover: the outline, and the circle inside it. */
function alongTape({ outline, circle }: HoldZone, projection: Projection): Box[] {
  const points = outline.map(({ x, y }) => projection.toScreen(x, y));
  const boxes = points.flatMap((a, k) => {
    const b = points[(k + 1) % points.length] as typeof a;
    const parts = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / BOX_EVERY_PX));
    return Array.from({ length: parts }, (_, i) => {
      const x = a.x + (i / parts) * (b.x - a.x);
      const y = a.y + (i / parts) * (b.y - a.y);
      return { x0: x - HALF_TAPE_PX, x1: x + HALF_TAPE_PX, y0: y - HALF_TAPE_PX, y1: y + HALF_TAPE_PX };
    });
  });
  const middle = projection.toScreen(circle.x, circle.y);
  const r = circle.radius_m * projection.scale;
  return [...boxes, { x0: middle.x - r, x1: middle.x + r, y0: middle.y - r, y1: middle.y + r }];
}

/** All that stands there but for what is as large as the set. */
function thingBoxes({ labels }: Drawing, { person }: HoldZone, projection: Projection): Box[] {
  return labels
    .filter(({ owner }) => owner !== "backdrop" && owner !== `people[${person}]`)
    .map(({ clear }) => paperBox(clear, projection));
}

function within(a: Box, b: Box): Box {
  return {
    x0: Math.max(a.x0, b.x0),
    x1: Math.min(a.x1, b.x1),
    y0: Math.max(a.y0, b.y0),
    y1: Math.min(a.y1, b.y1),
  };
}
