/** The first page's upper part: floor and side at one scale, and the room that they leave beside them. */
import { NARROWEST, type Region } from "./beside.ts";
import type { Drawing } from "./drawing.ts";
import {
  caption,
  captionWidth,
  floorTapes,
  heightTapes,
  METERS_NAMED,
  named,
  SIDE_CAPTION,
  scaleBar,
  zeroPoint,
} from "./drawing-notes.ts";
import { type SheetHold, withHold } from "./hold.ts";
import { drawFloor, drawSide } from "./outlines.ts";
import { plotDrawing, RULER } from "./plot.ts";
import { roundScales } from "./scale.ts";
import type { SetupContext } from "./setup-order.ts";

/** The column beside the floor, with the gap before it, mm. */
const BESIDE = 60;
const GAP = 6;
const CAPTION = 6;
const BETWEEN = 3;

/** Where a drawing of that scale ends and what it leaves free, before anything is drawn. */
export interface DrawingPart {
  readonly scale: number;
  /** where it ends */
  readonly bottom: number;
  /** what is left free beside the floor and beside the side */
  readonly beside: readonly Region[];
  plot(): { readonly parts: readonly string[]; readonly unnamed: readonly string[] };
}

/** A drawing is made smaller down to this share of what fits, where that saves a page. */
const SMALLEST = 0.47;

/** The same two drawings, the largest that fit first. */
export function drawingParts(
  context: SetupContext,
  x: number,
  y: number,
  width: number,
  height: number,
  hold: SheetHold | undefined,
): DrawingPart[] {
  const { plan, units } = context;
  const floor = withHold(drawFloor(plan), hold);
  const side = drawSide(plan);
  const scales = roundScales(
    [
      { metres: sizeOf(floor)[0], mm: width - BESIDE - RULER.left },
      { metres: sizeOf(side)[0], mm: width - RULER.left },
      { metres: sizeOf(floor)[1] + sizeOf(side)[1], mm: height - 2 * (CAPTION + RULER.below) - BETWEEN },
    ],
    units,
    SMALLEST,
  );
  return scales.map((scale) => partAt(context, { floor, side }, scale, x, y, width));
}

function sizeOf({ extent }: Drawing): readonly [across: number, up: number] {
  return [extent.across1 - extent.across0, extent.up1 - extent.up0];
}

function partAt(
  context: SetupContext,
  { floor, side }: { readonly floor: Drawing; readonly side: Drawing },
  scale: number,
  x: number,
  y: number,
  width: number,
): DrawingPart {
  const { plan, units } = context;
  const mmPerMetre = 1000 / scale;
  const left = x + RULER.left;
  const floorBottom = y + CAPTION + sizeOf(floor)[1] * mmPerMetre;
  const sideTop = floorBottom + RULER.below + BETWEEN;
  const sideBottom = sideTop + CAPTION + sizeOf(side)[1] * mmPerMetre;
  const right = (d: Drawing) => left + sizeOf(d)[0] * mmPerMetre + GAP;
  const end = x + width;
  const scaleText = `1 : ${scale}`;
  const floorAbout = `from above, ${scaleText}`;
  // a narrow set is narrower than what is written over it
  const floorEnd = Math.max(right(floor), left + captionWidth("Floor", floorAbout) + GAP);
  const beside = [
    { x: floorEnd, y, width: end - floorEnd, height: sideTop - BETWEEN - y },
    {
      x: right(side),
      y: sideTop + CAPTION,
      width: end - right(side),
      height: sideBottom + RULER.below - sideTop - CAPTION,
    },
  ].filter((room) => room.width >= NARROWEST);

  const plot = () => {
    const zero = zeroPoint(context);
    const common = { left, mmPerMetre, units };
    const slack = { right: GAP - 2, top: 0 };
    const floorPlot = plotDrawing(floor, {
      ...common,
      bottom: floorBottom,
      zero: [zero[0], zero[1]],
      tapes: floorTapes(context),
      labels: named(floor, plan.meters.length <= METERS_NAMED),
      slack,
    });
    const sidePlot = plotDrawing(side, {
      ...common,
      bottom: sideBottom,
      zero: [zero[1], 0],
      tapes: heightTapes(context),
      labels: named(side, false),
      slack,
    });
    const barAt = left + captionWidth("Side", SIDE_CAPTION + scaleText) + 5;
    const parts = [
      ...caption(left, y, "Floor", floorAbout),
      ...floorPlot.parts,
      ...caption(left, sideTop, "Side", SIDE_CAPTION + scaleText),
      ...sidePlot.parts,
      ...scaleBar(context, barAt, sideTop + 3.4, mmPerMetre),
    ];
    return { parts, unnamed: [...new Set([...floorPlot.unnamed, ...sidePlot.unnamed])] };
  };
  return { scale, bottom: sideBottom + RULER.below, beside, plot };
}
