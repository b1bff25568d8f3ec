import type { Plan } from "../plan/index.ts";
import { formatLength, type LengthUnits } from "../units/index.ts";
import type { Sheet } from "./handling.ts";
import { bridgeOf } from "./layer-height.ts";
import type { PlanObject } from "./objects.ts";
import type { Projection } from "./projection.ts";
import { Unspoken } from "./unspoken.tsx";

interface TapesProps {
  readonly plan: Plan;
  readonly sheet: Sheet;
  readonly object: PlanObject;
  readonly projection: Projection;
  readonly units: LengthUnits;
}

interface Tape {
  readonly from: { across: number; up: number };
  readonly to: { across: number; up: number };
  readonly length_m: number;
  readonly kind: "wall" | "face";
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

export function placeTapes({ plan, sheet, object, projection, units }: TapesProps): PlacedTape[] {
  return tapesOf(plan, sheet, object).map((tape, index) => {
    const a = projection.toScreen(tape.from.across, tape.from.up);
    const b = projection.toScreen(tape.to.across, tape.to.up);
    const span = Math.hypot(b.x - a.x, b.y - a.y);
    const isUpright = tape.kind === "wall" && Math.abs(b.y - a.y) > Math.abs(b.x - a.x);
    // beside the line to the face, which the aim often shares
    const aside = tape.kind === "face" && span > 0 ? 17 : 0;
    return {
      key: `${tape.kind} ${index}`,
      kind: tape.kind,
      a,
      b,
      text: span > SHORTEST_PX ? formatLength(tape.length_m, units) : "",
      at: {
        x: (a.x + b.x) / 2 + (aside === 0 ? 0 : (aside * 1.5 * (a.y - b.y)) / span),
        y: (a.y + b.y) / 2 + (aside === 0 ? 0 : (aside * (b.x - a.x)) / span),
      },
      isUpright,
    };
  });
}

/** Distances as a tape would take them from what is taken hold of: on the Floor to the two nearest walls and from
 * a light to the face, through the air; on the Side to the floor. */
export function Tapes({ tapes }: { tapes: readonly PlacedTape[] }) {
  return (
    <Unspoken class="tapes">
      {tapes.map(({ key, kind, a, b, text, at, isUpright }) => (
        <g key={key} class={kind}>
          <path d={`M${a.x},${a.y}L${b.x},${b.y}`} />
          <text
            x={at.x}
            y={at.y}
            dy="0.35em"
            transform={isUpright ? `rotate(-90 ${at.x} ${at.y})` : undefined}
          >
            {text}
          </text>
        </g>
      ))}
    </Unspoken>
  );
}

export function tapesOf(plan: Plan, sheet: Sheet, object: PlanObject): Tape[] {
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
  return tapes.filter((tape) => tape.length_m > 0.005);
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
