/** Wishes, and what is told of steps, in words. */
import {
  type Ask,
  changesOf,
  type Ease,
  lensStops,
  type TriedStep,
  type TriedSteps,
} from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { patternWord } from "../reading/index.ts";
import { formatStops } from "../units/index.ts";
import { type Parsed, parseNumber } from "./entries.ts";

export type AskKind = Ask["ask"];

/** Each reads on in the field behind it: "the ratio changes by −0.5 stop". */
export const WISHES: readonly (readonly [AskKind, string])[] = [
  ["pattern", "the pattern becomes"],
  ["ratio", "the ratio changes by"],
  ["exposure", "the face changes by"],
  ["background", "the background changes by"],
  ["headroom", "skin under clipping by"],
  ["glasses", "the glasses are clear"],
];

export type Numbered = Exclude<AskKind, "pattern" | "glasses">;

export const FIRST_STOPS: Readonly<Record<Numbered, number>> = {
  ratio: -0.5,
  exposure: 0.5,
  background: -1,
  headroom: 0.3,
};

/** Farther than this is another set-up. */
const MOST_STOPS = 6;

export const WISH_NOTES: Readonly<Record<AskKind, string>> = {
  pattern: "",
  ratio: "cheek to cheek; less is softer",
  exposure: "as the picture has it, by light or by lens",
  background: "the face stays as it is exposed",
  headroom: "at least so much, at its brightest",
  glasses: "of lights, as the camera sees them",
};

/** A change has its sign; room is a plain number, negative where it is over. */
export function stopsText(kind: Numbered, stops: number): string {
  const text = formatStops(stops);
  const number = kind === "headroom" ? text.replace("+", "") : text;
  return `${number} ${Math.abs(stops) < 1.05 ? "stop" : "stops"}`;
}

export function parseStops(text: string): Parsed {
  return parseNumber(text.trim().replace(/^\+/, ""), /\s*stops?$/i, "−0.5");
}

/** Why a number of stops is no wish; null where it is one. */
export function stopsRefusal(kind: Numbered, stops: number): string | null {
  if (Math.abs(stops) > MOST_STOPS) return `More than ${MOST_STOPS} stops is another set-up.`;
  if (kind !== "headroom" && Math.abs(stops) < 0.05)
    return "That is no change: give a tenth of a stop or more.";
  return null;
}

/** "the background changes by −1.0 stop" */
export function askWords(ask: Ask): string {
  const words = WISHES.find(([kind]) => kind === ask.ask)?.[1] ?? "";
  if (ask.ask === "pattern") return `${words} ${patternWord(ask.pattern)}`;
  if (ask.ask === "glasses") return words;
  return `${words} ${stopsText(ask.ask, ask.ask === "headroom" ? ask.toStops : ask.byStops)}`;
}

export const EASE_WORDS: Readonly<Record<Ease, string>> = {
  camera: "by the camera",
  sitter: "by the sitter",
  stand: "by a stand",
  power: "by power",
  gear: "by more gear",
};

/** How each number of a step is told: the change in tenths, nothing where there is none to tell. */
export interface StepCells {
  readonly pattern: string;
  readonly isOther: boolean;
  readonly exposure: string;
  readonly ratio: string;
  readonly background: string;
  readonly headroom: string;
  /** what else is told: broad or short, catchlights */
  readonly others: readonly string[];
}

export function stepCells(plan: Plan, { before }: TriedSteps, step: TriedStep): StepCells | null {
  const { after, edit } = step;
  if (after === null || edit === null) return null;
  return {
    pattern: patternWord(after.pattern),
    isOther: after.pattern !== before.pattern,
    exposure: changeText(logOf(before.litCheek), logOf(after.litCheek), lensStops(plan, edit)),
    ratio: changeText(before.ratioStops, after.ratioStops),
    background: changeText(before.backgroundStops, after.backgroundStops),
    headroom: changeText(before.headroomStops, after.headroomStops),
    others: changesOf(before, after).flatMap(({ of, words }) =>
      of === "side" || of === "catchlight" ? [words] : [],
    ),
  };
}

const logOf = (litCheek: number) => (litCheek > 0 ? Math.log2(litCheek) : null);

/** "−0.3"; "0.0" where it stays; a dash where there is nothing on either side, "none" and "some" where it goes or comes. */
function changeText(before: number | null, after: number | null, more = 0): string {
  if (before === null && after === null) return "–";
  if (after === null) return "none";
  if (before === null) return "some";
  return formatStops(after - before + more);
}

/** Numbers that say that nothing changes are quiet. */
export const isStill = (text: string) => text === "0.0" || text === "–";
