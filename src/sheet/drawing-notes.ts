/** What is written about a drawing and on it: caption, scale bar, tapes, and which names are given room first. */
import type { Plan, Vec3 } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Drawing, PaperPoint } from "./drawing.ts";
import { onPaper } from "./object-outlines.ts";
import type { Place, Places } from "./place.ts";
import { unitLength } from "./scale.ts";
import { INK, lineOf, QUIET, textOf } from "./svg.ts";
import type { Tape } from "./tape.ts";
import { textWidth } from "./text.ts";

/** What notes are made from: no light need be known. */
export interface DrawingContext {
  readonly plan: Plan;
  readonly places: Places;
  readonly units: LengthUnits;
}

/** More of them and their tapes would hide the drawing; the table has every distance. */
const TAPED = { people: 2, lights: 3, heights: 6 } as const;
export const METERS_NAMED = 6;

export const SIDE_CAPTION = "as seen from the right, ";

export function captionWidth(title: string, about: string): number {
  return textWidth(title, 3.4, 600) + 1.6 + textWidth(about, 2.8);
}

export function caption(x: number, y: number, title: string, about: string): string[] {
  return [
    textOf(x, y + 3.4, title, { size: 3.4, weight: 600 }),
    textOf(x + textWidth(title, 3.4, 600) + 1.6, y + 3.4, about, { size: 2.8, fill: QUIET }),
  ];
}

/** The rulers count from the first mark; where nobody stands, from the corner. */
export function zeroPoint({ plan }: DrawingContext): Vec3 {
  if (plan.people.length === 0) return [0, 0, 0];
  const [x, y] = plan.people[0].position;
  return [x, y, 0];
}

/** Lights and people first: they must be found. Meters last, if at all. */
export function named(drawing: Drawing, withMeters: boolean) {
  const rank = ["lights", "people", "camera", "panels", "backdrop", "marks", "meters"];
  const of = (owner: string) => rank.findIndex((r) => owner.startsWith(r));
  return drawing.labels
    .filter((label) => withMeters || !label.owner.startsWith("meters"))
    .toSorted((a, b) => of(a.owner) - of(b.owner));
}

export function floorTapes({ plan, places }: DrawingContext): Tape[] {
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

export function heightTapes({ plan, places }: DrawingContext): Tape[] {
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
export function scaleBar({ units }: DrawingContext, left: number, y: number, mmPerMetre: number): string[] {
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
