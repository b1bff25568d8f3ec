/** The gear book in the library. Two windows may learn at once: what one of them did not change stays as the other left it. */
import { EMPTY_BOOK, type GearBook, type GearStore, gearBookText, readGearBook } from "../workbench/index.ts";
import type { Around } from "./homes.ts";
import type { Library } from "./open.ts";

/** Books as they were given out, so that it can be told what somebody changed: more windows do not learn at once. */
const REMEMBERED = 32;

/** A book that cannot be read is set aside in the library, and the book that is loaded says so. */
export function createGearShelf(library: Library, { now }: Pick<Around, "now">): GearStore {
  const { db } = library;
  const row = db.prepare("SELECT book, revision FROM gear");
  const put = db.prepare(
    `INSERT INTO gear (one, book, revision) VALUES (1, ?, ?)
     ON CONFLICT (one) DO UPDATE SET book = excluded.book, revision = excluded.revision`,
  );
  const aside = db.prepare("INSERT OR REPLACE INTO about (name, value) VALUES (?, ?)");
  const given = new Map<number, GearBook>();
  const give = (book: GearBook): GearBook => {
    given.set(book.revision ?? 0, book);
    for (const revision of given.keys()) if (given.size > REMEMBERED) given.delete(revision);
    return book;
  };
  const kept = () => row.get() as { book: string; revision: number } | undefined;
  const setAside = (): GearBook => {
    const name = `gear book set aside ${now().toISOString()}`;
    const revision = library.write(() => {
      const damaged = kept();
      aside.run(name, damaged?.book ?? "");
      const next = (damaged?.revision ?? 0) + 1;
      put.run(gearBookText(EMPTY_BOOK), next);
      return next;
    });
    const notice = `the gear book could not be read: it was set aside in ${library.path} as "${name}", and a new one begins`;
    return { ...EMPTY_BOOK, revision, notice };
  };
  return {
    async load() {
      const found = library.read(kept);
      if (found === undefined) return give({ ...EMPTY_BOOK, revision: 0 });
      const book = bookOf(found.book);
      return give(book === null ? setAside() : { ...book, revision: found.revision });
    },
    save: async (book) =>
      give(
        library.write(() => {
          const before = kept();
          const there = (before && bookOf(before.book)) ?? EMPTY_BOOK;
          const isStale = book.revision !== (before?.revision ?? 0);
          const base = book.revision === undefined ? undefined : given.get(book.revision);
          const merged = isStale ? mergeBooks(base, there, book) : book;
          const revision = (before?.revision ?? 0) + 1;
          put.run(gearBookText(merged), revision);
          return { bodies: merged.bodies, lights: merged.lights, revision };
        }),
      ),
  };
}

function bookOf(text: string): GearBook | null {
  try {
    return readGearBook(JSON.parse(text));
  } catch {
    return null;
  }
}

function mergeBooks(base: GearBook | undefined, there: GearBook, mine: GearBook): GearBook {
  return {
    bodies: mergeRecords(base?.bodies, there.bodies, mine.bodies),
    lights: mergeRecords(base?.lights, there.lights, mine.lights),
  };
}

type Learnt = { readonly measuredOn: string };

/** Entry by entry: what I changed since the base is mine. Where the base is not known any more (the program was started
 * anew meanwhile), nothing is taken away and the later measurement stays. */
function mergeRecords<T extends Learnt>(
  base: Readonly<Record<string, T>> | undefined,
  there: Readonly<Record<string, T>>,
  mine: Readonly<Record<string, T>>,
): Record<string, T> {
  const out = new Map<string, T>();
  for (const key of new Set([...Object.keys(there), ...Object.keys(mine)])) {
    const [t, m] = [own(there, key), own(mine, key)];
    const isMine =
      base !== undefined
        ? JSON.stringify(m) !== JSON.stringify(own(base, key))
        : m !== undefined && (t === undefined || m.measuredOn >= t.measuredOn);
    const chosen = isMine ? m : t;
    if (chosen !== undefined) out.set(key, chosen);
  }
  return Object.fromEntries(out);
}

function own<T>(record: Readonly<Record<string, T>>, key: string): T | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}
