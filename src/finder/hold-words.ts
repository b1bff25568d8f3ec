/** A hold zone in words: plain, and never a promise that anything is without risk. */
import { patternWord } from "../reading/index.ts";
import type { HoldAngles, HoldLimit, HoldZone } from "./types.ts";

/** Closer to a third, a half or two thirds than this it is called so, stops: less than is ever set. */
const CALLED = 0.02;
const SHARES: readonly (readonly [number, string])[] = [
  [1 / 3, "a third of a stop"],
  [1 / 2, "half a stop"],
  [2 / 3, "two thirds of a stop"],
];

/** "a third of a stop", "0.2 stop", "1.5 stops" */
export function stopsSaid(stops: number): string {
  const amount = Math.abs(stops);
  const share = SHARES.find(([of]) => Math.abs(of - amount) < CALLED);
  if (share !== undefined) return share[1];
  return `${amount.toFixed(1)} ${amount < 1.05 ? "stop" : "stops"}`;
}

/** What ends it there: "the pattern turns to loop", "a third of a stop brighter", "the left wall". */
export function limitWords(limit: HoldLimit): string {
  switch (limit.by) {
    case "pattern":
      return limit.pattern === "dark"
        ? "no light on the face"
        : `the pattern turns to ${patternWord(limit.pattern)}`;
    case "exposure":
      return `${stopsSaid(limit.stops)} ${limit.stops > 0 ? "brighter" : "darker"}`;
    case "ratio":
      return `ratio ${limit.stops > 0 ? "up" : "down"} ${stopsSaid(limit.stops)}`;
    case "headroom":
      return limit.stops === 0 ? "skin begins to clip" : `${roomWords(limit.stops)} left`;
    case "wall":
    case "thing":
      return limit.name;
    case "reach":
      return "not looked for farther";
  }
}

/** The same in a word or two, for a drawing. */
export function limitWord(limit: HoldLimit): string {
  switch (limit.by) {
    case "pattern":
      return limit.pattern === "dark" ? "dark" : patternWord(limit.pattern);
    case "exposure":
      return limit.stops > 0 ? "brighter" : "darker";
    case "ratio":
      return limit.stops > 0 ? "ratio up" : "ratio down";
    case "headroom":
      return "clips";
    case "wall":
    case "thing":
      return limit.name;
    case "reach":
      return "or more";
  }
}

/** "0.3 stop of headroom", "skin 0.5 stop over" */
function roomWords(stops: number): string {
  return stops < 0 ? `skin ${stopsSaid(stops)} over` : `${stopsSaid(stops)} of headroom`;
}

/** What stays as it is inside: "Rembrandt, exposure and ratio within a third of a stop, nothing clipped". */
export function askedWords({ pattern, exposureStops, ratioStops, headroomStops }: HoldZone["asked"]): string {
  const exposure = stopsSaid(exposureStops);
  const within =
    ratioStops === exposureStops
      ? [`exposure and ratio within ${exposure}`]
      : [
          `exposure within ${exposure}`,
          ...(ratioStops === null ? [] : [`ratio within ${stopsSaid(ratioStops)}`]),
        ];
  const room =
    headroomStops === null
      ? []
      : [headroomStops === 0 ? "no skin clipped" : `${roomWords(headroomStops)} left`];
  return [patternWord(pattern), ...within, ...room].join(", ");
}

/** Where the middle of the circle lies from the mark, toward where the body faces and to its own left. */
export function circleFromMark(zone: HoldZone, facing_deg: number): { ahead_m: number; left_m: number } {
  const [dx, dy] = [zone.circle.x - zone.mark[0], zone.circle.y - zone.mark[1]];
  const bearing = (facing_deg * Math.PI) / 180;
  return {
    ahead_m: dx * Math.sin(bearing) + dy * Math.cos(bearing),
    left_m: dy * Math.sin(bearing) - dx * Math.cos(bearing),
  };
}

/** One way to go and what ends it there. `amount` is in degrees, or null where `metres` says it. */
export interface HoldRow {
  readonly way: string;
  readonly metres: number | null;
  readonly degrees: number | null;
  readonly ends: string;
}

/** Floor first, then the head. */
export function holdRows(zone: HoldZone): HoldRow[] {
  const ends = (limit: HoldLimit) => limitWords(limit);
  return [
    ...zone.sides.map(({ side, centimetres, limit }) => ({
      way: side,
      metres: centimetres / 100,
      degrees: null,
      ends: ends(limit),
    })),
    ...headRows(zone.turn, "head to own right", "head to own left"),
    ...headRows(zone.tip, "chin down", "chin up"),
  ];
}

function headRows({ least, leastLimit, most, mostLimit }: HoldAngles, down: string, up: string): HoldRow[] {
  return [
    { way: down, metres: null, degrees: -least, ends: limitWords(leastLimit) },
    { way: up, metres: null, degrees: most, ends: limitWords(mostLimit) },
  ];
}
