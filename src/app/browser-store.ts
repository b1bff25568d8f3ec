import { type NearRow, type Shelf, WorkError } from "../workbench/index.ts";

const DATABASE = "tapemark";
const WORKS = "works";

/** Rows of works in this browser, each replaced whole in one transaction that waits for the disk.
 * Errors  rejects with a WorkError where the browser keeps nothing */
export async function openBrowserShelf(): Promise<Shelf> {
  const database = await openDatabase();
  const inWorks = async <T>(
    mode: IDBTransactionMode,
    act: (works: IDBObjectStore) => IDBRequest<T>,
  ): Promise<T> => {
    const transaction = database.transaction(WORKS, mode, { durability: "strict" });
    const asked = act(transaction.objectStore(WORKS));
    await finished(transaction);
    return asked.result;
  };
  return {
    get: async (key) =>
      whole(await inWorks<Partial<NearRow> | undefined>("readonly", (works) => works.get(key))),
    async all() {
      const rows = await inWorks<Partial<NearRow>[]>("readonly", (works) => works.getAll());
      return rows.flatMap((row) => whole(row) ?? []);
    },
    async change(key, to) {
      await inWorks("readwrite", (works) => {
        const known: IDBRequest<Partial<NearRow> | undefined> = works.get(key);
        known.onsuccess = () => {
          const row = to(whole(known.result));
          if (row !== null) works.put(row);
        };
        return known;
      });
    },
  };
}

/** Rows of earlier versions knew nothing of a server. */
function whole(row: Partial<NearRow> | undefined): NearRow | null {
  return row === undefined ? null : ({ far: 0, sent: 0, base: null, ...row } as NearRow);
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
