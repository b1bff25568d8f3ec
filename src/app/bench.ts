import { type Edit, type FieldPath, setField } from "../plan/index.ts";
import type { LengthUnits } from "../units/index.ts";
import type {
  Computer,
  Finder,
  FrameDesk,
  GearStore,
  NewsFeed,
  Outcome,
  Session,
  Sharing,
  ShelfStore,
} from "../workbench/index.ts";
import type { FrameLook } from "./frame-look.ts";
import type { Guess } from "./guess.ts";
import type { GuideAt } from "./guide-places.ts";
import type { KeptLibrary } from "./library-client.ts";
import type { ResultsFollower } from "./results.ts";
import type { Store } from "./store.ts";

export type Theme = "light" | "dim";

/** start: what to work on. plan: the drawing table. find: set-ups for a brief. shoot: test frames and meter readings.
 * shoots: the library, and one shoot of it. direction, power: the two pages that explain.
 * checklist: what is set up, one step at a time.
 * record: record and contact sheets.
 * guide: the whole job, explained.
 * use: the picture at its final size.
 * gear: what there is, what holds it up and feeds it. */
export type Screen =
  | "checklist"
  | "direction"
  | "find"
  | "gear"
  | "guide"
  | "plan"
  | "power"
  | "record"
  | "shoot"
  | "shoots"
  | "start"
  | "use";

/** What of the page "gear" is looked at. */
export type GearPart = "shelf" | "check" | "packing" | "weights";

/** What of the page "shoot" is looked at; fix is among the frames, where what mends them stands. */
export type ShootPart = "frames" | "fix" | "readings";

/** What is on the screen and is no part of the plan. */
export interface View {
  readonly screen: Screen;
  readonly shoot: ShootPart;
  readonly gear: GearPart;
  /** the shoot that is looked at in the library; null is the list of them */
  readonly openShoot: string | null;
  /** owner of the object that is taken hold of; null is the room */
  readonly selected: string | null;
  /** owners that are held together with it: they move along */
  readonly also: readonly string[];
  /** why what was last asked of what is held was not done, or not wholly */
  readonly stays?: string | null;
  /** whose face is read: the one who was last taken hold of */
  readonly person: number;
  readonly units: LengthUnits;
  /** null: as the system prefers */
  readonly theme: Theme | null;
  /** a few readings, as large as the screen allows, for a laptop on a cart */
  readonly large: boolean;
  readonly showPower: boolean;
  readonly showDirection: boolean;
  /** height of the layers above the floor; null is the height of the person's face */
  readonly layerHeight_m: number | null;
  /** distance of the side's layers from the left wall; null is where the person stands */
  readonly layerAcross_m: number | null;
  /** owner of the meter that 0 stops stands for; null is the person's face */
  readonly reference: string | null;
  /** owner of the light whose share is seen by itself */
  readonly alone: string | null;
  readonly look: FrameLook;
  /** the patch of floor round the mark in which the light stays as it is */
  readonly showHold: boolean;
  /** the page of the guide that is or was last open */
  readonly guide?: GuideAt;
  /** a guess that is being made: Reading and Frame are hidden until it is compared; null when nobody guesses */
  readonly guess: Guess | null;
}

/** Everything a view needs, handed down by hand: no globals. */
export interface Bench {
  readonly session: Session;
  readonly results: ResultsFollower;
  /** a worker of its own for what is tried beside the plan: moves, lessons */
  readonly trials: Computer & Finder;
  /** workers of their own for a search, as many as there are processors to spare; made when first asked for */
  readonly finders: () => readonly (Computer & Finder)[];
  /** where test frames come in and what is learnt of gear is kept; null where no server is behind the page */
  readonly desk: FrameDesk | null;
  readonly gear: GearStore | null;
  /** what somebody owns is kept by the program; null where no server is behind the page */
  readonly shelf: ShelfStore | null;
  /** phones and tablets may look; null where no server is behind the page */
  readonly sharing: Sharing | null;
  /** shoots are kept by the program; null where no server is behind the page */
  readonly library: KeptLibrary | null;
  /** what changes at the server; nothing where none is behind the page */
  readonly news: NewsFeed;
  readonly view: Store<View>;
  /** said once to somebody who cannot see the screen */
  readonly say: Store<string>;
}

/** Take hold of an object, or of the room (null). A person who is taken hold of is the one who is read from then on. */
export function takeHold(bench: Bench, owner: string | null): void {
  const match = /^people\[(\d+)\]$/.exec(owner ?? "");
  const hold = { selected: owner, also: [], stays: null };
  bench.view.update(match === null ? hold : { ...hold, person: Number(match[1]) });
}

/** Hold an object along with what is held, or let go of that one alone. */
export function holdAlso(bench: Bench, owner: string): void {
  const { selected, also } = bench.view.get();
  if (selected === null) takeHold(bench, owner);
  else if (also.includes(owner)) bench.view.update({ also: also.filter((each) => each !== owner) });
  else if (owner !== selected) bench.view.update({ also: [...also, owner] });
  else bench.view.update({ selected: also[0] ?? null, also: also.slice(1) });
}

/** Hold these, the first of them foremost; none is the room. */
export function holdThese(bench: Bench, owners: readonly string[]): void {
  takeHold(bench, owners[0] ?? null);
  bench.view.update({ also: owners.slice(1) });
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
