import { type PlanStore, SaveConflict, type SavedWork, titleOf, WorkError } from "../workbench/index.ts";

interface Row extends SavedWork {
  readonly key: string;
  readonly title: string;
  readonly savedAt: string;
}

const DATABASE = "tapemark";
const WORKS = "works";

/** Works kept in this browser, for when no server stands behind the page. One row a work, replaced whole. */
export async function openBrowserStore(now: () => Date): Promise<PlanStore> {
  const database = await openDatabase();
  const inWorks = async <T>(
    mode: IDBTransactionMode,
    act: (works: IDBObjectStore) => IDBRequest<T> | null,
  ): Promise<T | null> => {
    const transaction = database.transaction(WORKS, mode);
    const asked = act(transaction.objectStore(WORKS));
    await finished(transaction);
    return asked?.result ?? null;
  };
  return {
    load: (key) => inWorks<Row>("readonly", (works) => works.get(key)),
    async save(key, work) {
      let isConflict = false;
      await inWorks("readwrite", (works) => {
        const known: IDBRequest<Row | undefined> = works.get(key);
        known.onsuccess = () => {
          isConflict = (known.result?.revision ?? 0) !== work.revision - 1;
          if (isConflict) return;
          const row: Row = { ...work, key, title: titleOf(work.plan), savedAt: now().toISOString() };
          works.put(row);
        };
        return null;
      });
      if (isConflict) throw new SaveConflict(key);
    },
    async list() {
      const rows = (await inWorks<Row[]>("readonly", (works) => works.getAll())) ?? [];
      return rows
        .map(({ key, title, savedAt }) => ({ key, title, savedAt }))
        .sort((a, b) => b.savedAt.localeCompare(a.savedAt));
    },
  };
}

function openDatabase(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(WORKS, { keyPath: "key" });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(storageError());
    request.onblocked = () => reject(storageError());
  });
}

function finished(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onerror = () => reject(storageError());
    transaction.onabort = () => reject(storageError());
  });
}

function storageError(): WorkError {
  return new WorkError("this browser refuses to keep anything", "save the plan as a file before closing");
}
