/** A guess and how far off it was, in words. */
import type { NoseShadow, Pattern } from "../reading/index.ts";
import type { FacePlace, ShadowGuess } from "./guess.ts";

/** Closer than this nobody places a mark by hand. */
const SPOT_ON_MM = 1.5;
const SPOT_ON_STOPS = 0.05;

/** "18 mm to own right, 22 mm down" */
export function placeWords({ left_mm, up_mm }: FacePlace): string {
  const aside = Math.round(Math.abs(left_mm));
  const along = Math.round(Math.abs(up_mm));
  const parts = [];
  if (aside > 0) parts.push(`${aside} mm to own ${left_mm > 0 ? "left" : "right"}`);
  if (along > 0) parts.push(`${along} mm ${up_mm > 0 ? "up" : "down"}`);
  return parts.length === 0 ? "at the tip of the nose" : parts.join(", ");
}

export function truePlace(shadow: NoseShadow | null): FacePlace | null {
  return shadow && { left_mm: shadow.leftMillimetres, up_mm: shadow.upMillimetres };
}

const CLOSED: readonly Pattern[] = ["rembrandt", "split", "rim"];

/** Why a nose's shadow has no tip. */
export function noTipWords(pattern: Pattern): string {
  return CLOSED.includes(pattern) ? "it runs on into the dark side" : "it keeps to the nose";
}

export interface Verdict {
  readonly strong: string;
  readonly rest: string;
  readonly detail: string;
}

/** Off by how many millimetres, which way. */
export function shadowVerdict(guess: ShadowGuess, truth: FacePlace | null, pattern: Pattern): Verdict {
  const rest = "the nose’s shadow";
  if (truth === null) {
    const why = noTipWords(pattern);
    if (guess === "none") return { strong: "Right", rest, detail: `no tip: ${why}` };
    return { strong: "No tip", rest, detail: `${why}; guessed ${placeWords(guess)}` };
  }
  const falls = `its tip falls ${placeWords(truth)}`;
  if (guess === "none") return { strong: "It has a tip", rest, detail: `guessed none; ${falls}` };
  const left_mm = guess.left_mm - truth.left_mm;
  const up_mm = guess.up_mm - truth.up_mm;
  const off = Math.hypot(left_mm, up_mm);
  if (off < SPOT_ON_MM) return { strong: "Right", rest, detail: falls };
  const ways = [];
  if (Math.round(Math.abs(left_mm)) > 0)
    ways.push(`${Math.round(Math.abs(left_mm))} mm too far to own ${left_mm > 0 ? "left" : "right"}`);
  if (Math.round(Math.abs(up_mm)) > 0)
    ways.push(`${Math.round(Math.abs(up_mm))} mm too ${up_mm > 0 ? "high" : "low"}`);
  return { strong: `${Math.round(off)} mm off`, rest, detail: `guessed ${ways.join(", ")}; ${falls}` };
}

/** Off by how many stops; a guess of more light than there is reads over. */
export function powerVerdict(
  guess: number,
  read: { fNumber: number; fStops: string },
  guessed: string,
): Verdict {
  const rest = "the f-number";
  const detail = `guessed ${guessed}; read ${read.fStops}`;
  if (!(read.fNumber > 0)) return { strong: "No reading", rest, detail };
  const stops = 2 * Math.log2(guess / read.fNumber);
  if (Math.abs(stops) < SPOT_ON_STOPS) return { strong: "Right", rest, detail };
  const amount = Math.abs(stops).toFixed(1);
  return {
    strong: `${amount} ${amount === "1.0" ? "stop" : "stops"} ${stops > 0 ? "over" : "under"}`,
    rest,
    detail,
  };
}
