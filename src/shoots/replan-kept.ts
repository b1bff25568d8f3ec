/** Whether a look is the same, number by number. */
import { METER_CONSTANT } from "../photometry/index.ts";
import type { Plan } from "../plan/index.ts";
import { type FaceReading, type PlanReading, patternName } from "../reading/index.ts";
import { apertureWords } from "../sheet/words.ts";
import type { KeptNumber } from "./replan-types.ts";

/** What a plan reads as for one of its people. */
export interface ReadPlan {
  readonly plan: Plan;
  readonly reading: PlanReading;
}

/** Within so much it is the same look; stops either way. Of the exposure a tenth, as meters are read. */
export const KEPT_STOPS = { ratio: 0.2, litCheek: 0.1, background: 0.3 } as const;
/** A third either way, of how far the nose's shadow takes to fade. */
const KEPT_EDGE = 1 / 3;
/** Numbers are traced: what is a hair over is not over. */
const SLACK = 1e-6;

export interface Kept {
  readonly numbers: readonly KeptNumber[];
  /** pattern, lit side, ratio, exposure and background: by these it is the same look or another */
  readonly holds: boolean;
}

export function keptNumbers(before: ReadPlan, after: ReadPlan, person: number): Kept {
  const [was, is] = [faceOf(before, person), faceOf(after, person)];
  const [behindWas, behindIs] = [before.reading.camera.backgroundStops, after.reading.camera.backgroundStops];
  const exposure = exposureStops(after.plan, is) - exposureStops(before.plan, was);
  const deciding = [
    said("pattern", patternName(was.pattern), patternName(is.pattern), was.pattern === is.pattern),
    said("lit side", sideText(was), sideText(is), was.litSide === is.litSide),
    said("ratio", ratioText(was), ratioText(is), isWithin(was.ratioStops, is.ratioStops, KEPT_STOPS.ratio)),
    said(
      "lit cheek",
      cheekText(before.plan, was),
      cheekText(after.plan, is),
      Number.isNaN(exposure) || Math.abs(exposure) <= KEPT_STOPS.litCheek + SLACK,
    ),
    said(
      "background",
      backgroundText(behindWas),
      backgroundText(behindIs),
      isWithin(behindWas, behindIs, KEPT_STOPS.background),
    ),
  ];
  const [edgeWas, edgeIs] = [was.shadowEdgeMillimetres, is.shadowEdgeMillimetres];
  const edge = said(
    "shadow edge",
    edgeText(edgeWas),
    edgeText(edgeIs),
    isWithin(edgeWas, edgeIs, KEPT_EDGE * (edgeWas ?? 0)),
  );
  return { numbers: [...deciding, edge], holds: deciding.every(({ isKept }) => isKept) };
}

/** What is not as it was, in sentences. */
export function lostWords({ numbers }: Kept): string[] {
  return numbers
    .filter(({ isKept }) => !isKept)
    .map(({ after, before, what }) => `${what}: ${before} became ${after}`);
}

export function faceOf({ reading }: ReadPlan, person: number): FaceReading {
  const face = reading.people[person]?.face;
  if (face === undefined) throw new Error(`nobody is person ${person}`);
  return face;
}

/** The f-number at which the lit cheek is exposed as a flat meter shows it. */
export function cheekFNumber({ camera }: Plan, { litCheek }: FaceReading): number {
  return Math.sqrt((litCheek * camera.iso) / METER_CONSTANT.flat);
}

/** How far the lit cheek is over what the lens is set for; -Infinity where it is dark. */
function exposureStops(plan: Plan, face: FaceReading): number {
  return 2 * Math.log2(cheekFNumber(plan, face) / plan.camera.fNumber);
}

function said(what: string, before: string, after: string, isKept: boolean): KeptNumber {
  return { what, before, after, isKept };
}

/** Two that have no number are the same, one that has none is another. */
function isWithin(before: number | null, after: number | null, by: number): boolean {
  if (before === null || after === null) return before === after;
  return Math.abs(after - before) <= by + SLACK;
}

function sideText({ litSide }: FaceReading): string {
  return litSide === "even" ? "even" : `own ${litSide}`;
}

function ratioText({ ratioStops }: FaceReading): string {
  return ratioStops === null ? "no number" : `${ratioStops.toFixed(1)} stops`;
}

function cheekText(plan: Plan, face: FaceReading): string {
  return face.litCheek > 0 ? apertureWords(cheekFNumber(plan, face)) : "dark";
}

function backgroundText(stops: number | null): string {
  if (stops === null) return "none in the picture";
  const amount = Math.abs(stops).toFixed(1);
  if (Number(amount) === 0) return "level with the lit cheek";
  return `${amount} stops ${stops < 0 ? "under" : "over"} the lit cheek`;
}

function edgeText(millimetres: number | null): string {
  return millimetres === null ? "none" : `${millimetres.toFixed(millimetres < 10 ? 1 : 0)} mm`;
}
