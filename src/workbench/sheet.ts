/** The placement sheet of a plan: read finely, with the picture beside it and the hold zone on it. */
import { askedWords, circleFromMark, holdRows, reachesTold } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { type Pattern, type PlanReading, patternWord, tryReadingOf } from "../reading/index.ts";
import { placementSheet, type SheetExtras, type SheetOptions, type SheetPicture } from "../sheet/index.ts";
import { encodePng } from "./png.ts";
import type { Computer, Finder, FramePicture, WorkOptions } from "./ports.ts";
import { shareOf } from "./share-of.ts";
import { askBackground } from "./sheet-background.ts";
import { MOVES_READ, movesWorthKnowing } from "./sheet-moves.ts";

/** Enough for the size at which it is printed, 45 mm wide at 200 pixels an inch. */
const PICTURE_WIDTH = 360;

export type SheetAsked = Pick<SheetOptions, "paper" | "units" | "date">;

/** Shape    the pages as SVG documents
 * Errors   as the computer's: Stopped where `work.signal` is aborted */
export async function makeSheet(
  computer: Computer & Finder,
  plan: Plan,
  asked: SheetAsked,
  work?: WorkOptions,
): Promise<string[]> {
  const person = plan.people[plan.brief?.person ?? 0] === undefined ? 0 : (plan.brief?.person ?? 0);
  const question = askBackground(plan, person);
  const { reading, background } = question.split(await computer.read(question.plan, "fine", work));
  const picture = await computer.frame(plan, { width: PICTURE_WIDTH, quality: "fine" }, work);
  const extras =
    plan.people.length === 0 ? {} : await aboutPeople(computer, plan, reading, { person, ...asked }, work);
  return placementSheet(plan, reading, { ...asked, ...extras, background, picture: sheetPicture(picture) });
}

/** What there is to say where somebody stands: drift, moves and reach, in one voice with the reading. */
async function aboutPeople(
  computer: Computer & Finder,
  plan: Plan,
  reading: PlanReading,
  { person, units }: SheetAsked & { readonly person: number },
  work: WorkOptions | undefined,
): Promise<SheetExtras> {
  const patterns = reading.people.map(({ face }) => face.pattern);
  const hold = await holdOnSheet(computer, plan, { person, pattern: patterns[person] }, work);
  const tried = await computer.steps(plan, { person, units }, work);
  let looked = 0;
  const moves = await movesWorthKnowing(plan, tried, tryReadingOf(reading, person), async (moved, does) => {
    const own = shareOf(work, looked++, MOVES_READ, does);
    return tryReadingOf(await computer.read(moved, "fine", { ...own, studied: [] }), person);
  });
  const effects = await computer.reach(plan, work);
  const reach = reachesTold(plan, units, effects).map((each) => {
    const trial = effects.find(({ owner }) => owner === each.owner)?.pattern;
    return trial === undefined || trial === patterns[each.person] ? each : { ...each, effect: AT_BORDER };
  });
  return { ...hold, moves, reach };
}

/** Where a trial and the printed reading give the light two names, what small moves do to it cannot be told by the trial. */
const AT_BORDER = "this light lies at a border of patterns";

/** A frame as sheets print it. */
export function sheetPicture(picture: FramePicture): SheetPicture {
  return { data: base64(encodePng(picture)), width: picture.width, height: picture.height };
}

/** "29 November 2026", for who has a clock. */
export function sheetDate(now: Date): string {
  return new Intl.DateTimeFormat("en-GB", { dateStyle: "long" }).format(now);
}

/** The hold zone of a person as a sheet prints it; nothing in the dark. `pattern` is what stands beside it on the page: a
 * zone that keeps another is none of this light, and says so instead.
 * Errors  as the finder's */
export async function holdOnSheet(
  finder: Pick<Finder, "hold">,
  plan: Plan,
  { person, pattern }: { readonly person: number; readonly pattern: Pattern },
  work?: WorkOptions,
): Promise<Pick<SheetExtras, "hold" | "noHold">> {
  const zone = await finder.hold(plan, { person }, work);
  if (pattern === "dark" || zone.asked.pattern === "dark") return {};
  if (zone.asked.pattern !== pattern) {
    const names = `${patternWord(pattern)} and ${patternWord(zone.asked.pattern)}`;
    return {
      noHold: `${plan.people[person].name} stands at the border of ${names}: a fine reading and a quick one differ, so none is given.`,
    };
  }
  const { facing } = plan.people[person];
  const { x, y } = zone.circle;
  // down to what tape is laid to: a circle that is said to fit does
  const radius_m = Math.floor(100 * zone.circle.radius_m) / 100;
  const hold = {
    person,
    asked: askedWords(zone.asked),
    outline: zone.outline.map((p) => ({ x: p.x, y: p.y })),
    circle: { x, y, radius_m, ...circleFromMark(zone, facing) },
    rows: holdRows(zone),
  };
  return { hold };
}

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/** RFC 4648; neither the browser's nor Node's own is in both. */
export function base64(bytes: Uint8Array): string {
  const out: string[] = [];
  for (let i = 0; i < bytes.length; i += 3) {
    const [a, b, c] = [bytes[i], bytes[i + 1], bytes[i + 2]];
    out.push(LETTERS[a >> 2], LETTERS[((a & 3) << 4) | ((b ?? 0) >> 4)]);
    out.push(b === undefined ? "=" : LETTERS[((b & 15) << 2) | ((c ?? 0) >> 6)]);
    out.push(c === undefined ? "=" : LETTERS[c & 63]);
  }
  return out.join("");
}
