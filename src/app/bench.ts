import { type Edit, type FieldPath, setField } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type { Outcome, Session } from "../workbench/index.ts";
import type { ResultsFollower } from "./results.ts";
import type { Store } from "./store.ts";

export type Theme = "light" | "dim";

/** What is on the screen and is no part of the plan. */
export interface View {
  /** owner of the object that is taken hold of; null is the room */
  readonly selected: string | null;
  /** whose face is read: the one who was last taken hold of */
  readonly person: number;
  readonly units: LengthUnits;
  /** null: as the system prefers */
  readonly theme: Theme | null;
  readonly showPower: boolean;
  readonly showDirection: boolean;
  /** height of the layers above the floor; null is the height of the person's face */
  readonly layerHeight_m: number | null;
  readonly showClipped: boolean;
}

/** Everything a view needs, handed down by hand: no globals. */
export interface Bench {
  readonly session: Session;
  readonly results: ResultsFollower;
  readonly view: Store<View>;
  /** said once to somebody who cannot see the screen */
  readonly say: Store<string>;
}

/** Take hold of an object, or of the room (null). A person who is taken hold of is the one who is read from then on. */
export function takeHold(bench: Bench, owner: string | null): void {
  const match = /^people\[(\d+)\]$/.exec(owner ?? "");
  bench.view.update(match === null ? { selected: owner } : { selected: owner, person: Number(match[1]) });
}

/** Why an edit was refused, in one line; null when it was made. */
export function refusal(outcome: Outcome): string | null {
  if (outcome.ok) return null;
  const [first] = outcome.problems;
  return first === undefined ? "This cannot be." : `${first.what.replace(/^must/, "It must")}.`;
}

export function makeEdit(bench: Bench, edit: Edit, mergeKey?: string): string | null {
  return refusal(bench.session.edit(edit, mergeKey));
}

export function putField(bench: Bench, label: string, path: FieldPath, value: unknown): string | null {
  return makeEdit(bench, setField(label, path, value));
}
