/** The sheet's tables of what is read: meters, and where many stand, everybody with mark and face. */
import {
  betweenWords,
  type FaceReading,
  goodToWords,
  lightFromWords,
  litSideWords,
  marginWords,
  patternName,
  ratioNumberWords,
  ratioStopsWords,
} from "../reading/index.ts";
import { formatLength } from "../units/index.ts";
import { type CellLine, rowPiece, type Section, tableHead } from "./flow.ts";
import type { SetupContext } from "./setup-order.ts";
import { QUIET } from "./svg.ts";
import { floorCell, NAME_LINES, shares } from "./tables.ts";
import { bearingWords, headWords, heldWords, meterWords, poseWords } from "./words.ts";

export function meterWidths(width: number): number[] {
  return shares([32, 51, 19.5, 27, 58.5], width);
}

export function readingTable({ plan, reading, places, units }: SetupContext, width: number): Section {
  // said once where all are as sure
  const sure = reading.meters.map(({ uncertaintyStops }) => goodToWords(uncertaintyStops));
  const same = new Set(sure).size === 1 ? sure[0] : null;
  const [name, receptor, read, good, held] = meterWidths(width);
  const widths = same === null ? [name, receptor, read, good, held] : [name, receptor, read, good + held];
  const title = "What the meters should read";
  const heading = tableHead(
    same === null ? title : `${title}, ${sure.length > 1 ? "each " : ""}${same}`,
    ["meter", "receptor, and where it points", "all on", ...(same === null ? ["how sure"] : []), "held"],
    widths,
  );
  const rows = plan.meters.map((meter, i) =>
    rowPiece(
      [
        [{ text: meter.name, weight: 600, most: NAME_LINES }],
        [{ text: meterWords(plan, i, places.noses) }],
        [{ text: reading.meters[i].fStops, weight: 600 }],
        ...(same === null ? [[{ text: sure[i] ?? "", fill: QUIET }]] : []),
        [{ text: heldWords(plan, i, places.noses, units), fill: QUIET }],
      ],
      widths,
    ),
  );
  return { heading, rows };
}

export function peopleWidths(width: number): number[] {
  return shares([22.2, 29.3, 25.5, 58.4, 29.8, 22.8], width);
}

/** Mark and face of each in one row: who is looked for is found once. */
export function peopleTable({ plan, reading, places, units }: SetupContext, width: number): Section {
  const widths = peopleWidths(width);
  const heading = tableHead(
    "People: their marks and faces",
    ["", "mark, and nose", "turned", "pattern, and what changes it", "contrast", "light from"],
    widths,
  );
  const rows = places.people.map((place, i) => {
    const { face } = reading.people[i];
    const nose: CellLine = { text: `nose ${formatLength(place.noseHeight_m, units)}` };
    const isZero = place.mark === null && place.walls === null;
    return rowPiece(
      [
        [
          { text: place.name, weight: 600, most: NAME_LINES },
          { text: poseWords(plan.people[i], units), fill: QUIET },
        ],
        [...(isZero ? [{ text: "the tape's zero", weight: 600 as const }] : floorCell(place, units)), nose],
        [{ text: [bearingWords(place.bearing_deg), ...headWords(plan.people[i])].join(", "), most: 7 }],
        [
          { text: nameWords(face), weight: 600 },
          { text: [litSideWords(face), marginWords(face) ?? "nothing found that changes it"].join("; ") },
        ],
        [ratioStopsWords(face), ...ratioNumberWords(face).split(", ")].flatMap((text) =>
          text === null ? [] : [{ text }],
        ),
        [{ text: lightFromWords(face) ?? "no light" }],
      ],
      widths,
    );
  });
  return { heading, rows };
}

/** "Rembrandt, close to loop" */
export function nameWords(face: FaceReading): string {
  const between = betweenWords(face);
  return between === null ? patternName(face.pattern) : `${patternName(face.pattern)}, ${between}`;
}
