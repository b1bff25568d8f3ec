/** How far a set-up is from what is asked: one rule for the search, for the choice and for what people are told. */

import { incidentFNumber, METER_CONSTANT } from "../photometry/index.ts";
import type { Plan, Span, Want } from "../plan/index.ts";
import type { TryReading } from "../reading/index.ts";

/** What can be judged by a number. */
export type Judged = Exclude<keyof Want, "crop"> | "power";

export const JUDGED: readonly Judged[] = [
  "pattern",
  "litSide",
  "side",
  "ratioStops",
  "shadowEdgeMillimetres",
  "backgroundStops",
  "fNumber",
  "headroomStops",
  "catchlight",
  "azimuth",
  "elevation",
  "spreadStops",
];

/** A reading with what is judged beside it. */
export interface Seen {
  readonly reading: TryReading;
  readonly iso: number;
  /** name of the light that gives the face most */
  readonly strongest: string | null;
}

/** A miss of so much weighs 1: what a person notices, or can just set. In the wish's own unit; edges in doublings. */
const NOTICED: Readonly<Record<Judged, number>> = {
  pattern: 1,
  litSide: 1,
  side: 1,
  ratioStops: 0.3,
  shadowEdgeMillimetres: 0.5,
  backgroundStops: 0.5,
  fNumber: 0.3,
  headroomStops: 0.3,
  catchlight: 0.5,
  azimuth: 5,
  elevation: 5,
  spreadStops: 0.2,
  power: 0.3,
};
/** Yes-or-no wishes weigh as much as that many others missed by a little: they are the look itself. */
const OTHER_PATTERN = 4;
const NEARLY_PATTERN = 2;
const OTHER_SIDE = 4;

/** At 0 as asked, above it missed, in units of what is noticed; null where it is free. */
export function missOf(wish: Judged, want: Want, seen: Seen): number | null {
  const margin = marginOf(wish, want, seen);
  if (margin === null) return null;
  return margin >= 0 ? 0 : -margin / NOTICED[wish];
}

export function costOf(want: Want, seen: Seen, without: Judged | null = null): number {
  let sum = 0;
  for (const wish of JUDGED) if (wish !== without) sum += missOf(wish, want, seen) ?? 0;
  return sum;
}

/** How well inside: 0 in the middle of every range, up to about 1 for each that stands at its end. */
export function edginess(want: Want, seen: Seen): number {
  let sum = seen.reading.between === null || want.pattern === null ? 0 : UNFIRM;
  for (const wish of ["ratioStops", "shadowEdgeMillimetres", "backgroundStops"] as const) {
    const span = want[wish];
    const value = seen.reading[wish];
    if (span !== null && value !== null) sum += offMiddle(span, value, wish);
  }
  if (want.catchlight !== null) {
    const off = clockOff(want.catchlight.clock, seen);
    if (off !== null) sum += Math.min(1, (off / want.catchlight.within) ** 2);
  }
  return sum;
}

/** What is missed by two cheeks of so many lx.s alone, whatever else a reading would say. */
export function cheekCost(
  want: Want,
  left: number,
  right: number,
  { plan, sideOf }: { plan: Plan; sideOf: (litSide: TryReading["litSide"]) => TryReading["side"] },
): number {
  const litCheek = Math.max(left, right);
  const shadowCheek = Math.min(left, right);
  const ratioStops = shadowCheek > 0 ? Math.log2(litCheek / shadowCheek) : null;
  const isEven = ratioStops !== null && ratioStops < EVEN_STOPS;
  const litSide = isEven ? "even" : left > right ? "left" : "right";
  const reading = { ...NOT_READ, litCheek, shadowCheek, ratioStops, litSide, side: sideOf(litSide) } as const;
  const seen = { reading, iso: plan.camera.iso, strongest: null };
  let sum = 0;
  for (const wish of BY_CHEEKS) sum += missOf(wish, want, seen) ?? 0;
  return sum;
}

const NOT_READ: TryReading = {
  pattern: "dark",
  between: null,
  litSide: "even",
  litCheek: 0,
  shadowCheek: 0,
  ratioStops: null,
  side: "square",
  light: { azimuth: null, elevation: null },
  shadowEdgeMillimetres: null,
  catchlights: [],
  backgroundStops: null,
  headroomStops: null,
  litCheeks: [],
};

/** Cheeks closer than this are even (plan format). */
const EVEN_STOPS = 0.15;
const BY_CHEEKS = ["litSide", "side", "ratioStops", "fNumber"] as const;

/** A name that a quarter of a stop changes. */
const UNFIRM = 4;

