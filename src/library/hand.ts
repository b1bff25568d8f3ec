/** Which work is in hand: the one on the table of the window that was used last. It is still in hand after a restart. */
import type { NewsDesk } from "../workbench/index.ts";
import { adoptLoose, beginLoose } from "./loose-frames.ts";
import type { Library } from "./open.ts";
import type { Db } from "./sqlite.ts";
import { demandKey } from "./works.ts";

export interface Hand {
  /** null where none is; one that was never saved is in hand too */
  key(): string | null;
  /** Errors  WorkError where that cannot be the key of a work */
  set(key: string | null): void;
}

export function createHand(library: Library, news: Pick<NewsDesk, "tell">): Hand {
  const key = () => library.read(handOf);
  return {
    key,
    set(next) {
      if (next !== null) demandKey(next);
      if (key() === next) return;
      const isAdopting = library.write((db) => {
        const [wasKept, isKept] = [handOf(db), next].map((one) => one !== null && isWork(db, one));
        db.prepare("DELETE FROM about WHERE name = 'hand'").run();
        if (next !== null) db.prepare("INSERT INTO about (name, value) VALUES ('hand', ?)").run(next);
        if (wasKept && !isKept) beginLoose(db);
        return next !== null && isKept && !wasKept && adoptLoose(db, next);
      });
      news.tell({ kind: "hand", key: next });
      if (isAdopting) news.tell({ kind: "shoots", shoot: null });
    },
  };
}

export function handOf(db: Db): string | null {
  const row = db.prepare("SELECT value FROM about WHERE name = 'hand'").get() as
    | { value: string }
    | undefined;
  return row?.value ?? null;
}

function isWork(db: Db, key: string): boolean {
  return db.prepare("SELECT 1 FROM works WHERE key = ?").get(key) !== undefined;
}
