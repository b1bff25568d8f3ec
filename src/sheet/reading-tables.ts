/** The sheet's tables of what is read: meters and faces. */
import {
  goodToWords,
  lightFromWords,
  litSideWords,
  marginWords,
  type PlanReading,
  patternName,
} from "../reading/index.ts";
import { rowPiece, type Section, tableHead } from "./flow.ts";
import type { SetupContext } from "./setup-order.ts";
import { QUIET } from "./svg.ts";
import { shares } from "./tables.ts";
import { heldWords, meterWords, ratioWords } from "./words.ts";

export function readingTable({ plan, reading, places, units }: SetupContext, width: number): Section {
  const widths = shares([34, 62, 30, 60], width);
  // said once where all are as sure
  const sure = reading.meters.map(({ uncertaintyStops }) => goodToWords(uncertaintyStops));
  const same = sure.length > 1 && new Set(sure).size === 1 ? sure[0] : null;
  const heading = tableHead(
    same === null ? "What the meters should read" : `What the meters should read, each ${same}`,
    ["meter", "receptor, and where it points", "all on", "held"],
    widths,
  );
  const rows = plan.meters.map((meter, i) => {
    const about = same === null ? sure[i] : null;
    return rowPiece(
      [
        [{ text: meter.name, weight: 600, most: 2 }],
        [{ text: meterWords(plan, i, places.noses) }],
        [
          { text: reading.meters[i].fStops, weight: 600 },
          ...(about === null ? [] : [{ text: about, fill: QUIET }]),
        ],
        [{ text: heldWords(plan, i, places.noses, units), fill: QUIET }],
      ],
      widths,
    );
  });
  return { heading, rows };
}

export function faceTable(people: PlanReading["people"], width: number): Section {
  const widths = shares([30, 40, 40, 40, 40], width);
  const heading = tableHead(
    "Faces",
    ["", "pattern", "contrast", "light from", "nearest other pattern"],
    widths,
  );
  const rows = people.map(({ name, face }) =>
    rowPiece(
      [
        [{ text: name, weight: 600, most: 2 }],
        [{ text: patternName(face.pattern), weight: 600 }, { text: litSideWords(face) }],
        [{ text: ratioWords(face) }],
        [{ text: lightFromWords(face) ?? "no light" }],
        [{ text: marginWords(face) ?? "none found" }],
      ],
      widths,
    ),
  );
  return { heading, rows };
}
