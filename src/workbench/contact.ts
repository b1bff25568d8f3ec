/** The contact sheet of moves: every small move tried finely, seen and told, direction and power apart. */
import {
  changesOf,
  effectOf,
  exposureWords as exposureChange,
  listMoves,
  type Move,
  regionRoundHead,
  warningWords,
} from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import {
  betweenWords,
  type FaceReading,
  lightFromWords,
  marginWords,
  type PictureRegion,
  type PlanReading,
  patternName,
  patternWord,
  ratioStopsWords,
  tryReadingOf,
} from "../reading/index.ts";
import {
  CONTACT_SHAPE,
  type ContactCell,
  type ContactSheet,
  exposureWords,
  measurePlaces,
  type SheetPicture,
  settingMeter,
} from "../sheet/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Computer, WorkOptions } from "./ports.ts";
import { sheetPicture } from "./sheet.ts";

/** Enough for 52 mm at 150 pixels an inch. */
const FRAME_WIDTH = 320;

/** Traces the plan and its eight moves round one person.
 * Shape    the plan as it stands first, then the moves as they stand round the print, row by row
 * Errors   as the computer's: stopped, where it was asked to */
export async function makeContact(
  computer: Computer,
  plan: Plan,
  { person, units }: { readonly person: number; readonly units: LengthUnits },
  work?: WorkOptions,
): Promise<ContactSheet> {
  const moves = listMoves(plan, person, units);
  const region = regionRoundHead(plan, person, CONTACT_SHAPE);
  const steps = 2 * (1 + moves.filter(({ after }) => after !== null).length);
  let step = 0;
  const look = async (tried: Plan, what: string) => {
    const reading = await computer.read(tried, "fine", shareOf(work, step++, steps, what));
    return { reading, picture: await frameOf(computer, tried, region, shareOf(work, step++, steps, what)) };
  };
  const before = await look(plan, "the plan as it stands");
  const cells = [standing(plan, before.reading, person, before.picture)];
  for (const move of moves) {
    if (move.after === null) {
      cells.push({ does: move.does, why: move.why, direction: "", power: "", notes: [], picture: null });
      continue;
    }
    const after = await look(move.after, move.does);
    cells.push(moved(move, before.reading, after.reading, person, after.picture));
  }
  const who = plan.people[person]?.name ?? "nobody in the plan";
  return { title: plan.title, about: `${who}, ${exposureWords(plan.camera)}`, cells };
}

/** One of so many equal parts of the whole. */
export function shareOf(
  work: WorkOptions | undefined,
  step: number,
  steps: number,
  what: string,
): WorkOptions {
  const { onProgress, ...rest } = work ?? {};
  if (onProgress === undefined) return rest;
  return { ...rest, onProgress: ({ done }) => onProgress({ done: (step + done) / steps, what }) };
}

async function frameOf(
  computer: Computer,
  plan: Plan,
  region: PictureRegion,
  work: WorkOptions,
): Promise<SheetPicture> {
  const request = { width: FRAME_WIDTH, quality: "fine", region } as const;
  return sheetPicture(await computer.frame(plan, request, work));
}

function standing(plan: Plan, reading: PlanReading, person: number, picture: SheetPicture): ContactCell {
  const face = reading.people[person]?.face;
  const meter = settingMeter(plan, measurePlaces(plan).noses);
  const read = meter === null ? null : reading.meters[meter];
  const ratio = face === undefined ? null : ratioStopsWords(face);
  const margin = face === undefined ? null : marginWords(face);
  return {
    does: "as the plan stands",
    why: null,
    direction: face === undefined ? "" : listed([named(face, ""), lightWords(face)]),
    power: listed([
      read === null ? null : `${read.name} ${read.fStops}`,
      ratio === null ? null : `ratio ${ratio}`,
    ]),
    notes: margin === null ? [] : [margin],
    picture,
  };
}

function moved(
  move: Move,
  before: PlanReading,
  after: PlanReading,
  person: number,
  picture: SheetPicture,
): ContactCell {
  const cell = { does: move.edit?.label ?? move.does, why: null, picture };
  const effect = effectOf(before, after, person);
  if (effect === null)
    return { ...cell, direction: "", power: "", notes: warningWords(before.warnings, after.warnings) };
  const [a, b] = [before.people[person].face, after.people[person].face];
  const [was, is] = [tryReadingOf(before, person), tryReadingOf(after, person)];
  const changes = changesOf(was, is);
  const told = (...of: readonly string[]) =>
    changes.filter((change) => of.includes(change.of)).map(({ words }) => words);
  const exposure = exposureChange(was, is);
  const arrives = exposure === SAME ? "lit cheek as before" : `lit cheek ${exposure}`;
  return {
    ...cell,
    direction: listed([...directionWords(a, b), ...told("side", "catchlight")]),
    power: listed([arrives, ...told("ratio", "background", "headroom")]),
    notes: [...noseWords(move, effect.lightUnchanged), ...warningWords(before.warnings, after.warnings)],
  };
}

const SAME = "same\u00a0f";

function directionWords(a: FaceReading, b: FaceReading): (string | null)[] {
  const pattern = named(b, a.pattern === b.pattern ? " still" : `, was ${patternWord(a.pattern)}`);
  const [from, to] = [lightWords(a), lightWords(b)];
  return [pattern, from === to && to !== null ? "light from where it was" : to];
}

/** "Rembrandt still, close to loop": without the latter it would seem that the step changes nothing. */
function named(face: FaceReading, since: string): string {
  const between = betweenWords(face);
  return `${patternName(face.pattern)}${since}${between === null ? "" : `, ${between}`}`;
}

function lightWords(face: FaceReading): string | null {
  const words = lightFromWords(face);
  return words === null ? null : `light ${words}`;
}

function noseWords({ nose }: Move, isUnchanged: boolean): string[] {
  if (nose === null) return [];
  if (nose === "follows") return ["the nose follows the lens"];
  return [isUnchanged ? "the head stays; light on the face unchanged" : "the head stays"];
}

function listed(words: readonly (string | null)[]): string {
  return words.filter((each) => each !== null && each !== "").join("; ");
}
