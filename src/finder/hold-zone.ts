/** How far somebody may drift from the mark with the light on the face as asked. */
import type { Plan } from "../plan/index.ts";
import type { KeepGoing, Memory } from "../reading/index.ts";
import type { HoldZone } from "./types.ts";

export function holdZone(_plan: Plan, _person: number, _memory: Memory, _keepGoing: KeepGoing): HoldZone {
  throw new Error("not built");
}
