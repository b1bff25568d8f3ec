import { useRef } from "preact/hooks";
import type { FieldMap } from "../reading/index.ts";
import { formatLength } from "../units/index.ts";
import type { Bench } from "./bench.ts";
import { probeField } from "./field-probe.ts";
import type { PaperPoint } from "./handling.ts";
import { useStore } from "./hooks.ts";
import type { Cuts } from "./plane-cuts.ts";
import { type ProbeWords, probeSentence, probeWords } from "./probe-words.ts";
import type { Projection } from "./projection.ts";
import type { Store } from "./store.ts";
import { Unspoken } from "./unspoken.tsx";

interface ProbeMarkProps {
  readonly bench: Bench;
  readonly map: FieldMap;
  readonly cuts: Cuts;
  readonly iso: number;
  /** where the pointer is */
  readonly hover: Store<PaperPoint | null>;
  /** where the probe stays; it can be moved by keys and by hand */
  readonly pinned: PaperPoint | null;
  readonly onMove: (to: PaperPoint | null) => void;
  readonly projection: Projection;
  readonly size: { width: number; height: number };
}

const STEP_M = 0.05;
const LARGE_STEP_M = 0.5;
const WAYS: Readonly<Record<string, readonly [across: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Reads power and direction at a place of a sheet: what a dome turned to where the light comes from would say. */
export function ProbeMark(props: ProbeMarkProps) {
  const { map, cuts, iso, pinned, projection, size } = props;
  const hover = useStore(props.hover);
  const at = hover ?? pinned;
  const probe = at === null ? null : probeField(map, at.across, at.up, cuts);
  return (
    <g class="probe">
      {pinned !== null && <Pin {...props} pinned={pinned} />}
      {at !== null && probe !== null && (
        <Slip at={projection.toScreen(at.across, at.up)} size={size} words={probeWords(probe, iso)} />
      )}
    </g>
  );
}

/** The probe that stays: arrows move it, a hand drags it, Escape takes it away. */
function Pin(props: ProbeMarkProps & { pinned: PaperPoint }) {
  const { bench, map, cuts, iso, pinned, onMove, projection } = props;
  const view = useStore(bench.view);
  const held = useRef<number | null>(null);
  const probe = probeField(map, pinned.across, pinned.up, cuts);
  if (probe === null) return null;
  const { x, y } = projection.toScreen(pinned.across, pinned.up);
  const plane = formatLength(map.at, view.units);
  const where = map.plane === "floor" ? `at ${plane} high` : `at ${plane} across`;

  function onKeyDown(event: KeyboardEvent) {
    if (event.key === "Escape") return onMove(null);
    const way = WAYS[event.key];
    if (way === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const step = event.shiftKey ? LARGE_STEP_M : STEP_M;
    const to = { across: pinned.across + way[0] * step, up: pinned.up + way[1] * step };
    const there = probeField(map, to.across, to.up, cuts);
    if (there === null) return;
    onMove(to);
    bench.say.set(probeSentence(there, iso));
  }

  function onPointerMove(event: PointerEvent) {
    const svg = (event.currentTarget as SVGGElement).ownerSVGElement;
    if (held.current !== event.pointerId || svg === null) return;
    const { left, top } = svg.getBoundingClientRect();
    const to = projection.toPaper(event.clientX - left, event.clientY - top);
    if (probeField(map, to.across, to.up) !== null) onMove(to);
  }

  const letGo = () => {
    held.current = null;
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a button element cannot stand inside a drawing
    <g
      class="pin"
      role="button"
      tabindex={0}
      aria-label={`Probe ${where}: ${probeSentence(probe, iso)}. Arrow keys move it, Escape takes it away.`}
      onKeyDown={onKeyDown}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
        held.current = event.pointerId;
      }}
      onPointerMove={onPointerMove}
      onPointerUp={letGo}
      onPointerCancel={letGo}
    >
      <circle class="reach" cx={x} cy={y} r={13} />
      <circle class="ring" cx={x} cy={y} r={4} />
    </g>
  );
}

/** Mean advance of the slip's type, pixels, rounded up. */
const CHARACTER_PX = 6.1;
const LINE_PX = 16;
const PAD_PX = 9;

/** A slip of paper beside the point, on whichever side there is room. */
function Slip(props: {
  at: { x: number; y: number };
  size: { width: number; height: number };
  words: ProbeWords;
}) {
  const { at, size } = props;
  const lines = (["power", "direction", "receptor"] as const)
    .map((kind) => ({ kind, text: props.words[kind] }))
    .filter(({ text }) => text !== "");
  const width = Math.max(...lines.map(({ text }) => text.length)) * CHARACTER_PX + 2 * PAD_PX;
  const height = lines.length * LINE_PX + PAD_PX;
  const x = at.x + 12 + width > size.width ? Math.max(0, at.x - 12 - width) : at.x + 12;
  const y = Math.min(Math.max(0, at.y - height - 8), size.height - height);
  return (
    <Unspoken class="slip" transform={`translate(${Math.round(x)} ${Math.round(y)})`}>
      <rect width={Math.round(width)} height={height} />
      {lines.map(({ kind, text }, index) => (
        <text key={kind} class={kind} x={PAD_PX} y={17 + index * LINE_PX}>
          {text}
        </text>
      ))}
    </Unspoken>
  );
}
