/** The session: the truth of the workbench. One plan at a time, every change undoable, saved as it is made.
 * It knows no screen and no clock: saving is put off by a scheduler that it is given. */
import type { Edit, Plan, Problem } from "../plan/index.ts";
import type { Computer, PlanStore, SavedWork } from "./ports.ts";

/** Runs something later; the answer takes it back. In a browser: setTimeout and clearTimeout. */
export interface Scheduler {
  after(delay_ms: number, run: () => void): () => void;
}

/** How safe the newest change is. `problem` says what went wrong and `cure` what to do, both for people. */
export type Saving =
  | { readonly state: "saved" | "waiting" | "saving" }
  | { readonly state: "failed"; readonly problem: string; readonly cure: string }
  | {
      readonly state: "conflict";
      readonly problem: string;
      readonly cure: string;
      /** what is to be decided between; left out while that is being looked at, and where theirs cannot be read */
      readonly between?: Between;
    };

/** The plan that others have where the one on the table differs, and the one that both began from; null where nobody knows. */
export interface Between {
  readonly theirs: Plan;
  readonly base: Plan | null;
}

/** What views derive from. A new object at each change, so that `===` tells whether anything happened. */
export interface SessionState {
  /** names this work in the store; "" for a new plan until it is first saved */
  readonly key: string;
  readonly plan: Plan;
  /** what undo and redo would take back or bring back, in the words of the edit; null when there is nothing */
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
  /** every step that can be gone to, the plan as it was opened first, and the one that is on screen */
  readonly steps: readonly { readonly label: string }[];
  readonly at: number;
  /** why the last edit or opening was refused; empty once something has been accepted */
  readonly problems: readonly Problem[];
  readonly saving: Saving;
}

export type Outcome = { readonly ok: true } | { readonly ok: false; readonly problems: readonly Problem[] };

/** What came of showing the session another keeper's state of a work: met = what it has is part of the history on
 * the table and kept; left = somebody was asked and went on without saying; absent = that work is not open. */
export type Meeting = "met" | "left" | "absent";

export interface SessionParts {
  readonly computer: Computer;
  readonly store: PlanStore;
  readonly scheduler: Scheduler;
  /** how long after the last change it is saved; 400 when left out */
  readonly saveDelay_ms?: number;
  /** a key that no other new plan has, here or elsewhere; the next free number when left out */
  readonly newKey?: () => string;
}

export interface Session {
  readonly computer: Computer;
  get(): SessionState;
  /** Called after every change of state; the answer ends it. */
  subscribe(listener: () => void): () => void;

  /** Makes an edit, or refuses it and leaves the plan as it was.
   * Edits with the same `mergeKey` that follow each other are one step of undo: a drag. */
  edit(edit: Edit, mergeKey?: string): Outcome;
  /** A drag was let go: the next edit is a step of its own even under the same `mergeKey`. */
  seal(): void;
  undo(): void;
  redo(): void;
  /** Goes to a step by its number in `steps`; one that is not there changes nothing. */
  goTo(index: number): void;

  /** Opens the plan file `text` as the work `key`. Where that work was kept before, its undo history comes
   * back; a file that has changed since is put on top as one step. What is open now is saved first. */
  open(key: string, text: string): Promise<Outcome>;
  /** Opens kept work by its key. */
  resume(key: string): Promise<Outcome>;
  /** Begins a new plan. The usual empty one is kept from its first change on, one that is given at once. */
  createNew(plan?: Plan): Promise<void>;
  /** Puts another plan in place of this one, as one step that can be undone. */
  replace(text: string, label: string): Outcome;
  /** The plan as a file's text. */
  text(): string;

  /** Saves now what is still waiting; resolves when the store has it or has refused it (see `saving`). */
  flush(): Promise<void>;
  /** Another keeper of the work `key` has gone on by itself since `base`, the plan that both last had. What touches
   * different fields becomes one plan; else `saving` is a conflict until somebody decides. */
  meet(key: string, theirs: SavedWork, base: unknown): Promise<Meeting>;
  /** The store has this of the work `key`, kept by another window: it comes onto the table as it is where nothing here
   * is newer, else both are made one as in `meet`. What is held in the hand stays there until it is let go of. */
  see(key: string, kept: SavedWork): Promise<void>;
  /** After a conflict: keep this window's plan over the one in the store, */
  keepMine(): Promise<void>;
  /** or take the one in the store; what this window had is one undo away. */
  takeTheirs(): Promise<void>;
  /** Ends it: saves what is waiting and calls nobody any more. */
  close(): Promise<void>;
}
