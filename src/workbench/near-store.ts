/** The store beside the hand: it always answers, and it knows of each work how far the far store has it too. */
import { SaveConflict } from "./errors.ts";
import { titleOf } from "./memory-store.ts";
import type { PlanStore, SavedWork } from "./ports.ts";

/** Where rows lie: one a key, changed in one step. In a browser: IndexedDB. */
export interface Shelf {
  get(key: string): Promise<NearRow | null>;
  all(): Promise<NearRow[]>;
  /** Puts what `to` makes of the row; null leaves it as it is. Nobody else changes the row in between. */
  change(key: string, to: (row: NearRow | null) => NearRow | null): Promise<void>;
}

/** How the far store stands to a work that is kept here. */
export interface Agreement {
  /** the far store's revision when the two last agreed; 0 = never */
  readonly far: number;
  /** the revision here that the far store has; what is newer waits to be taken there */
  readonly sent: number;
  /** the plan that both had then */
  readonly base: unknown;
}

export interface NearWork extends SavedWork, Agreement {}

export interface NearRow extends NearWork {
  readonly key: string;
  readonly title: string;
  readonly savedAt: string;
}

export interface NearStore extends PlanStore {
  load(key: string): Promise<NearWork | null>;
  rows(): Promise<NearRow[]>;
  agree(key: string, agreement: Agreement): Promise<void>;
  /** Takes over the far store's work, unless something here still waits to be taken there. */
  adopt(key: string, work: SavedWork): Promise<void>;
}

export const isWaiting = ({ revision, sent }: { revision: number; sent: number }) => revision !== sent;

export function createNearStore(shelf: Shelf, now: () => Date): NearStore {
  const row = (key: string, work: SavedWork, agreement: Agreement): NearRow => ({
    key,
    title: titleOf(work.plan),
    savedAt: now().toISOString(),
    plan: work.plan,
    history: work.history,
    revision: work.revision,
    far: agreement.far,
    sent: agreement.sent,
    base: agreement.base,
  });
  return {
    load: (key) => shelf.get(key),
    rows: () => shelf.all(),
    async save(key, work) {
      let isStale = false;
      await shelf.change(key, (known) => {
        isStale = (known?.revision ?? 0) !== work.revision - 1;
        return isStale ? null : row(key, work, known ?? { far: 0, sent: 0, base: null });
      });
      if (isStale) throw new SaveConflict(key);
    },
    async list() {
      return (await shelf.all()).map(({ key, title, savedAt }) => ({ key, title, savedAt }));
    },
    agree: (key, agreement) => shelf.change(key, (known) => known && { ...known, ...agreement }),
    adopt: (key, work) =>
      shelf.change(key, (known) => {
        // another window may have brought it over already
        if (known && (isWaiting(known) || known.far >= work.revision)) return null;
        const revision = (known?.revision ?? 0) + 1;
        return row(key, { ...work, revision }, { far: work.revision, sent: revision, base: work.plan });
      }),
  };
}

/** A shelf that forgets: for tests, and for a browser that keeps nothing. */
export function createMemoryShelf(): Shelf {
  const rows = new Map<string, string>();
  const get = (key: string) => {
    const text = rows.get(key);
    return text === undefined ? null : (JSON.parse(text) as NearRow);
  };
  return {
    get: async (key) => get(key),
    all: async () => [...rows.keys()].flatMap((key) => get(key) ?? []),
    async change(key, to) {
      const changed = to(get(key));
      if (changed !== null) rows.set(key, JSON.stringify(changed));
    },
  };
}
