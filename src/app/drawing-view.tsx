import type { ComponentChildren } from "preact";
import { useId, useMemo, useRef } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { Drawing, Extent } from "../sheet/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { type Bench, makeEdit, takeHold } from "./bench.ts";
import { aimOnPaper, dragEdit, keyEdit, type PaperPoint, type Sheet, turnEdit } from "./handling.ts";
import { useSize, useStore } from "./hooks.ts";
import { numberBox, type PlacedLabel, placeNames } from "./label-places.ts";
import { listObjects, type PlanObject } from "./objects.ts";
import { fitProjection, type Projection } from "./projection.ts";
import { Ruler } from "./ruler.tsx";
import { NameLabel, OwnerShapes } from "./shapes.tsx";
import { placeTapes, placeWords, Tapes } from "./tapes.tsx";
import { Unspoken } from "./unspoken.tsx";

interface DrawingViewProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly sheet: Sheet;
  readonly drawing: Drawing;
  /** under the objects: the layers */
  readonly beneath?: (projection: Projection) => ComponentChildren;
  /** over the objects: the probe */
  readonly above?: (projection: Projection, size: { width: number; height: number }) => ComponentChildren;
  readonly onPoint?: (point: PaperPoint | null, pressed: boolean) => void;
}

const MARGIN = { left: 30, right: 12, top: 8, bottom: 24 };
/** How far from the object's middle the handle of its aim lies, pixels. */
const HANDLE_PX = 58;

/** One sheet of the plan, to scale, whose objects can be taken hold of by hand, finger and keyboard. */
export function DrawingView(props: DrawingViewProps) {
  const { bench, plan, sheet, drawing } = props;
  const [box, size] = useSize<HTMLDivElement>();
  const view = useStore(bench.view);
  const clip = useId();
  const svg = useRef<SVGSVGElement>(null);
  const { across0, across1, up0, up1 } = drawing.extent;
  const projection = useMemo(
    () => (size === null ? null : fitProjection({ across0, across1, up0, up1 }, size, MARGIN)),
    [across0, across1, up0, up1, size],
  );
  const objects = listObjects(plan);
  const selected = objects.find((object) => object.owner === view.selected) ?? null;
  const tapes = useMemo(
    () =>
      selected === null || projection === null
        ? []
        : placeTapes({ plan, sheet, object: selected, projection, units: view.units }),
    [plan, sheet, selected?.owner, projection, view.units],
  );
  const labels = useMemo(() => {
    if (size === null || projection === null) return [];
    const numbers = tapes.map((tape) => numberBox(tape.at, tape.text, tape.isUpright));
    const inside = {
      x0: projection.toScreen(across0, up1).x,
      y0: projection.toScreen(across0, up1).y,
      x1: size.width,
      y1: projection.toScreen(across0, up0).y,
    };
    return placeNames(drawing, projection, inside, numbers);
  }, [drawing, projection, size, tapes]);

  function paperPoint(event: PointerEvent): PaperPoint | null {
    if (projection === null || svg.current === null) return null;
    const rect = svg.current.getBoundingClientRect();
    return projection.toPaper(event.clientX - rect.left, event.clientY - rect.top);
  }

  return (
    <div ref={box} class="drawing">
      {size !== null && projection !== null && (
        // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be a drawing
        <svg
          ref={svg}
          width={size.width}
          height={size.height}
          role="group"
          aria-label={`${sheet.name}, ${sheet.name === "Floor" ? "the room from above" : "the room from the side"}`}
          onPointerMove={(event) => event.buttons === 0 && props.onPoint?.(paperPoint(event), false)}
          onPointerLeave={() => props.onPoint?.(null, false)}
          onPointerDown={(event) => {
            if (
              event.target === event.currentTarget ||
              (event.target as Element).classList.contains("paper")
            ) {
              props.onPoint?.(paperPoint(event), true);
            }
          }}
        >
          <Paper extent={drawing.extent} projection={projection} isRoom={plan.room !== null} clip={clip} />
          <g clip-path={`url(#${clip})`}>{props.beneath?.(projection)}</g>
          <Ruler projection={projection} extent={drawing.extent} units={view.units} />
          {objects.map((object) => (
            <Holdable
              key={object.owner}
              {...{ bench, plan, sheet, drawing, projection, object, paperPoint }}
              label={labels.find((label) => label.owner === object.owner)}
            />
          ))}
          <Tapes tapes={tapes} />
          {selected !== null && (
            <AimHandle {...{ bench, plan, sheet, projection, paperPoint }} object={selected} />
          )}
          {props.above?.(projection, size)}
        </svg>
      )}
    </div>
  );
}

/** The sheet itself: the room's walls, or in open space only where the drawing ends. */
function Paper(props: { extent: Extent; projection: Projection; isRoom: boolean; clip: string }) {
  const a = props.projection.toScreen(props.extent.across0, props.extent.up1);
  const b = props.projection.toScreen(props.extent.across1, props.extent.up0);
  const box = { x: a.x, y: a.y, width: b.x - a.x, height: b.y - a.y };
  return (
    <>
      <clipPath id={props.clip}>
        <rect {...box} />
      </clipPath>
      <rect class={props.isRoom ? "paper" : "paper open"} {...box} />
    </>
  );
}

