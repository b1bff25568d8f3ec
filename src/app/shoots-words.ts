/** What the pages of the library say of shoots and frames. */
import {
  type FrameRow,
  patternCalled,
  type ShootQuery,
  type ShootRow,
  type SidecarsWritten,
} from "../shoots/index.ts";
import { stopsText } from "../testframe/index.ts";
import { type LengthUnits, lengthsIn } from "../units/index.ts";
import type { LibraryCopy } from "./library-client.ts";
import { MONTHS, whenText } from "./start-words.ts";
import { count, percent } from "./wording.ts";

/** "26 Nov 2026" of a day as it is kept; what is no day says so. */
export function dayText(date: string | null): string {
  const parts = /^(\d{4})-(\d\d)-(\d\d)/.exec(date ?? "");
  if (parts === null) return "no day yet";
  return `${Number(parts[3])} ${MONTHS[Number(parts[2]) - 1]} ${parts[1]}`;
}

export function titleOf({ title }: { readonly title: string }): string {
  return title.trim() === "" ? "Untitled shoot" : title;
}

/** "2 plans, 48 frames, 6 selects" */
export function countsText({
  frames,
  plans,
  selects,
}: Pick<ShootRow, "frames" | "plans" | "selects">): string {
  const said = [plans === 0 ? "no plan" : count(plans, "plan")];
  if (frames > 0) said.push(count(frames, "frame"));
  if (selects > 0) said.push(count(selects, "select"));
  return said.join(", ");
}

/** "7.00 × 9.00 m" as it is kept, in the units in use. */
export function roomText(room: string, units: LengthUnits): string {
  return units === "metric" ? room : lengthsIn(room.replace(" ×", " m ×"), units);
}

/** A pattern as it is kept, in the trade's own word where it is one of ours. */
export function patternText(pattern: string): string {
  return patternCalled(pattern) ?? pattern;
}

/** "10:12:30" as the camera's clock showed it; where the file does not say, when it came in, as the clock here does. */
export function frameTime({ arrivedAt, takenAt }: FrameRow): string {
  const taken = /T(\d\d:\d\d(?::\d\d)?)/.exec(takenAt ?? "")?.[1];
  if (taken !== undefined) return taken;
  const came = new Date(arrivedAt);
  if (Number.isNaN(came.getTime())) return "";
  return [came.getHours(), came.getMinutes(), came.getSeconds()]
    .map((part) => String(part).padStart(2, "0"))
    .join(":");
}

/** "Rembrandt, 2.1 stops" */
export function frameLight({ pattern, ratioStops }: FrameRow): string {
  const said = [
    ...(pattern === null ? [] : [patternText(pattern)]),
    ...(ratioStops === null ? [] : [stopsText(ratioStops)]),
  ];
  return said.length === 0 ? "no face read" : said.join(", ");
}

/** Said only where skin clips. */
export function clippedText({ clippedSkin }: FrameRow): string {
  if (clippedSkin === null || clippedSkin === 0) return "";
  return `${percent(clippedSkin)} of the skin clips`;
}

/** Of a photograph of which only the small picture is at hand. */
export function awayText(folder: string | null): string {
  if (folder === null)
    return "only its small picture is kept: hand the file over again, or watch the folder that it is in";
  return `the photograph does not lie in ${folder} any more, or cannot be read there: put it back, or watch the folder that it is in now`;
}

export const starWords = (stars: number) => (stars === 0 ? "no stars" : count(stars, "star"));

/** What the search narrows by, in words; "" where it does not. */
export function narrowedText(query: Partial<ShootQuery>, units: LengthUnits): string {
  const said = [
    ...(query.pattern ? [patternText(query.pattern)] : []),
    ...(query.light ? [query.light] : []),
    ...(query.room ? [roomText(query.room, units)] : []),
    ...(query.from ? [`from ${dayText(query.from)}`] : []),
    ...(query.to ? [`to ${dayText(query.to)}`] : []),
    ...(query.stars ? [`${starWords(query.stars)} or more`] : []),
    ...(query.putAway ? ["put away"] : []),
  ];
  return said.join(", ");
}

/** "312 MB" */
export function bytesText(bytes: number): string {
  const mega = bytes / 1_000_000;
  if (mega >= 1000) return `${(mega / 1000).toFixed(1)} GB`;
  return mega < 1 ? "under 1 MB" : `${mega.toFixed(0)} MB`;
}

export function copyText(copy: LibraryCopy | null, now: Date): string {
  if (copy === null) return "no copy of it yet: the first is made today";
  const when = whenText(copy.at, now);
  return copy.isVerified ? `copied ${when}; the copy opens and is whole` : `copied ${when}; not opened yet`;
}

/** What writing sidecars came to, in a line. */
export function sidecarsText({ problems, unchanged, written }: SidecarsWritten): string {
  const said = [
    ...(written > 0 ? [`${count(written, "sidecar")} written`] : []),
    ...(unchanged > 0 ? [`${unchanged} were as they should be`] : []),
    ...(problems.length > 0 ? [`${problems.length} could not be written`] : []),
  ];
  return said.length === 0 ? "no frame of this shoot has a star or is a select" : said.join(", ");
}
