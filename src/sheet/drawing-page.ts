/** The first page's upper part: floor and side at one scale, and the room that they leave beside them. */
import type { Vec3 } from "../plan/index.ts";
import type { Region } from "./beside.ts";
import type { Drawing, PaperPoint } from "./drawing.ts";
import { type SheetHold, withHold } from "./hold.ts";
import { onPaper } from "./object-outlines.ts";
import { drawFloor, drawSide } from "./outlines.ts";
import type { Place } from "./place.ts";
import { plotDrawing, RULER } from "./plot.ts";
import { roundScale, unitLength } from "./scale.ts";
import type { SetupContext } from "./setup-order.ts";
import { INK, lineOf, QUIET, textOf } from "./svg.ts";
import type { Tape } from "./tape.ts";
import { textWidth } from "./text.ts";

/** The column beside the floor, with the gap before it, mm. */
const BESIDE = 60;
/** The narrowest column that is worth writing in, mm. */
const NARROWEST = 46;
const GAP = 6;
const CAPTION = 6;
const BETWEEN = 4;
/** More of them and their tapes would hide the drawing; the table has every distance. */
const TAPED = { people: 2, lights: 3, heights: 6 } as const;
const METERS_NAMED = 6;

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

const SIDE_CAPTION = "as seen from the right, ";

function captionWidth(title: string, about: string): number {
  return textWidth(title, 3.4, 600) + 1.6 + textWidth(about, 2.8);
}

function caption(x: number, y: number, title: string, about: string): string[] {
  return [
    textOf(x, y + 3.4, title, { size: 3.4, weight: 600 }),
    textOf(x + textWidth(title, 3.4, 600) + 1.6, y + 3.4, about, { size: 2.8, fill: QUIET }),
  ];
}

/** In a room the rulers count from its corner, in open space from the first mark. */
function zeroPoint({ plan }: SetupContext): Vec3 {
  if (plan.room !== null || plan.people.length === 0) return [0, 0, 0];
  const [x, y] = plan.people[0].position;
  return [x, y, 0];
}

/** Lights and people first: they must be found. Meters last, if at all. */
function named(drawing: Drawing, withMeters: boolean) {
  const rank = ["lights", "people", "camera", "panels", "backdrop", "marks", "meters"];
  const of = (owner: string) => rank.findIndex((r) => owner.startsWith(r));
  return drawing.labels
    .filter((label) => withMeters || !label.owner.startsWith("meters"))
    .toSorted((a, b) => of(a.owner) - of(b.owner));
}

function floorTapes({ plan, places }: SetupContext): Tape[] {
  const tapes: Tape[] = [];
  const taped = [
    ...(plan.people.length <= TAPED.people ? places.people : places.people.slice(0, 1)).map(
      (place, i) => [place, plan.people[i].position] as const,
    ),
    ...(plan.lights.length <= TAPED.lights ? places.lights : []).map(
      (place, i) => [place, plan.lights[i].position] as const,
    ),
  ];
  for (const [{ owner, walls, mark }, at] of taped) {
    const point: PaperPoint = [at[0], at[1]];
    if (walls !== null && plan.room !== null) {
      const wallX = walls.side === "left" ? 0 : plan.room.width;
      const wallY = walls.depth === "near" ? 0 : plan.room.depth;
      tapes.push({ owner, from: [wallX, point[1]], to: point, length_m: walls.side_m });
      tapes.push({ owner, from: [point[0], wallY], to: point, length_m: walls.depth_m });
    } else if (mark !== null && mark.person !== null) {
      const from = plan.people.find((p) => p.name === mark.person)!.position;
      tapes.push({ owner, from: [from[0], from[1]], to: point, length_m: mark.distance_m });
    }
  }
  return tapes.filter((t) => t.length_m > 0.005);
}

function heightTapes({ plan, places }: SetupContext): Tape[] {
  const lights = plan.lights.length <= TAPED.heights ? places.lights : [];
  const all: readonly (readonly [Place, Readonly<Vec3>])[] = [
    ...lights.map((place, i) => [place, plan.lights[i].position] as const),
    [places.camera, plan.camera.position],
  ];
  return all
    .map(([{ owner, height_m }, position]): Tape => {
      const to = onPaper(position, "side");
      return { owner, from: [to[0], 0], to, length_m: height_m };
    })
    .filter((tape) => tape.length_m > 0.005);
}

/** As many whole metres or feet as make a bar of 15 to 40 mm. */
function scaleBar({ units }: SetupContext, left: number, y: number, mmPerMetre: number): string[] {
  const unit = unitLength(units);
  const count = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].find((n) => n * unit * mmPerMetre >= 15) ?? 1000;
  const length = count * unit * mmPerMetre;
  const text = units === "feet" ? `${count} ft` : `${count} m`;
  const style = { stroke: INK, width: 0.25 };
  const right = left + length;
  return [
    textOf(right + 1.2, y, text, { size: 2.8, fill: QUIET }),
    lineOf(
      right - length,
      y - 0.9,
      right,
      y - 0.9,
      style,
      ` data-kind="scale-bar" data-metres="${count * unit}"`,
    ),
    lineOf(right - length, y - 1.8, right - length, y, style),
    lineOf(right, y - 1.8, right, y, style),
  ];
}
