/** What the courier needs and says. */
import type { NearStore } from "./near-store.ts";
import type { KeptWork, SavedWork, WorkStore } from "./ports.ts";
import type { Meeting, Scheduler } from "./session.ts";

export interface FarStore extends WorkStore {
  /** Errors  StoreAway where nobody answers */
  ping(): Promise<void>;
}

export interface CourierParts {
  readonly near: NearStore;
  /** null where there is only the store beside the hand */
  readonly far: FarStore | null;
  readonly scheduler: Scheduler;
  /** names all who share this near store, in what they save */
  readonly self: string;
  /** shows the far store's state of a work to whoever has it on the table */
  readonly meet: (key: string, theirs: SavedWork, base: unknown) => Promise<Meeting>;
  /** shows what the near store has of a work to whoever has it on the table */
  readonly see: (key: string, kept: SavedWork) => Promise<void>;
  /** tells others who share the near store that it has something new of a work */
  readonly tell: (key: string) => void;
}

/** How the far store stands; `trouble` is what it answers when it cannot keep something. */
export interface CourierState {
  readonly reach: "none" | "here" | "away";
  readonly waiting: number;
  readonly trouble: { readonly problem: string; readonly cure: string } | null;
}

/** A work and where it lies. A clash was changed on both sides, in the same place. */
export interface FoundWork extends KeptWork {
  readonly place: "both" | "near" | "far";
  readonly isClash: boolean;
}
