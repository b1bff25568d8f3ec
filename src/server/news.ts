/** News within this process: who changes something tells, who shows something follows. */
import type { News, NewsDesk, PlanStore } from "../workbench/index.ts";

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
export function toldStore(store: PlanStore, news: NewsDesk): PlanStore {
  return {
    ...store,
    async save(key, work) {
      await store.save(key, work);
      news.tell({ kind: "work", key, revision: work.revision, by: work.by ?? null });
    },
  };
}
