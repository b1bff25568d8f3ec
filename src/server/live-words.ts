/** What goes between the server and the process that works for paired devices: plain data both ways. */
import type { ReachEffect } from "../finder/index.ts";
import type { Plan } from "../plan/index.ts";
import type { MeterReading } from "../reading/index.ts";
import type { SheetRequest } from "./routes.ts";

export type ShareJob =
  | { readonly want: "meters"; readonly plan: Plan }
  | { readonly want: "reach"; readonly plan: Plan }
  | { readonly want: "sheet"; readonly text: string; readonly options: SheetRequest };

export type ShareAnswer =
  | { readonly meters: MeterReading[] }
  | { readonly reach: ReachEffect[] }
  | { readonly sheet: Uint8Array }
  /** a cure where it was foreseen */
  | { readonly problem: string; readonly cure: string | null };

/** What the other side does with it. */
export interface ShareWork {
  meters(plan: Plan): MeterReading[];
  reach(plan: Plan): ReachEffect[];
  sheet(text: string, options: SheetRequest): Promise<Uint8Array>;
}
