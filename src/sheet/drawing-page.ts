/** The first page's upper part: floor and side at one scale, and the room that they leave beside them. */
import type { Region } from "./beside.ts";
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
import { roundScale } from "./scale.ts";
import type { SetupContext } from "./setup-order.ts";

/** The column beside the floor, with the gap before it, mm. */
const BESIDE = 60;
/** The narrowest column that is worth writing in, mm. */
const NARROWEST = 46;
const GAP = 6;
const CAPTION = 6;
const BETWEEN = 4;

export interface DrawingPart {
  readonly parts: readonly string[];
  /** where it ends */
  readonly bottom: number;
  /** what is left free beside the floor and beside the side */
  readonly beside: readonly Region[];
  readonly unnamed: readonly string[];
}

export function drawingPart(
  context: SetupContext,
  x: number,
  y: number,
  width: number,
  height: number,
  hold: SheetHold | undefined,
): DrawingPart {
  const { plan, units } = context;
  const floor = withHold(drawFloor(plan), hold);
  const side = drawSide(plan);
  const size = ({ extent }: Drawing) => [extent.across1 - extent.across0, extent.up1 - extent.up0] as const;
  const scale = roundScale(
    [
      { metres: size(floor)[0], mm: width - BESIDE - RULER.left },
      { metres: size(side)[0], mm: width - RULER.left },
      { metres: size(floor)[1] + size(side)[1], mm: height - 2 * (CAPTION + RULER.below) - BETWEEN },
    ],
    units,
  );
  const mmPerMetre = 1000 / scale;
  const left = x + RULER.left;
  const floorBottom = y + CAPTION + size(floor)[1] * mmPerMetre;
  const sideTop = floorBottom + RULER.below + BETWEEN;
  const sideBottom = sideTop + CAPTION + size(side)[1] * mmPerMetre;
  const zero = zeroPoint(context);
  const common = { left, mmPerMetre, units };
  const floorPlot = plotDrawing(floor, {
    ...common,
    bottom: floorBottom,
    zero: [zero[0], zero[1]],
    tapes: floorTapes(context),
    labels: named(floor, plan.meters.length <= METERS_NAMED),
    slack: { right: GAP - 2, top: 0 },
  });
  const sidePlot = plotDrawing(side, {
    ...common,
    bottom: sideBottom,
    zero: [zero[1], 0],
    tapes: heightTapes(context),
    labels: named(side, false),
    slack: { right: GAP - 2, top: 0 },
  });
  const right = (d: Drawing) => left + size(d)[0] * mmPerMetre + GAP;
  const scaleText = `1 : ${scale}`;
  const parts = [
    ...caption(left, y, "Floor", `from above, ${scaleText}`),
    ...floorPlot.parts,
    ...caption(left, sideTop, "Side", SIDE_CAPTION + scaleText),
    ...sidePlot.parts,
    ...scaleBar(
      context,
      left + captionWidth("Side", SIDE_CAPTION + scaleText) + 5,
      sideTop + 3.4,
      mmPerMetre,
    ),
  ];
  const end = x + width;
  const beside = [
    { x: right(floor), y, width: end - right(floor), height: sideTop - BETWEEN - y },
    {
      x: right(side),
      y: sideTop + CAPTION,
      width: end - right(side),
      height: sideBottom + RULER.below - sideTop - CAPTION,
    },
  ].filter((room) => room.width >= NARROWEST);
  return {
    parts,
    bottom: sideBottom + RULER.below,
    beside,
    unnamed: [...new Set([...floorPlot.unnamed, ...sidePlot.unnamed])],
  };
}
