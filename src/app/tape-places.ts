import type { Plan } from "../plan/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import type { Sheet } from "./handling.ts";
import { type Box, numberBox, overlap, partWithin } from "./label-places.ts";
import { bridgeOf } from "./layer-height.ts";
import type { PlanObject } from "./objects.ts";
import type { Projection } from "./projection.ts";

interface TapesProps {
  readonly plan: Plan;
  readonly sheet: Sheet;
  readonly object: PlanObject;
  readonly projection: Projection;
  /** where numbers can be read, pixels */
  readonly window: Box;
  readonly units: LengthUnits;
  /** who stands where marks are missing */
  readonly person: number;
}

interface Tape {
  readonly from: { across: number; up: number };
  readonly to: { across: number; up: number };
  readonly length_m: number;
  readonly kind: "wall" | "face" | "mark";
}

export interface PlacedTape {
  readonly key: string;
  readonly kind: Tape["kind"];
  readonly a: { x: number; y: number };
  readonly b: { x: number; y: number };
  readonly text: string;
  readonly at: { x: number; y: number };
  readonly isUpright: boolean;
}

/** Numbers on tapes shorter than this many pixels would cover what is measured. */
const SHORTEST_PX = 24;

export function placeTapes(props: TapesProps): PlacedTape[] {
  const { plan, sheet, object, projection, units, person } = props;
  const placed = tapesOf(plan, sheet, object, person).map((tape, index) => {
    const a = projection.toScreen(tape.from.across, tape.from.up);
    const b = projection.toScreen(tape.to.across, tape.to.up);
    // the number stands in the middle of what is seen of the tape
    const [from, to] = partWithin(a, b, props.window);
    const span = Math.hypot(to.x - from.x, to.y - from.y);
    const isUpright = tape.kind === "wall" && Math.abs(b.y - a.y) > Math.abs(b.x - a.x);
    // beside the lines to the face and to the mark, which the aim often shares, one on either side
    const aside = span === 0 || tape.kind === "wall" ? 0 : tape.kind === "face" ? 17 / span : -17 / span;
    const text = formatLength(tape.length_m, units);
    return {
      key: `${tape.kind} ${index}`,
      kind: tape.kind,
      a,
      b,
      text: span <= SHORTEST_PX ? "" : tape.kind === "wall" ? text : `${tape.kind} ${text}`,
      at: {
        // a number is wider than it is high
        x: (from.x + to.x) / 2 + 2.2 * aside * (from.y - to.y),
        y: (from.y + to.y) / 2 + aside * (to.x - from.x),
      },
      isUpright,
    };
  });
  return apart(placed);
}

/** Where the lines to the face and to the mark are short their numbers are wider than what is between them: one then stands
 * above the other. */
function apart(tapes: readonly PlacedTape[]): PlacedTape[] {
  const [one, other] = tapes.filter(({ kind, text }) => kind !== "wall" && text !== "");
  if (one === undefined || other === undefined) return [...tapes];
  const [a, b] = [one, other].map(({ at, text }) => numberBox(at, text, false)) as [Box, Box];
  if (overlap(a, b) === 0) return [...tapes];
  const step = (Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0)) / 2;
  const upper = one.at.y <= other.at.y ? one : other;
  const moved = (tape: PlacedTape, by: number) => ({ ...tape, at: { x: tape.at.x, y: tape.at.y + by } });
  return tapes.map((tape) =>
    tape === one || tape === other ? moved(tape, tape === upper ? -step : step) : tape,
  );
}

export function tapesOf(plan: Plan, sheet: Sheet, object: PlanObject, person: number): Tape[] {
  const tapes: Tape[] = [];
  const across = object.position[sheet.across] as number;
  const up = object.position[sheet.up] as number;
  const here = { across, up };
  if (plan.room !== null && sheet.up === 1) {
    const { width, depth } = plan.room;
    const side = across <= width / 2 ? 0 : width;
    const end = up <= depth / 2 ? 0 : depth;
    tapes.push({ from: here, to: { across: side, up }, length_m: Math.abs(across - side), kind: "wall" });
    tapes.push({ from: here, to: { across, up: end }, length_m: Math.abs(up - end), kind: "wall" });
  } else if (sheet.up === 2 && object.lifts) {
    tapes.push({ from: here, to: { across, up: 0 }, length_m: up, kind: "wall" });
  }
  if (object.kind === "light" && sheet.up === 1) {
    const bridges = plan.people.flatMap((_, index) => bridgeOf(plan, index) ?? []);
    let nearest: Tape | null = null;
    for (let k = 0; k < bridges.length; k += 3) {
      const face = bridges.slice(k, k + 3) as [number, number, number];
      const length_m = Math.hypot(...face.map((value, axis) => value - (object.position[axis] as number)));
      if (nearest !== null && nearest.length_m <= length_m) continue;
      const to = { across: face[sheet.across], up: face[sheet.up] };
      nearest = { from: here, to, length_m, kind: "face" };
    }
    if (nearest !== null) tapes.push(nearest);
  }
  const mark = sheet.up === 1 ? markOf(plan, object, person) : null;
  if (mark !== null) {
    const length_m = Math.hypot(mark[0] - across, mark[1] - up);
    tapes.push({ from: here, to: { across: mark[0], up: mark[1] }, length_m, kind: "mark" });
  }
  return tapes.filter((tape) => tape.length_m > 0.005);
}

/** The nearest mark; where the plan has none, the place where the chosen person stands is the mark. */
function markOf(
  plan: Plan,
  { owner, position }: PlanObject,
  person: number,
): readonly [number, number] | null {
  const away = (p: readonly number[]) =>
    Math.hypot((p[0] as number) - position[0], (p[1] as number) - position[1]);
  const [nearest] = plan.marks
    .filter((_, i) => owner !== `marks[${i}]`)
    .toSorted((a, b) => away(a.position) - away(b.position));
  if (nearest !== undefined) return nearest.position;
  return owner === `people[${person}]` ? null : (plan.people[person]?.position ?? null);
}

/** "3.10 m from the right wall, 3.45 m from the near wall, 2.45 m high": the same, for the ear. */
export function placeWords(object: PlanObject, plan: Plan, units: LengthUnits): string {
  const [x, y, z] = object.position;
  const length = (value: number) => formatLength(value, units);
  const parts: string[] = [];
  if (plan.room === null) parts.push(`${length(x)} across, ${length(y)} into the set`);
  else {
    const { width, depth } = plan.room;
    parts.push(
      x <= width / 2 ? `${length(x)} from the left wall` : `${length(width - x)} from the right wall`,
    );
    parts.push(y <= depth / 2 ? `${length(y)} from the near wall` : `${length(depth - y)} from the far wall`);
  }
  if (object.lifts) parts.push(`${length(z)} high`);
  return parts.join(", ");
}
