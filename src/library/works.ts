/** Works in the library, each with its undo history, one revision after the other. */
import {
  type PlanShelf,
  SaveConflict,
  type SavedWork,
  titleOf,
  WorkError,
  type WorkStore,
} from "../workbench/index.ts";
import { type Around, ownShoot } from "./homes.ts";
import type { Library } from "./open.ts";
import { damagedWork } from "./problems.ts";

export const KEY_PATTERN = /^[a-z0-9-]{1,64}$/;

export interface WorkParts extends Around {
  /** what else is kept with a save, in the same commit: both are there or neither */
  readonly alongside?: (saved: {
    readonly key: string;
    readonly shoot: string;
    readonly plan: unknown;
  }) => void;
}

interface Row {
  readonly plan: string;
  readonly history: string;
  readonly revision: number;
  readonly by: string | null;
}

interface Kept {
  readonly revision: number;
  readonly by: string | null;
  readonly saved_at: string;
  readonly shoot: string;
}

export function createPlanShelf(library: Library): PlanShelf {
  const row = library.db.prepare("SELECT plan, revision FROM works WHERE key = ?");
  return {
    async load(key) {
      const found = library.read(() => row.get(key)) as Pick<Row, "plan" | "revision"> | undefined;
      if (found === undefined) return null;
      return { plan: unspoilt(library, key, found.plan), revision: found.revision };
    },
  };
}

/** What a text of a work says.
 * Errors  WorkError where a disk has spoilt it */
function unspoilt(library: Library, key: string, text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw damagedWork(library.path, key);
  }
}

interface ListRow {
  readonly key: string;
  readonly title: string;
  readonly saved_at: string;
}

export function createWorks(library: Library, parts: WorkParts): WorkStore {
  const { db } = library;
  const row = db.prepare("SELECT plan, history, revision, by FROM works WHERE key = ?");
  const kept = db.prepare("SELECT revision, by, saved_at, shoot FROM works WHERE key = ?");
  const put = db.prepare(
    `INSERT INTO works (key, title, plan, history, revision, by, saved_at, shoot) VALUES (?, ?, ?, ?, ?, ?, ?, ?)
     ON CONFLICT (key) DO UPDATE SET title = excluded.title, plan = excluded.plan, history = excluded.history,
       revision = excluded.revision, by = excluded.by, saved_at = excluded.saved_at`,
  );
  // answered by an index alone
  const list = db.prepare("SELECT key, title, saved_at FROM works ORDER BY saved_at DESC, key");
  // a disk may spoil a row's text without SQLite noticing
  const glance = db.prepare(
    `SELECT CASE WHEN json_valid(plan) THEN plan ELSE 'null' END AS plan, json_valid(plan) AND json_valid(history) AS whole
     FROM works WHERE key = ?`,
  );
  return {
    async load(key) {
      const found = library.read(() => row.get(key)) as Row | undefined;
      if (found === undefined) return null;
      const { revision, by } = found;
      const [plan, history] = [found.plan, found.history].map((text) => unspoilt(library, key, text));
      const work = { plan, history, revision };
      return by === null ? work : { ...work, by };
    },
    async save(key, work) {
      demandKey(key);
      library.write(() => {
        const before = kept.get(key) as Kept | undefined;
        if (before !== undefined && isKept(before, work)) return;
        if ((before?.revision ?? 0) !== work.revision - 1) throw new SaveConflict(key);
        const now = parts.now();
        const title = titleOf(work.plan);
        const shoot = before?.shoot ?? parts.newId();
        if (before === undefined) ownShoot(db, shoot, title, now);
        const plan = JSON.stringify(work.plan);
        const history = JSON.stringify(work.history ?? null);
        put.run(key, title, plan, history, work.revision, work.by ?? null, later(now, before), shoot);
        parts.alongside?.({ key, shoot, plan: work.plan });
      });
    },
    async list() {
      const rows = library.read(() => list.all()) as ListRow[];
      return rows.map(({ key, title, saved_at }) => ({ key, title, savedAt: saved_at }));
    },
    async glance(key) {
      const found = library.read(() => glance.get(key)) as { plan: string; whole: number } | undefined;
      if (found === undefined) return null;
      return { plan: JSON.parse(found.plan) as unknown, isDamaged: found.whole === 0 };
    },
  };
}

export function demandKey(key: string): void {
  if (KEY_PATTERN.test(key)) return;
  throw new WorkError(`"${key}" cannot name a work`, "use small letters, digits and hyphens, at most 64");
}

/** The same save again: its answer did not reach the page that sent it, which has been loaded anew. */
function isKept(kept: Kept, work: SavedWork): boolean {
  return work.by !== undefined && kept.by === work.by && kept.revision === work.revision;
}

/** A clock that was set back takes no save back: what came later is never older. */
function later(now: Date, before: Kept | undefined): string {
  const stamp = now.toISOString();
  return before !== undefined && before.saved_at > stamp ? before.saved_at : stamp;
}
