/** A picture at its final size, in words: state, margin, remedy. */
import { formatFStops, formatLength, formatShutter, type LengthUnits } from "../units/index.ts";
import type { FinalUse, Pixels, Size, Smear } from "./types.ts";
import { cssPixelsOf, isForWeb } from "./uses.ts";

/** One thing that is told of the whole picture. */
export interface UseFact {
  readonly term: string;
  readonly strong: string;
  readonly rest: string;
  /** it falls short of what the eye tells apart, or of what is asked */
  readonly isShort: boolean;
}

export interface SmearWords {
  /** "0.38 mm" */
  readonly size: string;
  /** "not seen from 1.50 m, but from nearer than 1.30 m" */
  readonly state: string;
  readonly isSeen: boolean;
  readonly remedy: string | null;
  /** "0.9 pixel of the file" */
  readonly file: string | null;
}

/** What a smear of one minute of arc means, and what is left out. */
export const EYE_NOTE =
  "The eye is taken to tell one minute of arc apart, as whoever reads the line marked 6/6 or 20/20 does; sharp eyes tell " +
  "a little more. Camera shake, the lens’s own faults and the printer’s screen are left out.";

/** Nearer than this nobody looks at a picture without a glass: the distance of distinct vision, 25 cm, by which magnifiers are
 * marked. */
const NEAREST_LOOK_M = 0.25;

export function useFacts(use: FinalUse, units: LengthUnits): UseFact[] {
  const all = [pixelFact(use, units), ...eyeFacts(use, units), ...askedFacts(use, units)];
  return [...all, ...inFocusFacts(use, units)];
}

function pixelFact(use: FinalUse, units: LengthUnits): UseFact {
  const on = `on ${sizeWords(use, use.print, units)}`;
  if (use.pixels === null || use.ppi === null)
    return {
      term: "pixels",
      strong: "not known",
      rest: "give the file’s pixels, and what it holds is told",
      isShort: false,
    };
  return {
    term: "pixels",
    strong: `${whole(use.ppi)} an inch`,
    rest: `${pixelWords(use.pixels)} of the file are used, ${on}`,
    isShort: false,
  };
}

function eyeFacts(use: FinalUse, units: LengthUnits): UseFact[] {
  const from = formatLength(use.away_m, units);
  const why = use.isAwayGiven ? "" : ", which is its diagonal: no distance is given";
  const eye = `the eye tells ${whole(use.eyePpi)} an inch apart from ${from}${why}`;
  const pixel = use.smears.find(({ kind }) => kind === "pixel");
  if (pixel === undefined)
    return [{ term: "eye", strong: `${whole(use.eyePpi)} an inch`, rest: eye, isShort: false }];
  const nearest = formatLength(pixel.unseenFrom_m, units);
  const isSeen = pixel.timesEye > 1;
  const largest: UseFact[] =
    pixel.largest === null
      ? []
      : [
          {
            term: "largest",
            strong: sizeWords(use, pixel.largest, units),
            rest: `seen from ${from}, before its pixels show`,
            isShort: false,
          },
        ];
  const seen: UseFact = isSeen
    ? {
        term: "eye",
        strong: "pixels are seen",
        rest: `${eye}; not seen from ${nearest} on`,
        isShort: true,
      }
    : {
        term: "eye",
        strong: "no pixel is seen",
        rest: `${eye}; pixels show from nearer than ${nearest}`,
        isShort: false,
      };
  return [seen, ...largest];
}

function askedFacts(use: FinalUse, units: LengthUnits): UseFact[] {
  const { asked, ppi } = use;
  if (asked === null) return [];
  const asks = `${isForWeb(use.use) ? "the page" : "the printer"} asks ${whole(asked.ppi)} an inch, ${pixelWords(asked.pixels)}`;
  if (asked.enlarge === null || asked.largest === null || ppi === null)
    return [{ term: "asked", strong: `${whole(asked.ppi)} an inch`, rest: asks, isShort: false }];
  // a pixel in a hundred is nobody's complaint, and 333 of 333.3 is what was asked
  const isShort = asked.enlarge > 1.005;
  const met: UseFact = isShort
    ? {
        term: "asked",
        strong: `${whole(ppi)} of ${whole(asked.ppi)}`,
        rest: `${asks}, and gets fewer; ask whether ${whole(ppi)} will do, use more of the picture, or ${noLarger(use, asked.largest, units)}`,
        isShort,
      }
    : {
        term: "asked",
        strong: "enough",
        rest: `${asks}; the file gives it up to ${sizeWords(use, asked.largest, units)}`,
        isShort,
      };
  return [met, resampled(asked.enlarge)];
}

/** How sharp the sharpest place is, and what most of its smear comes of. */
function inFocusFacts(use: FinalUse, units: LengthUnits): UseFact[] {
  const together = use.smears.find(({ kind }) => kind === "together");
  if (together === undefined) return [];
  const most = use.smears
    .filter(({ kind }) => kind !== "together" && kind !== "focus")
    .reduce((a, b) => (b.mm > a.mm ? b : a));
  const { isSeen, size, state } = smearWords(use, together, units);
  return [{ term: "in focus", strong: size, rest: `${state}; most of it is ${most.what}`, isShort: isSeen }];
}

