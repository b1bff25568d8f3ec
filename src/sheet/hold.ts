/** The hold zone on the sheet: how far somebody may drift from the mark, as plain data and as a table. */
import { formatLength, type LengthUnits } from "../units/index.ts";
import type { Drawing, PaperPoint, Shape } from "./drawing.ts";
import { type Cell, type Piece, paragraphPiece, rowPiece, type Section, tableHead } from "./flow.ts";
import type { SetupContext } from "./setup-order.ts";
import { QUIET } from "./svg.ts";
import { shares } from "./tables.ts";

export interface SheetHold {
  /** whose, by place in the plan */
  readonly person: number;
  /** what stays as it is inside: "Rembrandt, exposure and ratio within a third of a stop" */
  readonly asked: string;
  /** metres in the room */
  readonly outline: readonly { readonly x: number; readonly y: number }[];
  readonly circle: SheetCircle;
  readonly rows: readonly HoldWay[];
}

export interface SheetCircle {
  readonly x: number;
  readonly y: number;
  readonly radius_m: number;
  /** from the mark, toward where the body faces and to its own left */
  readonly ahead_m: number;
  readonly left_m: number;
}

/** One way to go, metres on the floor or degrees of the head, and what ends it there. */
export interface HoldWay {
  readonly way: string;
  readonly metres: number | null;
  readonly degrees: number | null;
  readonly ends: string;
}

const CIRCLE_CORNERS = 48;

/** The drawing with the zone's outline and its circle on it. */
export function withHold(floor: Drawing, hold: SheetHold | undefined): Drawing {
  if (hold === undefined) return floor;
  const { x, y, radius_m } = hold.circle;
  const circle = Array.from({ length: CIRCLE_CORNERS }, (_, k): PaperPoint => {
    const angle = (2 * Math.PI * k) / CIRCLE_CORNERS;
    return [x + radius_m * Math.cos(angle), y + radius_m * Math.sin(angle)];
  });
  const shape = (kind: "hold" | "holdCircle", points: readonly PaperPoint[]): Shape => ({
    kind,
    owner: `people[${hold.person}]`,
    points,
    closed: true,
    off: false,
    depth: Number.POSITIVE_INFINITY,
  });
  const outline = hold.outline.map((p): PaperPoint => [p.x, p.y]);
  return { ...floor, shapes: [...floor.shapes, shape("hold", outline), shape("holdCircle", circle)] };
}

/** Floor and head side by side; what stays as it is, and the circle, under them. */
export function holdSection({ plan, units }: SetupContext, hold: SheetHold, width: number): Section {
  const widths = shares([14, 14, 34, 26, 10, 34], width);
  const whose = plan.people.length > 1 ? ` of ${plan.people[hold.person].name}` : "";
  const heading = tableHead(
    `Hold zone${whose}, from the mark`,
    ["on the floor", "as far as", "ended by", "the head", "as far as", "ended by"],
    widths,
  );
  const cells = (row: HoldWay | undefined): Cell[] =>
    row === undefined
      ? [[], [], []]
      : [
          [{ text: row.way }],
          [{ text: amount(row, units), weight: 600 }],
          [{ text: row.ends, fill: QUIET, most: 3 }],
        ];
  const floor = hold.rows.filter(({ metres }) => metres !== null);
  const head = hold.rows.filter(({ metres }) => metres === null);
  const rows = Array.from({ length: Math.max(floor.length, head.length) }, (_, k) =>
    rowPiece([...cells(floor[k]), ...cells(head[k])], widths),
  );
  return { heading, rows: [...rows, GAP, paragraphPiece(notes(plan, hold, units), width, NOTE)] };
}

const GAP: Piece = { height: 0.8, draw: () => [] };
const NOTE = { size: 2.8, fill: QUIET };

function notes(plan: SetupContext["plan"], { asked, circle, person }: SheetHold, units: LengthUnits): string {
  const say = (m: number) => formatLength(m, units);
  const where = fromMarkWords(circle.ahead_m, circle.left_m, say);
  return (
    `Dashed on the Floor. Inside it ${plan.people[person].name} keeps ${asked}, all else as planned, turn and tip each by ` +
    `themselves. Largest circle that fits: radius ${say(circle.radius_m)}, ${where}.`
  );
}

function amount({ metres, degrees }: HoldWay, units: LengthUnits): string {
  return metres === null ? `${degrees ?? 0}°` : formatLength(metres, units);
}

/** Nearer than tape is laid, metres. */
const NEAR_M = 0.005;

/** "its middle 0.12 m behind and 0.08 m to own right of the mark" */
export function fromMarkWords(ahead_m: number, left_m: number, say: (metres: number) => string): string {
  const parts = [
    ...(Math.abs(ahead_m) < NEAR_M ? [] : [`${say(Math.abs(ahead_m))} ${ahead_m > 0 ? "ahead" : "behind"}`]),
    ...(Math.abs(left_m) < NEAR_M
      ? []
      : [`${say(Math.abs(left_m))} to own ${left_m > 0 ? "left" : "right"}`]),
  ];
  return parts.length === 0 ? "round the mark" : `its middle ${parts.join(" and ")} of the mark`;
}
