/** Readings made on set: where they were held, and the lights they were made with. */
import type { Direction, Vec3 } from "./parts.ts";
import type { Light, Meter, Plan, Reading, StandingLight } from "./schema.ts";

export interface ReadingPlace {
  readonly position: Vec3;
  readonly direction: Direction;
  readonly receptor: Meter["receptor"];
}

const TOWARD_CAMERA: Direction = { bearing: 180, tilt: 0 };

/** Where a reading was held; what it does not say itself is the meter's that it names.
 * Errors  none for a plan that was checked: the meter is there, or a position */
export function placeOf({ meters }: Plan, reading: Reading): ReadingPlace {
  const meter = meters.find((m) => m.name === reading.meter);
  return {
    position: reading.position ?? meter?.position ?? [0, 0, 0],
    direction: reading.direction ?? meter?.direction ?? TOWARD_CAMERA,
    receptor: reading.receptor ?? meter?.receptor ?? "flat",
  };
}

/** The lights of a plan as they stand now, for a reading that is made now. */
export function standing(plan: Plan): StandingLight[] {
  return plan.lights.map(
    ({ calibration: _c, dial: _d, head: _h, support: _s, pinned: _p, ...light }: Light) => light,
  );
}

/** What somebody says of a reading. */
export type MadeReading = Pick<Reading, "light" | "fNumber" | "iso"> &
  Partial<Pick<Reading, "note">> &
  ({ readonly meter: string; readonly receptor?: Meter["receptor"] } | ReadingPlace);

/** An entry for the plan's readings that stays true when meters and lights are moved or renamed afterwards: with the
 * place itself, and the lights as they stand. Its name is filled in by the plan. */
export function readingOf(plan: Plan, made: MadeReading): Omit<Reading, "name"> {
  const { light, fNumber, iso, note = "" } = made;
  const held = "meter" in made ? placeOf(plan, { ...made, name: "", note }) : made;
  const { position, direction, receptor } = held;
  return { light, position, direction, receptor, fNumber, iso, note, stood: standing(plan) };
}
