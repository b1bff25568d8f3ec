/** A wish as something that a reading can be held to. */
import type { Plan } from "../plan/index.ts";
import { type PlanReading, type TryReading, tryReadingOf } from "../reading/index.ts";
import type { Ask } from "./types.ts";

/** What is asked for in stops is reached within a tenth: no finer is told, nor set on a head or a lens. What is to stay
 * stays as well. */
export const WITHIN_STOPS = 0.1;

/** Room under clipping is asked for as at least so much: what is aimed at lies half a tenth over it. */
const OVER = 0.05;
/** Last digits of a sum of tenths. */
const DIGITS = 1e-6;

export function withinOf({ ask }: Ask): number {
  return ask === "headroom" ? OVER + DIGITS : WITHIN_STOPS;
}

/** Exposure of the face in the picture: stops from an arbitrary nought, the same for one film speed. */
export function faceStops({ camera }: Plan, { litCheek }: TryReading): number | null {
  return litCheek > 0 ? Math.log2(litCheek) - 2 * Math.log2(camera.fNumber) : null;
}

type Amount = (plan: Plan, reading: TryReading) => number | null;

/** A number that is to change; null for what is so or is not. */
function amountOf({ ask }: Ask): Amount | null {
  switch (ask) {
    case "ratio":
      return (_, { ratioStops }) => ratioStops;
    case "exposure":
      return faceStops;
    case "background":
      return (_, { backgroundStops }) => backgroundStops;
    case "headroom":
      return (_, { headroomStops }) => headroomStops;
    default:
      return null;
  }
}

/** Stops from what is asked, signed. */
export type MissOf = Amount;

/** Null where it is no number that is asked, or where there is none to begin with. */
export function missOf(ask: Ask, plan: Plan, before: TryReading): MissOf | null {
  const amount = amountOf(ask);
  const now = amount?.(plan, before) ?? null;
  if (amount === null || now === null) return null;
  const wanted = "toStops" in ask ? ask.toStops + OVER : "byStops" in ask ? now + ask.byStops : now;
  return (after, reading) => {
    const there = amount(after, reading);
    return there === null ? null : there - wanted;
  };
}

/** Lights on the lenses; a panel's pale sheen is no light. */
export function lightsOnGlasses(reading: PlanReading, person: number): string[] {
  const { glasses } = reading.people[person].face;
  const lights = (glasses?.reflections ?? []).filter(({ kind }) => kind === "light");
  return [...new Set(lights.map(({ light }) => light))];
}

/** Whether a wish that is so or is not is so already; a change by some stops never is, but for none. */
export function isAlready(ask: Ask, reading: PlanReading, person: number): boolean {
  switch (ask.ask) {
    case "pattern":
      return reading.people[person].face.pattern === ask.pattern;
    case "glasses":
      return lightsOnGlasses(reading, person).length === 0;
    case "headroom": {
      const { headroomStops } = reading.camera;
      return headroomStops !== null && Math.abs(headroomStops - ask.toStops) <= WITHIN_STOPS / 2;
    }
    default:
      return Math.abs(ask.byStops) < WITHIN_STOPS / 2;
  }
}

/** The face's exposure, where the wish leaves it. */
export function keepsFace(
  ask: Ask,
  plan: Plan,
  before: TryReading,
  after: Plan,
  reading: TryReading,
): boolean {
  if (ask.ask !== "background") return true;
  const [was, is] = [faceStops(plan, before), faceStops(after, reading)];
  return was !== null && is !== null && Math.abs(is - was) <= WITHIN_STOPS;
}

/** Held to a whole reading. What puts a stand before the lens, or the face out of the picture, reaches nothing. */
export function isReached(
  ask: Ask,
  person: number,
  before: { readonly plan: Plan; readonly reading: PlanReading },
  after: { readonly plan: Plan; readonly reading: PlanReading },
): boolean {
  if (before.reading.camera.headroomStops !== null && after.reading.camera.headroomStops === null)
    return false;
  if (ask.ask === "pattern" || ask.ask === "glasses") return isAlready(ask, after.reading, person);
  const [was, is] = [tryReadingOf(before.reading, person), tryReadingOf(after.reading, person)];
  const miss = missOf(ask, before.plan, was)?.(after.plan, is) ?? null;
  return miss !== null && Math.abs(miss) <= withinOf(ask) && keepsFace(ask, before.plan, was, after.plan, is);
}
