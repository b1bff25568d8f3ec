/** Things on the shelf, each in a line. */
import { type Kind, kilogramsText, type PieceOf, type ShelfHead, type ShelfLens } from "../gear/index.ts";
import { wattSecondsText } from "../plan/index.ts";
import { formatLength, formatShutter, type LengthUnits } from "../units/index.ts";
import { angleText, frontWords, MARK_WORDS, stopsWord, tidy } from "./light-words.ts";

/** What a kind is headed with. */
export const KIND_WORDS: Readonly<Record<Kind, string>> = {
  heads: "Heads",
  modifiers: "Modifiers",
  panels: "Panels",
  stands: "Stands",
  papers: "Paper rolls",
  lenses: "Lenses",
  bodies: "Bodies",
  others: "Other things",
};

type Lines = { readonly [K in Kind]: (piece: PieceOf<K>, units: LengthUnits) => string };

const LINES: Lines = {
  heads: ({ dial, full, recycle }) =>
    `${fullText(full)}, ${MARK_WORDS[dial.marked]}, ${stopsWord(dial.range)} down to the least, ready after ${
      recycle === null ? "a time not known" : `${tidy(recycle)} s`
    }`,
  modifiers: ({ beam, face, loss }, units) =>
    `${frontWords(face, units)}, ${angleText(beam.exponent)}, takes ${stopsWord(loss.stops)}${loss.from === "measured" ? ", measured" : ""}`,
  panels: ({ height, reflectance, transmittance, width }, units) => {
    const through = transmittance === 0 ? "" : `, lets ${percent(transmittance)} through`;
    const back = typeof reflectance === "number" ? `reflects ${percent(reflectance)}` : "coloured";
    return `${formatLength(width, units)} × ${formatLength(height, units)}, ${back}${through}`;
  },
  stands: ({ arm, highest, isWheeled, lowest }, units) => {
    const reach = arm === null ? "" : `, arm ${formatLength(arm.reach, units)}`;
    return `${formatLength(lowest, units)} to ${formatLength(highest, units)}${reach}${isWheeled ? ", on wheels" : ""}`;
  },
  papers: ({ reflectance, width }, units) =>
    `${formatLength(width, units)} wide, ${
      typeof reflectance === "number" ? `reflects ${percent(reflectance)}` : "coloured"
    }`,
  lenses: (lens) => `${focalText(lens)}, f/${tidy(lens.widest)} to f/${tidy(lens.smallest)}`,
  bodies: ({ baseIso, pixels, sensor, sync }) =>
    [
      `${tidy(sensor.width)} × ${tidy(sensor.height)} mm`,
      ...(pixels === null ? [] : [`${pixels.width} × ${pixels.height}`]),
      `flash to ${sync === null ? "a time not known" : formatShutter(sync)}`,
      `ISO ${tidy(baseIso)}`,
    ].join(", "),
  others: ({ notes }) => notes,
};

/** "400 Ws, in stops, 6.0 stops down to the least, ready after 1.2 s" */
export function pieceLine<K extends Kind>(kind: K, piece: PieceOf<K>, units: LengthUnits): string {
  return LINES[kind](piece, units);
}

export function fullText(full: ShelfHead["full"]): string {
  return "wattSeconds" in full ? wattSecondsText(full.wattSeconds) : `${tidy(full.lumenSeconds)} lm·s`;
}

function focalText({ longest, shortest }: ShelfLens): string {
  return shortest === longest ? `${tidy(shortest)} mm` : `${tidy(shortest)} to ${tidy(longest)} mm`;
}

function percent(share: number): string {
  return `${tidy(100 * share)} %`;
}

/** "2.6 kg", "3 × 2.6 kg", "not weighed" */
export function weightText(mass: number | null, count = 1): string {
  if (mass === null) return count === 1 ? "not weighed" : `${count}, not weighed`;
  return count === 1 ? kilogramsText(mass) : `${count} × ${kilogramsText(mass)}`;
}
