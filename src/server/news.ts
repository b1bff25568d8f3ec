/** News within this process: who changes something tells, who shows something follows. */
import type { GearStore, News, NewsDesk, PlanStore, ShelfStore } from "../workbench/index.ts";

export function createNewsDesk(): NewsDesk {
  const listeners = new Set<(news: News) => void>();
  return {
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    tell(news) {
      for (const listener of [...listeners]) listener(news);
    },
  };
}

/** A store of which every save is told. */
export function toldStore<Store extends PlanStore>(store: Store, news: NewsDesk): Store {
  return {
    ...store,
    async save(key, work) {
      await store.save(key, work);
      news.tell({ kind: "work", key, revision: work.revision, by: work.by ?? null });
    },
  };
}

/** A gear book of which every save is told. */
export function toldGear(store: GearStore, news: NewsDesk): GearStore {
  return {
    ...store,
    async save(book) {
      const kept = await store.save(book);
      news.tell({ kind: "gear" });
      return kept;
    },
  };
}

/** The same of the shelf. */
export function toldShelf(store: ShelfStore, news: NewsDesk): ShelfStore {
  return {
    ...store,
    async save(shelf, revision) {
      const kept = await store.save(shelf, revision);
      news.tell({ kind: "shelf" });
      return kept;
    },
  };
}
