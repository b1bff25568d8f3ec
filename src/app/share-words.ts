import type { Placed } from "../shoots/index.ts";
import type { ShareState } from "../workbench/index.ts";

/** "123 456": read out across a room in two breaths. */
export function digitsShown(digits: string): string {
  return `${digits.slice(0, 3)} ${digits.slice(3)}`;
}

/** "4:05"; null once it has ended */
export function timeLeft(endsAt: string, now: Date): string | null {
  const seconds = Math.ceil((new Date(endsAt).getTime() - now.getTime()) / 1000);
  if (!(seconds > 0)) return null;
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

/** "3 of 7 stand, 1 changed since"; only what is in the plan as it is now counts, by the marks of `setUpsOf`. */
export function standWords(setUps: ReadonlyMap<string, string>, placed: readonly Placed[]): string {
  const known = placed.filter(({ thing }) => setUps.has(thing));
  const changed = known.filter((each) => isChangedSince(setUps, each)).length;
  const standing = known.length - changed;
  const since = changed === 0 ? "" : `, ${changed} changed since`;
  const all = setUps.size;
  if (standing === 0) return `none of ${all} ${all === 1 ? "thing" : "things"} stands${since || " yet"}`;
  return `${standing} of ${all} ${standing === 1 ? "stands" : "stand"}${since}`;
}

/** The plan has changed it since somebody said that it stands. */
export function isChangedSince(
  setUps: ReadonlyMap<string, string>,
  { thing, setUp }: Pick<Placed, "thing" | "setUp">,
): boolean {
  return setUps.get(thing) !== setUp;
}

/** "shared, 2 look"; null while it is off */
export function sharedWords(share: ShareState | null): string | null {
  if (share === null || !share.isOn) return null;
  const looking = share.devices.filter(({ isLooking }) => isLooking).length;
  if (looking === 0) return "shared, nobody looks";
  return `shared, ${looking} ${looking === 1 ? "looks" : "look"}`;
}

/** The name of a thing without its list: "lights/key" is "key". */
export function thingName(thing: string): string {
  return thing.slice(thing.indexOf("/") + 1);
}
