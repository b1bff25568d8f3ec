/** The sheet's parts that come with its extras: background, moves, and distances found again without a tape. */
import { listed } from "../safety/index.ts";
import { formatLength, formatStops } from "../units/index.ts";
import type { SheetBackground, SheetMove, SheetReach } from "./extras.ts";
import {
  type CellLine,
  headingPiece,
  paragraphPiece,
  rowPiece,
  type Section,
  TEXT,
  tableHead,
} from "./flow.ts";
import type { SetupContext } from "./setup-order.ts";
import { spreadWords } from "./spread.ts";
import { QUIET } from "./svg.ts";
import { shares } from "./tables.ts";
import { fitText } from "./text.ts";
import { keyMeter } from "./words.ts";

/** Points beside each other, as the camera sees them. */
export function backgroundTable(
  { plan, places, units }: SetupContext,
  points: readonly SheetBackground[],
  width: number,
): Section {
  const widths = shares([...points.map(() => 1)], width);
  const meter = keyMeter(plan, places.noses);
  const against = meter === null ? "" : `, stops against ${plan.meters[meter].name}`;
  const kind = plan.backdrop?.kind ?? "wall";
  const [dx, dy] = plan.backdrop?.position ?? [0, 0];
  const heading = tableHead(
    `Background: a flat receptor at the ${kind}, as seen from the camera${against}`,
    points.map(({ name }) => name),
    widths,
  );
  const cells = points.map(({ fStops, againstKeyStops, position: [x, y, z] }): CellLine[] => {
    const bearing = ((plan.backdrop?.bearing ?? 180) * Math.PI) / 180;
    // picture left and right for who stands before it
    const right = -((x - dx) * Math.cos(bearing) - (y - dy) * Math.sin(bearing));
    const side =
      Math.abs(right) < 0.005
        ? "middle"
        : `${formatLength(Math.abs(right), units)} ${right < 0 ? "left" : "right"}`;
    return [
      { text: fStops, weight: 600 },
      ...(againstKeyStops === null ? [] : [{ text: againstWords(againstKeyStops) }]),
      { text: `${side}, up ${formatLength(z, units)}`, fill: QUIET },
    ];
  });
  return { heading, rows: [rowPiece(cells, widths)] };
}

/** "3.2 stops under", "level" */
export function againstWords(stops: number): string {
  const text = formatStops(stops).replace(/[−+]/, "");
  if (Number(text) === 0) return "level";
  return `${text} ${text === "1.0" ? "stop" : "stops"} ${stops < 0 ? "under" : "over"}`;
}

/** Where the light comes from and how strong it is stand in columns of their own. */
export function movesTable(moves: readonly SheetMove[], width: number): Section {
  const widths = shares([29, 27, 10.5, 10.5, 14], width);
  const heading = tableHead("Moves worth knowing", ["", "direction", "face", "ratio", "behind"], widths);
  const stops = (value: number | null): CellLine =>
    value === null ? { text: "none", fill: QUIET } : { text: formatStops(value) };
  const rows = moves.map(({ of, does, direction, faceStops, ratioStops, backgroundStops }) =>
    rowPiece(
      [
        [{ text: moveWords(of, does, widths[0]), weight: 600 }],
        [direction === "" ? { text: "stays", fill: QUIET } : { text: direction }],
        ...[faceStops, ratioStops, backgroundStops].map((value) => [stops(value)]),
      ],
      widths,
    ),
  );
  return { heading, rows };
}

/** A long name is cut, never what is done; a panel that is put up is named by that already. */
function moveWords(of: string, does: string, width: number): string {
  return does.startsWith(`${of} `) ? does : `${fitText(of, width - 4, TEXT, 600)}: ${does}`;
}

export function reachSection(
  { places, units }: SetupContext,
  reach: readonly SheetReach[],
  width: number,
): Section {
  const all = [...places.lights, ...places.panels, places.camera];
  const nameOf = (of: string) => all.find((place) => place.owner === of)?.name ?? of;
  const near = reach.filter(({ spread_m }) => spread_m > 0);
  const far = reach.filter(({ spread_m }) => spread_m === 0);
  const said = near.map(({ owner, text, spread_m, effect }) => {
    const does = effect === "" ? "" : `: ${effect}`;
    return `${nameOf(owner)}: ${text}. Good to ${spreadWords(spread_m, units)}${does}.`;
  });
  // one is told with why; of several it is enough that the tape is asked for
  if (far.length === 1) said.push(`${nameOf(far[0].owner)}: ${far[0].text}.`);
  if (far.length > 1) said.push(`No reach, only the tape: ${listed(far.map(({ owner }) => nameOf(owner)))}.`);
  const rows = said.map((text) => paragraphPiece(text, width, { lead: "–" }));
  return { heading: headingPiece("Without a tape", width), rows };
}
