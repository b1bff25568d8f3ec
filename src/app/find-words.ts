/** The finder in words: what a brief asks for, what was found and by what margin. */
import type { FindAnswer, HoldZone, WishMet } from "../finder/index.ts";
import type { Gear, GearLight, Want } from "../plan/index.ts";
import { PATTERNS as ALL_PATTERNS, type Pattern, patternName } from "../reading/index.ts";
import { type LengthUnits, lengthsIn } from "../units/index.ts";
import { clockText } from "./find-entries.ts";
import { APERTURE, BACKGROUND, EDGE, RATIO, ROUND, spanText } from "./find-spans.ts";
import { tidy } from "./light-words.ts";

/** What patterns are asked for: nobody asks for the dark. */
export const PATTERNS = ALL_PATTERNS.filter((each): each is Exclude<Pattern, "dark"> => each !== "dark");

/** What the shadows do, as a photographer would tell somebody who cannot see the picture. */
export const PATTERN_LOOKS: Readonly<Record<Exclude<Pattern, "dark">, string>> = {
  flat: "hardly a shadow anywhere",
  butterfly: "from above the lens: a small shadow straight under the nose",
  loop: "the nose’s shadow points down one cheek and stops short of the lip",
  rembrandt: "one cheek in shadow but for a triangle of light under the eye",
  split: "one half of the face lit, the other not",
  rim: "from behind: an edge of light along one side",
  under: "from below",
};

export const WISH_WORDS: Readonly<Record<WishMet["wish"], string>> = {
  pattern: "pattern",
  litSide: "lit side",
  side: "to the lens",
  ratioStops: "ratio",
  shadowEdgeMillimetres: "shadow edge",
  backgroundStops: "background",
  fNumber: "aperture",
  headroomStops: "headroom",
  catchlight: "catchlight",
  azimuth: "light round",
  elevation: "light up",
  spreadStops: "evenness",
  crop: "crop",
  frame: "in the frame",
  clearance: "clearances",
  power: "power",
};

/** What is asked of the light, in one line: "Rembrandt, own left lit; ratio 1.2 to 1.7 stops"; null where all is free. */
export function wantLine(want: Want): string | null {
  const lit = want.litSide === null ? null : `own ${want.litSide} lit`;
  const look = [want.pattern && patternName(want.pattern), lit, want.side].filter((word) => word !== null);
  const parts = [
    ...(look.length > 0 ? [look.join(", ")] : []),
    ...(want.ratioStops === null ? [] : [`ratio ${spanText(want.ratioStops, RATIO)}`]),
    ...(want.shadowEdgeMillimetres === null ? [] : [`edge ${spanText(want.shadowEdgeMillimetres, EDGE)}`]),
    ...(want.backgroundStops === null ? [] : [`background ${spanText(want.backgroundStops, BACKGROUND)}`]),
    ...(want.fNumber === null ? [] : [spanText(want.fNumber, APERTURE)]),
    ...(want.azimuth === null ? [] : [`light ${spanText(want.azimuth, ROUND)} round`]),
    ...(want.elevation === null ? [] : [`light ${spanText(want.elevation, ROUND)} up`]),
    ...(want.catchlight === null ? [] : [`catchlight ${clockText(want.catchlight)}`]),
    ...(want.crop === null ? [] : [want.crop]),
  ];
  return parts.length === 0 ? null : parts.join("; ");
}

/** "2.3 to 3.2 : 1", what a ratio in stops is as lit over shadow. */
export function ratioNumbers(span: Want["ratioStops"]): string {
  if (span === null || (span.from === null && span.to === null)) return "lit cheek over shadow cheek";
  const number = (stops: number) => (2 ** stops).toFixed(stops < 3 ? 1 : 0);
  if (span.from === null) return `at most ${number(span.to as number)} : 1`;
  if (span.to === null) return `at least ${number(span.from)} : 1`;
  return `${number(span.from)} to ${number(span.to)} : 1, lit over shadow`;
}

/** A head and what goes on it: "400 Ws; octa 120, dish 55". */
export function gearLine({ full, fronts }: GearLight): string {
  const power = "wattSeconds" in full ? `${tidy(full.wattSeconds)} Ws` : `${tidy(full.lumenSeconds)} lm·s`;
  return `${power}; ${fronts.map((front) => front.name).join(", ")}`;
}

/** A kit in a line: "400 Ws; octa 120, dish 55; V-flat leaf, white". */
export function holdsLine({ lights, panels }: Gear): string {
  return [...lights.map(gearLine), ...panels.map(({ name }) => name)].join("; ");
}

/** What the whole answer is, as a heading says it. */
export function answerWords({ isMet, setUps }: FindAnswer): string {
  const met = setUps.filter((setUp) => setUp.isMet).length;
  if (setUps.length === 0) return "Nothing was found";
  if (!isMet)
    return setUps.length === 1 ? "Nothing fits; the nearest" : `Nothing fits; the nearest ${setUps.length}`;
  const near = setUps.length - met;
  const fits = met === 1 ? "1 set-up fits" : `${met} set-ups fit`;
  return near === 0 ? fits : `${fits}; ${near} more ${near === 1 ? "comes" : "come"} near`;
}

export function triedWords(tried: number): string {
  return `${tried.toLocaleString("en-GB").replaceAll(",", "\u202f")} tried`;
}

/** "asked 1.2 to 1.7 stops; 0.6 stop outside", "0.2 stop to spare" */
export function wishLine(met: WishMet, units: LengthUnits): string {
  const asked = met.isMet || met.asked === "" || met.asked === met.got ? "" : `asked ${met.asked}`;
  const margin = marginLine(met);
  return [asked, margin]
    .filter((part) => part !== "")
    .map((part) => lengthsIn(part, units))
    .join("; ");
}

/** What rounds to nothing is still on one side. */
function marginLine({ isMet, marginWords }: WishMet): string {
  if (marginWords === "") return "";
  if (/^0(\.0+)? /.test(marginWords)) return isMet ? "just met" : "just outside";
  return `${marginWords} ${isMet ? "to spare" : "outside"}`;
}

/** "" where it was not worked out, as for a set-up that misses. */
export function holdWords(hold: HoldZone | null, units: LengthUnits): string {
  if (hold === null) return "";
  const radius_cm = Math.floor(hold.circle.radius_m * 100);
  if (radius_cm < 1) return "hold zone: no circle fits";
  return `hold zone: a circle of ${lengthsIn(`${radius_cm} cm`, units)} radius fits`;
}
