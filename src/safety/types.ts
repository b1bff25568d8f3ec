/** What the sums are handed on as: load against load, in words. Nothing here says that a thing may be done. */

export interface SafetySum {
  /** what is set against what: "everything on, towards the load" */
  readonly what: string;
  /** what works towards it going wrong: "27.2 N·m", "2.87 m" */
  readonly left: string;
  /** what works against that, or where it ends */
  readonly right: string;
  /** what follows, by word and never by colour: "the load turns it over" */
  readonly word: string;
  /** left is more than right, or nearer to it than what is kept: to be set in heavier type, never in a colour alone */
  readonly isOver: boolean;
}

export interface SafetyRow {
  readonly kind: "support" | "room" | "mains";
  /** whose it is: "lights[0]", "panels[1]", "room", "circuits[0]"; null for what has no place in the plan */
  readonly owner: string | null;
  readonly heading: string;
  /** what the sums were made of */
  readonly about: string;
  readonly sums: readonly SafetySum[];
  /** what must be weighed, measured or looked up before the sums are whole */
  readonly asks: readonly string[];
}

export interface Caution {
  /** overhead: something is above somebody, said first; here: follows from this plan's numbers; usual: every time */
  readonly kind: "overhead" | "here" | "usual";
  /** "lights[0]"; null where it belongs to no object */
  readonly path: string | null;
  /** names of the people it is about */
  readonly people: readonly string[];
  readonly text: string;
}

export const ESTIMATES_ONLY = "Estimates only; local codes and licensed people decide.";

/** "everything on, towards the load: the load turns it over, 27.2 N·m against 10.8 N·m" */
export function sumWords({ what, left, right, word }: SafetySum): string {
  return `${what}: ${word}, ${left} against ${right}`;
}
