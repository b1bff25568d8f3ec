/** Meters and cheeks without pattern, frame and margins: what a calibration compares with what was really read. */
import type { Plan } from "../plan/index.ts";
import { type CheekShares, cheekShares } from "./cheek-shares.ts";
import { faceShares } from "./face-light.ts";
import { lightUp, type Quality } from "./lighting.ts";
import type { Memory } from "./memory.ts";
import { readMeters } from "./meters.ts";
import type { KeepGoing } from "./progress.ts";
import type { MeterReading } from "./types.ts";

export interface Gauged {
  readonly meters: readonly MeterReading[];
  /** of the people asked for, in that order */
  readonly cheeks: readonly CheekShares[];
}

/** Errors  Stopped where `keepGoing` returns false */
export function gauge(
  plan: Plan,
  people: readonly number[],
  quality: Quality,
  memory: Memory,
  keepGoing: KeepGoing = () => true,
): Gauged {
  const lighting = lightUp(plan, quality, memory, -1, keepGoing);
  return {
    meters: readMeters(lighting),
    cheeks: people.map((person) => {
      const { landmarks } = lighting.stage.people[person].shape.head;
      return cheekShares(lighting, faceShares(lighting, person), landmarks);
    }),
  };
}
