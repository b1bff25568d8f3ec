/** Where the words of a hold zone stand on the drawing: outward from each side of it, clear of all that is written. */
import { type HoldZone, limitWord } from "../finder/index.ts";
import type { LengthUnits } from "../units/index.ts";
import { tapeWords } from "./hold-words.ts";
import { type Box, nameBox, type PlacedLabel } from "./label-places.ts";
import type { Projection } from "./projection.ts";

interface Point {
  readonly x: number;
  readonly y: number;
}

export interface HoldLabel extends PlacedLabel {
  /** from the words to the end of that side; null where they stand beside it */
  readonly leader: readonly [Point, Point] | null;
}

/** First so near, then farther and farther off, pixels. */
const GAP_PX = 8;
const STEP_PX = 8;
const STEPS = 16;
/** Letters' height over and under which a label's middle lies. */
const HALF_LINE_PX = 4;
/** Beside the straight way out, radians: the second choice and the third. */
const ASIDE = [0, 0.5, -0.5, 1, -1];

/** What could not be placed is left out: the numbers beside the print have it. */
export function holdLabels(
  zone: HoldZone,
  facing_deg: number,
  projection: Projection,
  units: LengthUnits,
  inside: Box,
  taken: readonly Box[],
): HoldLabel[] {
  const mark = projection.toScreen(zone.mark[0], zone.mark[1]);
  const things = [...taken];
  const out: HoldLabel[] = [];
  const put = (text: string, of: Point, way: number) => {
    const label = firstFree(text, of, way, inside, things);
    if (label === null) return;
    things.push(nameBox(label));
    out.push({ ...label, leader: leaderFrom(nameBox(label), of) });
  };
  // ahead is the bearing that the body faces, own left a quarter against the clock from there
  zone.sides.forEach(({ centimetres, limit }, k) => {
    const bearing = ((facing_deg - 90 * k) * Math.PI) / 180;
    const along = (centimetres / 100) * projection.scale;
    const of = { x: mark.x + along * Math.sin(bearing), y: mark.y - along * Math.cos(bearing) };
    put(`${tapeWords(centimetres / 100, units)} ${limitWord(limit)}`, of, bearing);
  });
  const middle = projection.toScreen(zone.circle.x, zone.circle.y);
  const way = Math.atan2(middle.x - mark.x, mark.y - middle.y);
  const edge = zone.circle.radius_m * projection.scale;
  const rim = { x: middle.x + edge * Math.sin(way), y: middle.y - edge * Math.cos(way) };
  if (zone.circle.radius_m > 0) put(`circle ${tapeWords(zone.circle.radius_m, units)}`, rim, way);
  return out;
}

function firstFree(
  text: string,
  of: Point,
  way: number,
  inside: Box,
  taken: readonly Box[],
): PlacedLabel | null {
  for (let k = 0; k < STEPS; k++)
    for (const aside of ASIDE) {
      const far = GAP_PX + STEP_PX * k;
      const [dx, dy] = [Math.sin(way + aside), -Math.cos(way + aside)];
      const label: PlacedLabel = {
        owner: "",
        text,
        x: of.x + far * dx,
        y: of.y + far * dy + HALF_LINE_PX + HALF_LINE_PX * dy,
        anchor: dx > 0.4 ? "start" : dx < -0.4 ? "end" : "middle",
      };
      const box = nameBox(label);
      const isIn = box.x0 >= inside.x0 && box.x1 <= inside.x1 && box.y0 >= inside.y0 && box.y1 <= inside.y1;
      if (isIn && !taken.some((other) => touches(box, other))) return label;
    }
  return null;
}

/** Nearer than this words need no line, pixels. */
const BESIDE_PX = 14;

function leaderFrom({ x0, x1, y0, y1 }: Box, of: Point): HoldLabel["leader"] {
  const from = { x: Math.max(x0, Math.min(x1, of.x)), y: Math.max(y0, Math.min(y1, of.y)) };
  return Math.hypot(from.x - of.x, from.y - of.y) < BESIDE_PX ? null : [from, of];
}

function touches(a: Box, b: Box): boolean {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}
