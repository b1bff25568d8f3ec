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
import { WorkError } from "./errors.ts";
import type { Computer, WorkOptions } from "./ports.ts";
import { sheetPicture } from "./sheet.ts";

/** Enough for 52 mm at 150 pixels an inch. */
const FRAME_WIDTH = 320;

/** What a contact sheet asks of who works it out. */
export type Looker = Pick<Computer, "read" | "frame">;

interface Look {
  readonly reading: PlanReading;
  readonly picture: SheetPicture;
}

/** Traces the plan and its eight moves round one person.
 * Shape    the plan as it stands first, then the moves as they stand round the print, row by row; it is told how many
 *          frames are finished, never more. A second looker takes what the first has no use of what it keeps for
 * Errors   WorkError where nobody is there to look at; as a looker's: stopped, where it was asked to */
export async function makeContact(
  lookers: readonly [Looker, ...Looker[]],
  plan: Plan,
  { person, units }: { readonly person: number; readonly units: LengthUnits },
  work?: WorkOptions,
): Promise<ContactSheet> {
  const lacking = contactLacks(plan, person);
  if (lacking !== null) throw lacking;
  const moves = listMoves(plan, person, units);
  const made = inOrder(moves);
  const region = regionRoundHead(plan, person, CONTACT_SHAPE);
  const signal = work?.signal === undefined ? {} : { signal: work.signal };
  const look = async (looker: Looker, tried: Plan, studied: readonly number[]): Promise<Look> => {
    const reading = await looker.read(tried, "fine", { ...signal, studied });
    const request = { width: FRAME_WIDTH, quality: "fine", region } as const;
    return { reading, picture: sheetPicture(await looker.frame(tried, request, signal)) };
  };
  const asked = [
    (looker: Looker) => look(looker, plan, [person]),
    ...made.map(
      ({ after }) =>
        (looker: Looker) =>
          look(looker, after, []),
    ),
  ];
  const told = (finished: number) =>
    work?.onProgress?.({ done: finished / asked.length, what: framesWords(finished, asked.length) });
  const [before, ...afters] = await shared(lookers, asked, told);
  const looks = new Map(made.map(({ move }, i) => [move, afters[i]]));
  const cells = moves.map((move) => {
    const after = looks.get(move);
    return after === undefined
      ? { does: move.does, why: move.why, direction: "", power: "", notes: [], picture: null }
      : moved(move, before.reading, after.reading, person, after.picture);
  });
  return {
    title: plan.title,
    about: `${plan.people[person].name}, ${exposureWords(plan.camera)}`,
    cells: [standing(plan, before.reading, person, before.picture), ...cells],
  };
}

/** Why there can be no contact sheet of that plan; null where there can. */
export function contactLacks(
  { people, title }: Pick<Plan, "people" | "title">,
  person = 0,
): WorkError | null {
  if (people.length === 0)
    return new WorkError(
      `nobody is in "${title}", and a contact sheet shows what small moves do to a face`,
      "put a person into the plan, or take a plan with somebody in it",
    );
  if (person < people.length) return null;
  return new WorkError(
    `"${title}" has ${people.length === 1 ? "one person" : `${people.length} people`}, and number ${person + 1} was asked for`,
    "ask for one of those who are there",
  );
}

function framesWords(finished: number, all: number): string {
  return `${finished} of ${all} frames finished`;
}

/** Those that can be made: first what leaves the people where they are, as what was traced of them then serves again. */
function inOrder(moves: readonly Move[]): { readonly move: Move; readonly after: Plan }[] {
  const made = moves.flatMap((move) => (move.after === null ? [] : [{ move, after: move.after }]));
  const isCheap = ({ cost }: Move) => cost === "light" || cost === "camera";
  return [...made.filter(({ move }) => isCheap(move)), ...made.filter(({ move }) => !isCheap(move))];
}

/** Each item by whoever is free: the first worker begins at the front, the others at the back.
 * Errors  the first that fails; nothing further is begun then */
async function shared<Worker, Result>(
  workers: readonly Worker[],
  items: readonly ((worker: Worker) => Promise<Result>)[],
  told: (finished: number) => void,
): Promise<Result[]> {
  const left = items.map((make, i) => ({ make, i }));
  const results: Result[] = [];
  let finished = 0;
  told(0);
  const takeAll = async (worker: Worker, isFirst: boolean) => {
    for (let item = take(isFirst); item !== undefined; item = take(isFirst)) {
      results[item.i] = await item.make(worker);
      told(++finished);
    }
  };
  const take = (isFirst: boolean) => (isFirst ? left.shift() : left.pop());
  try {
    await Promise.all(workers.map((worker, i) => takeAll(worker, i === 0)));
  } finally {
    left.length = 0;
  }
  return results;
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