/** In the wish's own unit (yes or no: 0, or below it); negative outside. */
export function marginOf(wish: Judged, want: Want, seen: Seen): number | null {
  const { reading } = seen;
  switch (wish) {
    case "pattern":
      if (want.pattern === null) return null;
      if (reading.pattern === want.pattern) return 0;
      return reading.between === want.pattern ? -NEARLY_PATTERN : -OTHER_PATTERN;
    case "litSide":
      return want.litSide === null ? null : reading.litSide === want.litSide ? 0 : -OTHER_SIDE;
    case "side":
      return want.side === null ? null : reading.side === want.side ? 0 : -OTHER_SIDE;
    case "ratioStops":
      return within(want.ratioStops, reading.ratioStops ?? NO_SHADOW_LIGHT);
    case "shadowEdgeMillimetres":
      return want.shadowEdgeMillimetres === null
        ? null
        : doublings(want.shadowEdgeMillimetres, reading.shadowEdgeMillimetres);
    case "backgroundStops":
      return within(want.backgroundStops, reading.backgroundStops ?? Number.NEGATIVE_INFINITY, NONE_STOPS);
    case "fNumber":
      return want.fNumber === null ? null : stopsInside(want.fNumber, meteredFNumber(seen));
    case "headroomStops":
      return reading.headroomStops === null ? null : reading.headroomStops - want.headroomStops;
    case "catchlight": {
      if (want.catchlight === null) return null;
      const off = clockOff(want.catchlight.clock, seen);
      return want.catchlight.within - (off ?? NO_CATCHLIGHT);
    }
    case "azimuth":
    case "elevation":
      return within(want[wish], reading.light[wish] ?? NOWHERE_DEGREES);
    case "spreadStops":
      return want.spreadStops === null ? null : want.spreadStops - spreadOf(reading.litCheeks);
    case "power":
      return null;
  }
}

/** A cheek without any light: more than any range asks for. */
const NO_SHADOW_LIGHT = 12;
/** As far off as anything is taken to be, so that costs stay numbers. */
const NONE_STOPS = 8;
const NO_CATCHLIGHT = 6;
const NO_EDGE = 2;
/** Light that comes from nowhere: farther off than any direction. */
const NOWHERE_DEGREES = 360;

function within(span: Span | null, value: number, most = Number.POSITIVE_INFINITY): number | null {
  if (span === null) return null;
  const under = span.from === null ? Number.POSITIVE_INFINITY : value - span.from;
  const over = span.to === null ? Number.POSITIVE_INFINITY : span.to - value;
  return Math.max(-most, Math.min(under, over));
}

function doublings(span: Span, edge: number | null): number {
  if (edge === null || !(edge > 0)) return -NO_EDGE;
  const under = span.from === null || span.from <= 0 ? NO_EDGE : Math.log2(edge / span.from);
  const over = span.to === null ? NO_EDGE : span.to > 0 ? Math.log2(span.to / edge) : -NO_EDGE;
  return Math.min(under, over);
}

function stopsInside(span: Span, fNumber: number): number {
  if (!(fNumber > 0)) return -NONE_STOPS;
  const under = span.from === null ? NONE_STOPS : 2 * Math.log2(fNumber / span.from);
  const over = span.to === null ? NONE_STOPS : 2 * Math.log2(span.to / fNumber);
  return Math.min(under, over);
}

function offMiddle({ from, to }: Span, value: number, wish: Judged): number {
  if (from === null || to === null || !(to > from)) return 0;
  const at = wish === "shadowEdgeMillimetres" ? Math.log2(Math.max(0.1, value)) : value;
  const [a, b] =
    wish === "shadowEdgeMillimetres" ? [Math.log2(Math.max(0.1, from)), Math.log2(to)] : [from, to];
  return Math.min(1, ((2 * at - a - b) / (b - a)) ** 2);
}

/** At which the lit cheek is exposed as metered, at the camera's ISO. */
export function meteredFNumber({ reading, iso }: Seen): number {
  return incidentFNumber(reading.litCheek, iso, METER_CONSTANT.flat);
}

/** Hours from what is asked, of the strongest light, in the eye where it is nearest; null where it shows in neither. */
export function clockOff(clock: number, { reading, strongest }: Seen): number | null {
  let best: number | null = null;
  for (const c of reading.catchlights) {
    if (c.light !== strongest) continue;
    const apart = Math.abs(c.clock - clock) % 12;
    const off = Math.min(apart, 12 - apart);
    if (best === null || off < best) best = off;
  }
  return best;
}

export function spreadOf(litCheeks: readonly number[]): number {
  if (litCheeks.length < 2) return 0;
  const least = Math.min(...litCheeks);
  return least > 0 ? Math.log2(Math.max(...litCheeks) / least) : NONE_STOPS;
}