/** What happens to the file on its way to what is asked. Sharpening comes last (common practice, no source). */
function resampled(enlarge: number): UseFact {
  const term = "resampling";
  if (Math.abs(enlarge - 1) <= 0.005)
    return { term, strong: "none", rest: "the file goes to it pixel for pixel", isShort: false };
  const strong = `× ${enlarge < 0.095 ? enlarge.toFixed(3) : enlarge.toFixed(2)}`;
  const rest =
    enlarge > 1
      ? "each way, larger: it adds pixels and no detail. Sharpen after it, at the final size"
      : "each way, smaller. Sharpen after it, at the final size";
  return { term, strong, rest, isShort: false };
}

export function smearWords(use: FinalUse, smear: Smear, units: LengthUnits): SmearWords {
  const from = formatLength(use.away_m, units);
  const isSeen = smear.timesEye > 1;
  const limit = formatLength(smear.unseenFrom_m, units);
  const nearer = smear.unseenFrom_m < NEAREST_LOOK_M ? "nor nearer" : `but from nearer than ${limit}`;
  return {
    size: mmWords(smear.mm),
    isSeen,
    state: isSeen
      ? `seen from ${from}: ${smear.timesEye.toFixed(1)} times what the eye tells apart; not from ${limit} on`
      : `not seen from ${from}, ${nearer}`,
    remedy: isSeen ? remedyWords(use, smear, units) : null,
    file:
      smear.filePixels === null || smear.kind === "pixel"
        ? null
        : `${smear.filePixels.toFixed(1)} ${smear.filePixels < 1.05 ? "pixel" : "pixels"} of the file`,
  };
}

function remedyWords(use: FinalUse, { cure, largest }: Smear, units: LengthUnits): string | null {
  const smaller = largest && noLarger(use, largest, units);
  if (cure === null) return smaller;
  if (cure.kind === "time")
    return `${cure.of === "flash" ? "a flash" : "the shutter"} of ${timeWords(cure.seconds)} or shorter, or ${smaller}`;
  const amount = Math.abs(cure.stops).toFixed(1);
  const stops = `${amount} ${amount === "1.0" || Number(amount) < 1 ? "stop" : "stops"}`;
  return cure.stops > 0
    ? `close the lens to ${formatFStops(cure.fNumber)}, with ${stops} more light, or ${smaller}`
    : `open the lens to ${formatFStops(cure.fNumber)}, with ${stops} less light, or ${smaller}`;
}

/** "1/940 s" */
function timeWords(seconds: number): string {
  return formatShutter(seconds).replace(/^1\/\d+$/, "$& s");
}

/** "print no larger than 1.20 × 1.75 m": nobody prints a web page */
function noLarger(use: FinalUse, size: Size, units: LengthUnits): string {
  return `${isForWeb(use.use) ? "show it" : "print"} no larger than ${sizeWords(use, size, units)}`;
}

/** "1.20 × 1.75 m", or a web page's own pixels. */
export function sizeWords({ use }: Pick<FinalUse, "use">, size: Size, units: LengthUnits): string {
  if (isForWeb(use))
    return `${whole(cssPixelsOf(size.width_m))} × ${whole(cssPixelsOf(size.height_m))} of the page’s pixels`;
  const [across, down] = [size.width_m, size.height_m].map((m) => formatLength(m, units));
  return units === "metric" ? `${across?.replace(/ m$/, "")} × ${down}` : `${across} × ${down}`;
}

export function pixelWords({ width, height }: Pixels): string {
  return `${whole(width)} × ${whole(height)} pixels`;
}

/** A width in the finished picture: millimetres in both units, as for shadow edges. */
export function mmWords(mm: number): string {
  if (mm < 0.005) return mm === 0 ? "0 mm" : "under 0.01 mm";
  return `${mm < 1 ? mm.toFixed(2) : mm < 10 ? mm.toFixed(1) : mm.toFixed(0)} mm`;
}

const whole = (n: number) => (n < 9.95 ? Number(n.toFixed(1)).toString() : n.toFixed(0));

/** What it is for and from where, in one line. */
export function useTitle(use: FinalUse, units: LengthUnits): string {
  const name = use.use === "" ? "finished picture" : use.use;
  return `${name}, ${sizeWords(use, use.print, units)}, seen from ${formatLength(use.away_m, units)}`;
}

/** What was taken for granted, and what would have to be given for it to be told. */
export function notesOf(use: FinalUse, units: LengthUnits): string[] {
  const { focusOn, isSpeedGiven, pixels, speed_m_s, unknownFlashes } = use;
  const notes: string[] = [];
  if (pixels === null) notes.push("The file’s pixels are not known: what it holds at this size is left out.");
  if (focusOn === null) notes.push("Nobody is before the lens: focus and motion are left out.");
  else {
    const speed = `${formatLength(speed_m_s, units)} a second`;
    notes.push(
      `Focused on ${focusOn}’s nearer eye; what must stay sharp is taken to move ${speed}${isSpeedGiven ? "" : " (a guess: a sitter who breathes and turns)"}.`,
    );
    if (unknownFlashes.length > 0)
      notes.push(
        `How long the flash of ${unknownFlashes.map((name) => `“${name}”`).join(", ")} lasts is not known: no longer than the shutter is open.`,
      );
    if (use.smears.some(({ what }) => what.startsWith("motion in the flash")))
      notes.push(
        "Flashes are counted over a tenth of their peak, at full power; at less power many heads are shorter, some longer.",
      );
  }
  return notes;
}
