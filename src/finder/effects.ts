/** What a move changes, in words: two readings of the same quality side by side. */
import { clockWords } from "../reading/catchlight-words.ts";
import {
  type FaceReading,
  type PlanReading,
  patternName,
  type TryReading,
  tryReadingOf,
  type Warning,
} from "../reading/index.ts";
import { formatStops } from "../units/index.ts";

export interface Effect {
  /** after the move: "Loop" */
  readonly pattern: string;
  /** at the lit cheek: "same f", "−0.3 stop" */
  readonly exposure: string;
  /** what arrives on the face is the same to the last digits; false where nothing does */
  readonly lightUnchanged: boolean;
  /** what else differs, the weightiest first */
  readonly others: readonly string[];
}

/** Null where nobody is read. */
export function effectOf(before: PlanReading, after: PlanReading, person: number): Effect | null {
  const [a, b] = [before.people[person]?.face, after.people[person]?.face];
  if (a === undefined || b === undefined) return null;
  const [was, is] = [tryReadingOf(before, person), tryReadingOf(after, person)];
  return {
    pattern: patternName(b.pattern),
    exposure: exposureWords(was, is),
    lightUnchanged: isSameLight(a, b),
    others: [
      ...warningWords(before.warnings, after.warnings),
      ...changesOf(was, is).map(({ words }) => words),
    ],
  };
}

/** What differs between two readings of a face and its picture beside pattern and exposure. */
export interface Change {
  readonly of: "ratio" | "side" | "background" | "catchlight" | "headroom";
  readonly words: string;
}

/** The weightiest first; nothing where nothing is told. */
export function changesOf(a: TryReading, b: TryReading): Change[] {
  const all: readonly (readonly [Change["of"], string | null])[] = [
    ["ratio", ratioWords(a, b)],
    ["side", sideWords(a, b)],
    ["background", backgroundWords(a, b)],
    ["catchlight", catchlightWords(a, b)],
    ["headroom", headroomWords(a, b)],
  ];
  return all.flatMap(([of, words]) => (words === null ? [] : [{ of, words }]));
}

/** Tenths are told: the smallest difference that is set on a light or a lens. */
const TENTH = 0.1;
export const isTold = (stops: number) => Math.abs(Math.round(stops / TENTH)) > 0;

/** `lens`: stops that the lens lets through more than before, where the picture is meant and not the light. */
export function exposureWords(a: TryReading, b: TryReading, lens = 0): string {
  if (b.pattern === "dark") return "no light";
  if (a.pattern === "dark") return "lit now";
  const stops = Math.log2(b.litCheek / a.litCheek) + lens;
  return isTold(stops) ? stopsWords(stops) : "same\u00a0f";
}

/** "−0.3 stop": one in the singular, and less than one too. Never broken between number and unit. */
export function stopsWords(stops: number): string {
  return `${formatStops(stops)}\u00a0${Math.abs(stops) < 1.05 ? "stop" : "stops"}`;
}

/** Far under what any meter tells and far over the last digits of a sum: relative. */
const SAME = 1e-9;

function isSameLight(a: FaceReading, b: FaceReading): boolean {
  const same = (x: number | null, y: number | null) =>
    x === y || (x !== null && y !== null && Math.abs(x - y) <= SAME * Math.max(Math.abs(x), Math.abs(y)));
  return (
    a.pattern === b.pattern &&
    b.pattern !== "dark" &&
    same(a.litCheek, b.litCheek) &&
    same(a.shadowCheek, b.shadowCheek) &&
    same(a.light.azimuth, b.light.azimuth) &&
    same(a.light.elevation, b.light.elevation) &&
    same(a.vectorScalarRatio, b.vectorScalarRatio)
  );
}

export function warningWords(before: readonly Warning[], after: readonly Warning[]): string[] {
  const isIn = (list: readonly Warning[], { path, state }: Warning) =>
    list.some((warning) => warning.path === path && warning.state === state);
  return [
    ...after.filter((warning) => !isIn(before, warning)).map(({ state }) => `warns: ${state}`),
    ...before.filter((warning) => !isIn(after, warning)).map(({ state }) => `no longer: ${state}`),
  ];
}

function ratioWords(a: TryReading, b: TryReading): string | null {
  if (a.ratioStops === null || b.ratioStops === null) {
    if (a.ratioStops === b.ratioStops) return null;
    return b.ratioStops === null ? "no ratio: one cheek gets no light" : "both cheeks lit now";
  }
  const change = b.ratioStops - a.ratioStops;
  return isTold(change) ? `ratio ${stopsWords(change)}` : null;
}

function backgroundWords(a: TryReading, b: TryReading): string | null {
  if (a.backgroundStops === b.backgroundStops) return null;
  if (b.backgroundStops === null) return "no background behind the head";
  if (a.backgroundStops === null) return "a background behind the head";
  const change = b.backgroundStops - a.backgroundStops;
  return isTold(change) ? `background ${stopsWords(change)}` : null;
}

function sideWords(a: TryReading, b: TryReading): string | null {
  return a.side === b.side ? null : `${a.side} to ${b.side}`;
}

function headroomWords(a: TryReading, b: TryReading): string | null {
  if (a.headroomStops === null || b.headroomStops === null) {
    if (a.headroomStops === b.headroomStops) return null;
    return b.headroomStops === null ? "no skin in the frame" : "skin in the frame";
  }
  const change = b.headroomStops - a.headroomStops;
  return isTold(change) ? `headroom ${stopsWords(change)}` : null;
}

/** Of the first light whose catchlight moves by half an hour, comes or goes. */
function catchlightWords(a: TryReading, b: TryReading): string | null {
  const clocks = ({ catchlights }: TryReading) =>
    new Map(catchlights.map(({ light, eye, clock }) => [`${light} in the ${eye} eye`, clockWords(clock)]));
  const [was, is] = [clocks(a), clocks(b)];
  for (const [where, clock] of is) {
    const old = was.get(where);
    if (old === undefined) return `catchlight of ${where} now`;
    if (old !== clock) return `catchlight ${old} to ${clock}`;
  }
  for (const where of was.keys()) if (!is.has(where)) return `no catchlight of ${where}`;
  return null;
}
