/** Fifty briefs that are known to have an answer: each asks for what a set-up drawn by chance reads, by the full transport
 * at its finest. recovered-briefs.json says which draws they are; scripts/recovered-briefs.mjs chose them. */
import { METER_CONSTANT } from "../src/photometry/index.ts";
import type { Plan } from "../src/plan/index.ts";
import { Memory, type Pattern, readPlan, type TryReading, tryReadingOf } from "../src/reading/index.ts";
import { planOf } from "./plans.ts";
import { type Draw, drawPlace, drawSetUp, drawsOf, gearOf } from "./random-set-ups.ts";

const SEED = 20_261_126;
/** Draws of their own for the set-ups that try a brief blindly. */
const BLIND_SEED = 20_261_127;
const ALL_ROUND = [0, 170] as const;

/** How near a brief asks for what was read. */
export const WITHIN = { ratioStops: 0.25, apertureStops: 1 / 3, clock: 0.5, edgeShare: 0.3 } as const;
export const PATTERNS = ["flat", "butterfly", "loop", "rembrandt", "split", "rim"] as const;

/** A set-up drawn by chance, as read, and the brief made of it. */
export interface Drawn {
  readonly setUp: Plan;
  readonly reading: TryReading;
  /** the same room, person and camera with the brief and no light */
  readonly asked: Plan;
}

export const read = (plan: Plan): TryReading => tryReadingOf(readPlan(plan, "fine", new Memory()), 0);

function attempt(draw: Draw): Plan | null {
  return drawSetUp(draw, drawPlace(draw), ALL_ROUND);
}

/** The set-up of a draw with its brief; null where nothing that can be built or photographed came of it. */
export function drawn(number: number): Drawn | null {
  const setUp = attempt(drawsOf(SEED, number));
  if (setUp === null) return null;
  const reading = read(setUp);
  if (!isOrdinary(reading, setUp)) return null;
  return { setUp, reading, asked: askedOf(setUp, reading) };
}

/** Apertures that a lens has, and a picture of a face at all. */
const APERTURES = [1.4, 32] as const;
/** Beyond this the darker cheek is black, and its number hangs on the last ray. */
const MOST_RATIO = 6;

function isOrdinary(reading: TryReading, { camera }: Plan): boolean {
  const { pattern, ratioStops, headroomStops } = reading;
  const n = cheekFNumber(reading.litCheek, camera.iso);
  return (
    PATTERNS.some((p) => p === pattern) &&
    ratioStops !== null &&
    ratioStops < MOST_RATIO &&
    headroomStops !== null &&
    n >= APERTURES[0] &&
    n <= APERTURES[1]
  );
}

/** f-number at which a lit cheek is exposed as metered. */
export function cheekFNumber(litCheek: number, iso: number): number {
  return Math.sqrt((litCheek * iso) / METER_CONSTANT.flat);
}

function askedOf(setUp: Plan, reading: TryReading): Plan {
  const { litSide, ratioStops, shadowEdgeMillimetres: edge } = reading;
  const n = cheekFNumber(reading.litCheek, setUp.camera.iso);
  const clock = clocksOfStrongest(setUp, reading)[0];
  const around = 2 ** (WITHIN.apertureStops / 2);
  const want = {
    pattern: reading.pattern,
    ...(litSide === "even" ? {} : { litSide }),
    ratioStops: {
      from: Math.max(0, (ratioStops ?? 0) - WITHIN.ratioStops),
      to: (ratioStops ?? 0) + WITHIN.ratioStops,
    },
    fNumber: { from: n / around, to: n * around },
    // as it came: nothing is asked of it
    headroomStops: -3,
    ...(clock === undefined ? {} : { catchlight: { clock, within: WITHIN.clock } }),
    ...(edge === null
      ? {}
      : {
          shadowEdgeMillimetres: { from: edge * (1 - WITHIN.edgeShare), to: edge * (1 + WITHIN.edgeShare) },
        }),
  };
  return planOf({ ...setUp, lights: [], brief: { want, gear: gearOf(setUp) } });
}

/** Where the light that gives the face most shows in the eyes. */
export function clocksOfStrongest(plan: Plan, { catchlights }: TryReading): number[] {
  const name = strongest(plan);
  return catchlights.filter((c) => c.light === name).map((c) => c.clock);
}

function strongest(plan: Plan): string | undefined {
  if (plan.lights.length === 1) return plan.lights[0].name;
  const given = plan.lights.map((light) => {
    const alone = { ...plan, room: null, panels: [], lights: [light] };
    const { litCheek, shadowCheek } = tryReadingOf(readPlan(alone, "coarse", new Memory()), 0);
    return light.on ? litCheek + shadowCheek : 0;
  });
  return plan.lights[given.indexOf(Math.max(...given))]?.name;
}

/** Set-ups drawn by chance in the same room round the same person, and how many of them meet the brief. */
export function blindlyMet(
  number: number,
  { setUp, asked }: Drawn,
  tries: number,
  meets: (plan: Plan, asked: Plan, reading: TryReading) => boolean,
): number {
  const memory = new Memory();
  const draw = drawsOf(BLIND_SEED, number);
  let met = 0;
  for (let tried = 0; tried < tries; ) {
    const plan = drawSetUp(draw, { ...setUp, lights: [] }, ALL_ROUND);
    if (plan === null) continue;
    tried++;
    if (meets(plan, asked, tryReadingOf(readPlan(plan, "coarse", memory), 0))) met++;
  }
  return met;
}

interface Kept {
  readonly draw: number;
  readonly pattern: Pattern;
  /** how many of the blind set-ups meet it */
  readonly blind: number;
}

/** What recovered-briefs.json holds. */
export interface Fixture {
  readonly blindTries: number;
  readonly kept: readonly Kept[];
  /** met by chance, and so no proof of a search */
  readonly replaced: readonly Kept[];
}
