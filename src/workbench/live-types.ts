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
  /** shown on top of everything: weights over people */
  readonly overhead: readonly string[];
  /** what is said every time: bags, cables, mains, flashing light */
  readonly cautions: readonly string[];
  /** what the meter is set to, as the plan's camera */
  readonly iso: number;
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
  /** `isOld`: the plan has changed the thing since */
  readonly placed: { readonly by: string; readonly at: string; readonly isOld: boolean } | null;
  /** that it hangs over somebody, and what its own weights ask for; null where nothing is to be said of it */
  readonly caution: string | null;
  /** how its distance is found again without a tape, and what that is off by; null for what has none */
  readonly reach: string | null;
  /** said aloud once it stands: "key: f/8 + 0.3 alone at chin, flat, pointed at key" */
  readonly readBack: string;
  /** what it does once it is where it belongs */
  readonly verb: "stands" | "sits";
}

export interface LiveReading {
  /** a meter of the plan */
  readonly meter: string;
  /** its receptor and where that points: "flat, pointed at key" */
  readonly receptor: string;
  /** the same and where it is held: "flat, pointed at key; 1.50 m high, 0.03 m from the nose" */
  readonly held: string;
  /** "all", or the light that flashes by itself */
  readonly light: string;
  /** "f/8 + 0.4"; null while it is not known */
  readonly should: string | null;
  /** what was read on set last, at the ISO of the plan; null where nothing was */
  readonly made: string | null;
  /** what was made says nothing of the plan as it is: a light was changed since */
  readonly isOld: boolean;
  /** "0.3 stop under"; null where either is missing, or made is old */
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
