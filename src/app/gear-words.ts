/** Things on the shelf, each in a line. */
import type { Kind, Piece, PieceOf, Shelf, ShelfHead, ShelfLens, ShelfLoss } from "../gear/index.ts";
import { wattSecondsText } from "../plan/index.ts";
import { formatLength, formatShutter, formatWeight, type LengthUnits } from "../units/index.ts";
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
export function weightText(mass: number | null, count: number, units: LengthUnits): string {
  if (mass === null) return count === 1 ? "not weighed" : `${count}, not weighed`;
  const one = formatWeight(mass, units);
  return count === 1 ? one : `${count} × ${one}`;
}

/** "2.6 kg here, 3.1 kg there": by the line that the shelf shows of it, or that it is in what the line leaves out. */
export function apartText({ kind, name, theirs }: ShelfLoss, shelf: Shelf, units: LengthUnits): string {
  const pieces: readonly Piece[] = shelf[kind];
  const ours = pieces.find((piece) => piece.name === name);
  if (theirs === null) return ours === undefined ? "taken away in both" : "taken away there";
  if (ours === undefined) return `taken away here, ${lineOf(kind, theirs, units)} there`;
  const [mine, other] = [lineOf(kind, ours, units), lineOf(kind, theirs, units)];
  return mine === other ? "its notes or what is folded under it differ" : `${mine} here; ${other} there`;
}

function lineOf(kind: Kind, piece: Piece, units: LengthUnits): string {
  const line = pieceLine(kind, piece as never, units);
  return [weightText(piece.mass, piece.count, units), ...(line === "" ? [] : [line])].join(", ");
}
