/** The placement sheet of a plan: read finely, with the picture beside it and the hold zone on it. */
import { askedWords, circleFromMark, holdRows, reachesTold } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import { placementSheet, type SheetHold, type SheetOptions, type SheetPicture } from "../sheet/index.ts";
import { encodePng } from "./png.ts";
import type { Computer, Finder, FramePicture, WorkOptions } from "./ports.ts";
import { askBackground } from "./sheet-background.ts";
import { movesWorthKnowing } from "./sheet-moves.ts";

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
  const hold = await holdOnSheet(computer, plan, person, work);
  const moves =
    plan.people.length === 0
      ? []
      : movesWorthKnowing(await computer.steps(plan, { person, units: asked.units }, work));
  const reach =
    plan.people.length === 0 ? [] : reachesTold(plan, asked.units, await computer.reach(plan, work));
  return placementSheet(plan, reading, {
    ...asked,
    ...(hold === null ? {} : { hold }),
    background,
    moves,
    reach,
    picture: sheetPicture(picture),
  });
}

/** A frame as sheets print it. */
export function sheetPicture(picture: FramePicture): SheetPicture {
  return { data: base64(encodePng(picture)), width: picture.width, height: picture.height };
}

/** "29 November 2026", for who has a clock. */
export function sheetDate(now: Date): string {
  return new Intl.DateTimeFormat("en-GB", { dateStyle: "long" }).format(now);
}

/** The hold zone of a person as a sheet prints it; null where nobody stands, or in the dark. */
export async function holdOnSheet(
  finder: Pick<Finder, "hold">,
  plan: Plan,
  person: number,
  work?: WorkOptions,
): Promise<SheetHold | null> {
  if (plan.people[person] === undefined) return null;
  const zone = await finder.hold(plan, { person }, work);
  if (zone.asked.pattern === "dark") return null;
  const { facing } = plan.people[person];
  const { x, y } = zone.circle;
  // down to what tape is laid to: a circle that is said to fit does
  const radius_m = Math.floor(100 * zone.circle.radius_m) / 100;
  return {
    person,
    asked: askedWords(zone.asked),
    outline: zone.outline.map((p) => ({ x: p.x, y: p.y })),
    circle: { x, y, radius_m, ...circleFromMark(zone, facing) },
    rows: holdRows(zone),
  };
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
