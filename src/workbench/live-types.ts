/** The plan on the table as a paired device sees it: drawn and said, nothing that can be edited. */
import type { LengthUnits } from "../units/index.ts";

export interface LivePlan {
  readonly key: string;
  readonly title: string;
  readonly revision: number;
  readonly units: LengthUnits;
  /** whole SVG documents, true to scale, shown as pictures */
  readonly floor: string;
  readonly side: string;
  /** in the order in which they are set up */
  readonly things: readonly LiveThing[];
  /** shown on top of everything: weights overhead, mains, flashing light */
  readonly cautions: readonly string[];
  readonly readings: readonly LiveReading[];
  /** revision that `should` was worked out for; null while nothing is known. Older than `revision`: it is being worked out */
  readonly readOf: number | null;
}

export interface LiveThing {
  /** as in `Placed`: "lights/key" */
  readonly thing: string;
  readonly name: string;
  readonly what: string;
  /** in words as on the sheet: "from the left wall", "4.45 m" */
  readonly lines: readonly { readonly label: string; readonly text: string }[];
  readonly placed: { readonly by: string; readonly at: string } | null;
}

export interface LiveReading {
  /** a meter of the plan */
  readonly meter: string;
  /** "all", or the light that flashes by itself */
  readonly light: string;
  /** "f/8 + 0.4"; null while it is not known */
  readonly should: string | null;
  /** what was read on set last; null where nothing was */
  readonly made: string | null;
  /** "0.3 stop under"; null where either is missing */
  readonly difference: string | null;
}

/** A meter reading as a device sends it: `fNumber` exact, ISO as the plan's camera unless said. */
export interface SentReading {
  readonly meter: string;
  readonly light: string;
  readonly fNumber: number;
  readonly iso?: number;
  readonly note?: string;
}
