/** One drawing as a picture of its own, for a screen that is held in the hand. */
import type { Drawing } from "./drawing.ts";
import {
  caption,
  captionWidth,
  type DrawingContext,
  floorTapes,
  heightTapes,
  METERS_NAMED,
  named,
  scaleBar,
  zeroPoint,
} from "./drawing-notes.ts";
import { drawFloor, drawSide } from "./outlines.ts";
import { plotDrawing, RULER } from "./plot.ts";
import { roundScale } from "./scale.ts";
import { pageOf } from "./svg.ts";

/** Drawn at most so large, mm: on a phone that shows it from edge to edge its letters are as large as on the print. */
const WIDEST = 104;
const HIGHEST = 150;
const MARGIN = 2;
const CAPTION = 6;
const NAMES_PAST = 4;
/** Caption and scale bar beside each other, however narrow the room is. */
const NARROWEST = 88;

const SAID = {
  floor: ["Floor", "from above"],
  side: ["Side", "from the right"],
} as const;

/** The set from above, or from the side, as a whole SVG document: at true scale, with rulers, tapes, names and a scale bar.
 * Units   page mm at a round scale; lengths as `units` says
 * Errors  none: a name that finds no room is left out, the list of what stands there has it */
export function drawingDocument(context: DrawingContext, view: "floor" | "side"): string {
  const { plan, units } = context;
  const drawing = view === "floor" ? drawFloor(plan) : drawSide(plan);
  const [across, up] = sizeOf(drawing);
  const beside = MARGIN + RULER.left + NAMES_PAST + MARGIN;
  const scale = roundScale(
    [
      { metres: across, mm: WIDEST - beside },
      { metres: up, mm: HIGHEST },
    ],
    units,
  );
  const mmPerMetre = 1000 / scale;
  const [title, about] = SAID[view];
  const left = MARGIN + RULER.left;
  const bottom = MARGIN + CAPTION + up * mmPerMetre;
  const zero = zeroPoint(context);
  const { parts } = plotDrawing(drawing, {
    left,
    bottom,
    mmPerMetre,
    units,
    zero: view === "floor" ? [zero[0], zero[1]] : [zero[1], 0],
    tapes: view === "floor" ? floorTapes(context) : heightTapes(context),
    labels: named(drawing, view === "floor" && plan.meters.length <= METERS_NAMED),
    slack: { right: NAMES_PAST, top: 0 },
  });
  const bar = scaleBar(context, left + captionWidth(title, about) + 5, MARGIN + 3.4, mmPerMetre);
  const width = Math.max(NARROWEST, round(across * mmPerMetre + beside));
  const height = round(bottom + RULER.below + MARGIN);
  return pageOf(width, height, `${plan.title}, ${title.toLowerCase()}, ${about}`, [
    ...caption(left, MARGIN, title, about),
    ...bar,
    ...parts,
  ]);
}

function sizeOf({ extent }: Drawing): readonly [across: number, up: number] {
  return [extent.across1 - extent.across0, extent.up1 - extent.up0];
}

function round(mm: number): number {
  return Math.ceil(10 * mm) / 10;
}