interface HoldProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly sheet: Sheet;
  readonly projection: Projection;
  readonly object: PlanObject;
  readonly paperPoint: (event: PointerEvent) => PaperPoint | null;
}

interface Grip {
  readonly pointer: number;
  /** from the pointer to the object's middle: the object does not jump under the hand */
  readonly offset: PaperPoint;
  readonly mergeKey: string;
}
let grips = 0;

/** An object on the sheet: pressed it is selected, dragged it moves, keys nudge and turn it. */
function Holdable(props: HoldProps & { drawing: Drawing; label: PlacedLabel | undefined }) {
  const { bench, sheet, drawing, projection, object, paperPoint, label } = props;
  const grip = useRef<Grip | null>(null);
  const view = useStore(bench.view);
  const isSelected = view.selected === object.owner;
  const select = () => takeHold(bench, object.owner);

  return (
    // biome-ignore lint/a11y/useSemanticElements: a button element cannot stand inside a drawing
    <g
      class={`object ${object.kind}${isSelected ? " selected" : ""}`}
      data-owner={object.owner}
      role="button"
      tabindex={0}
      aria-pressed={isSelected}
      aria-label={objectLabel(object, bench.session.get().plan, view.units)}
      onFocus={select}
      onKeyDown={(event) => onKey(event, props)}
      onKeyUp={() => bench.session.seal()}
      onPointerDown={(event) => {
        const at = paperPoint(event);
        if (at === null || event.button !== 0) return;
        event.stopPropagation();
        select();
        event.currentTarget.setPointerCapture(event.pointerId);
        grip.current = {
          pointer: event.pointerId,
          offset: {
            across: (object.position[sheet.across] as number) - at.across,
            up: (object.position[sheet.up] as number) - at.up,
          },
          mergeKey: `drag ${++grips}`,
        };
      }}
      onPointerMove={(event) => {
        const held = grip.current;
        const at = paperPoint(event);
        if (held === null || held.pointer !== event.pointerId || at === null) return;
        const to = { across: at.across + held.offset.across, up: at.up + held.offset.up };
        const { plan } = bench.session.get();
        makeEdit(bench, dragEdit(plan, object, sheet, to, event.altKey), held.mergeKey);
      }}
      onPointerUp={() => letGo(grip, bench)}
      onPointerCancel={() => letGo(grip, bench)}
    >
      <OwnerShapes drawing={drawing} owner={object.owner} projection={projection} />
      <NameLabel label={label} />
    </g>
  );
}

function letGo(grip: { current: Grip | null }, bench: Bench): void {
  if (grip.current === null) return;
  grip.current = null;
  bench.session.seal();
}

function onKey(event: KeyboardEvent, { bench, sheet, object }: HoldProps): void {
  if (event.ctrlKey || event.metaKey) return;
  const edit = keyEdit(bench.session.get().plan, object, sheet, event);
  if (edit === null) return;
  event.preventDefault();
  makeEdit(bench, edit, `keys ${object.owner}`);
}

function objectLabel(object: PlanObject, plan: Plan, units: LengthUnits): string {
  const kind = object.kind === object.name ? "" : `, ${object.kind}`;
  return `${object.name}${kind}, ${placeWords(object, plan, units)}`;
}

/** The handle by which the selected object's aim is turned; keys on the object do the same. */
function AimHandle({ bench, plan, sheet, projection, object, paperPoint }: HoldProps) {
  const grip = useRef<Grip | null>(null);
  if (sheet.up === 2 && !object.lifts) return null;
  const middle = projection.toScreen(
    object.position[sheet.across] as number,
    object.position[sheet.up] as number,
  );
  const aim = aimOnPaper(object, sheet);
  const seen = Math.hypot(aim.across, aim.up);
  // An aim that points at the reader has no direction on the paper: the handle waits to the right.
  const [ux, uy] = seen < 0.05 ? [1, 0] : [aim.across / seen, -aim.up / seen];
  const x = middle.x + ux * HANDLE_PX;
  const y = middle.y + uy * HANDLE_PX;
  return (
    <Unspoken
      class="aim"
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
        grip.current = {
          pointer: event.pointerId,
          offset: { across: 0, up: 0 },
          mergeKey: `turn ${++grips}`,
        };
      }}
      onPointerMove={(event) => {
        const held = grip.current;
        const at = paperPoint(event);
        if (held === null || held.pointer !== event.pointerId || at === null) return;
        const edit = turnEdit(bench.session.get().plan, object, sheet, at, event.altKey);
        if (edit !== null) makeEdit(bench, edit, held.mergeKey);
      }}
      onPointerUp={() => letGo(grip, bench)}
      onPointerCancel={() => letGo(grip, bench)}
    >
      <path d={`M${middle.x},${middle.y}L${x},${y}`} />
      <circle class="reach" cx={x} cy={y} r={14} />
      <circle class="knob" cx={x} cy={y} r={5} />
      <title>
        turn {object.name}
        {plan.room === null ? "" : "; Alt turns freely"}
      </title>
    </Unspoken>
  );
}
