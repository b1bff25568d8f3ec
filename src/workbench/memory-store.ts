/** A store that forgets: for tests, and for a browser without storage. Keeps copies, as a real one does. */
import { SaveConflict } from "./errors.ts";
import type { PlanStore, SavedWork } from "./ports.ts";

export function createMemoryStore(savedAt = "1970-01-01T00:00:00.000Z"): PlanStore {
  const works = new Map<string, string>();
  const read = (key: string): SavedWork | null => {
    const text = works.get(key);
    return text === undefined ? null : (JSON.parse(text) as SavedWork);
  };
  return {
    load: async (key) => read(key),
    save: async (key, work) => {
      if (work.revision !== (read(key)?.revision ?? 0) + 1) throw new SaveConflict(key);
      works.set(key, JSON.stringify(work));
    },
    list: async () => [...works.keys()].map((key) => ({ key, title: titleOf(read(key)?.plan), savedAt })),
  };
}

/** The title of a kept plan that has not been checked. */
export function titleOf(plan: unknown): string {
  const title = typeof plan === "object" && plan !== null ? (plan as { title?: unknown }).title : undefined;
  return typeof title === "string" && title !== "" ? title : "Untitled";
}
