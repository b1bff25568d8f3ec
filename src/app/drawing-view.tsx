import type { ComponentChildren } from "preact";
import { useId, useMemo, useRef, useState } from "preact/hooks";
import type { Plan } from "../plan/index.ts";
import type { Drawing } from "../sheet/index.ts";
import { AimHandle } from "./aim-handle.tsx";
import type { Bench } from "./bench.ts";
import type { PaperPoint, Sheet } from "./handling.ts";
import { Holdable } from "./holdable.tsx";
import { type Size, useSize, useStore } from "./hooks.ts";
import { type Box, nameBox, numberBox, placeNames } from "./label-places.ts";
import { chosenPerson } from "./layer-height.ts";
import { heldObjects, listObjects } from "./objects.ts";
import { Paper } from "./paper.tsx";
import type { Band } from "./paper-hand.ts";
import { type Pane, type Projection, projectionOf, type Sight, seenExtent } from "./projection.ts";
import { Ruler } from "./ruler.tsx";
import { SightButtons } from "./sight-buttons.tsx";
import { Steady } from "./steady.ts";
import { placeTapes } from "./tape-places.ts";
import { Tapes } from "./tapes.tsx";
import { usePaperHand } from "./use-paper-hand.ts";

/** What is written on the drawing, for whoever writes more. */
export interface Written {
  readonly size: { readonly width: number; readonly height: number };
  /** where it can be read, pixels */
  readonly window: Box;
  /** names, tapes' numbers and buttons */
  readonly taken: readonly Box[];
}

interface DrawingViewProps {
  readonly bench: Bench;
  readonly plan: Plan;
  readonly sheet: Sheet;
  readonly drawing: Drawing;
  /** under the objects: the layers */
  readonly beneath?: (projection: Projection) => ComponentChildren;
  /** over the objects: the probe */
  readonly above?: (projection: Projection, written: Written) => ComponentChildren;
  readonly onPoint?: (point: PaperPoint | null, pressed: boolean) => void;
}

const MARGIN = { left: 34, right: 12, top: 8, bottom: 24 };
/** The corner where the buttons of the sight stand, pixels. */
const CORNER = { width: 100, height: 34 };

/** One sheet of the plan, to scale, whose objects can be taken hold of by hand, finger and keyboard. */
export function DrawingView(props: DrawingViewProps) {
  const [box, size] = useSize<HTMLDivElement>();
  return (
    <div ref={box} class="drawing">
      {size !== null && <SheetOfPaper {...props} size={size} />}
    </div>
  );
}

function SheetOfPaper(props: DrawingViewProps & { size: Size }) {
  const { bench, plan, sheet, drawing, size } = props;
  const view = useStore(bench.view);
  const [sight, setSight] = useState<Sight | null>(null);
  const [band, setBand] = useState<Band | null>(null);
  const id = useId();
  const svg = useRef<SVGSVGElement>(null);
  const { across0, across1, up0, up1 } = drawing.extent;
  const pane: Pane = useMemo(
    () => ({ extent: { across0, across1, up0, up1 }, size, margin: MARGIN }),
    [across0, across1, up0, up1, size],
  );
  const projection = useMemo(() => projectionOf(pane, sight), [pane, sight]);
  const desk = {
    sheet,
    drawing,
    band: setBand,
    point: (point: PaperPoint | null, pressed: boolean) => props.onPoint?.(point, pressed),
  };
  const { hand, handlers } = usePaperHand(bench, svg, desk, pane, setSight);

  const edge = Math.min(size.width - MARGIN.right, projection.toScreen(across1, up0).x);
  const held = heldObjects(plan, view);
  const [foremost] = held;
  const tapes = useMemo(
    () =>
      foremost === undefined
        ? []
        : placeTapes({
            plan,
            sheet,
            object: foremost,
            projection,
            window: windowOf(pane, sight, projection),
            units: view.units,
            person: chosenPerson(plan, view),
          }),
    [plan, sheet, foremost?.owner, projection, view.units, view.person],
  );
  const [labels, written] = useMemo(() => {
    const corner: Box = { x0: edge - CORNER.width, x1: edge, y0: 0, y1: CORNER.height };
    const numbers = [corner, ...tapes.map((tape) => numberBox(tape.at, tape.text, tape.isUpright))];
    const window = windowOf(pane, sight, projection);
    const names = placeNames(drawing, projection, window, numbers);
    return [names, { size, window, taken: [...numbers, ...names.map(nameBox)] }] as const;
  }, [drawing, projection, pane, sight, tapes]);

  const frame = {
    x: MARGIN.left,
    y: MARGIN.top,
    width: Math.max(0, size.width - MARGIN.left - MARGIN.right),
    height: Math.max(0, size.height - MARGIN.top - MARGIN.bottom),
  };
  return (
    <>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be a drawing */}
      <svg
        ref={svg}
        class={sight === null ? undefined : "near"}
        width={size.width}
        height={size.height}
        role="group"
        tabindex={0}
        aria-label={sheetLabel(sheet)}
        {...handlers}
      >
        <clipPath id={`${id}-window`}>
          <rect {...frame} />
        </clipPath>
        <g clip-path={sight === null ? undefined : `url(#${id}-window)`}>
          <Paper extent={drawing.extent} projection={projection} isRoom={plan.room !== null} clip={id}>
            {props.beneath?.(projection)}
          </Paper>
          {listObjects(plan).map((object) => (
            <Holdable
              key={object.owner}
              {...{ bench, plan, drawing, projection, object }}
              label={labels.find((label) => label.owner === object.owner)}
            />
          ))}
          <Tapes tapes={tapes} />
          {foremost !== undefined && held.length === 1 && (
            <AimHandle sheet={sheet} projection={projection} object={foremost} />
          )}
          {band !== null && <BandRound {...band} />}
        </g>
        {sight !== null && <rect class="window" {...frame} />}
        <Steady
          on={[projection, pane, view.units]}
          draw={() => (
            <Ruler projection={projection} seen={seenExtent(pane, projection)} units={view.units} />
          )}
        />
        {props.above?.(projection, written)}
      </svg>
      <SightButtons
        {...{ bench, sheet }}
        paper={hand.paper}
        times={sight?.times ?? 1}
        right={size.width - edge + 1}
      />
    </>
  );
}

function sheetLabel(sheet: Sheet): string {
  const how = sheet.name === "Floor" ? "the room from above" : "the room from the side";
  return `${sheet.name}, ${how}`;
}

/** Where names may stand: on the paper and, while the whole of it is seen, in the room beside it. */
function windowOf(pane: Pane, sight: Sight | null, projection: Projection): Box {
  const seen = seenExtent(pane, projection);
  const a = projection.toScreen(seen.across0, seen.up1);
  const b = projection.toScreen(seen.across1, seen.up0);
  return { x0: a.x, y0: a.y, x1: sight === null ? pane.size.width : b.x, y1: b.y };
}

/** What the hand draws round the things that it will hold. */
function BandRound({ a, b }: Band) {
  return (
    <rect
      class="band"
      x={Math.min(a.x, b.x)}
      y={Math.min(a.y, b.y)}
      width={Math.abs(a.x - b.x)}
      height={Math.abs(a.y - b.y)}
    />
  );
}
