/** One document that the library keeps whole (the gear book, the shelf). Two windows may change it at once: what one of them
 * did not change stays as the other left it. */
import type { Around } from "./homes.ts";
import type { Library } from "./open.ts";

/** States as they were given out, so that it can be told what somebody changed: more windows do not write at once. */
const REMEMBERED = 32;

export interface DocumentKind<T> {
  /** its table, and the column that has the text */
  readonly table: "gear" | "shelf";
  readonly column: "book" | "shelf";
  /** what people call it: "gear book" */
  readonly called: string;
  /** where none is kept yet */
  readonly empty: T;
  /** null where the document is none of this kind */
  readonly read: (document: unknown) => T | null;
  readonly text: (value: T) => string;
  /** `base` is what mine was made from, where that is still known */
  readonly merge: (base: T | undefined, there: T, mine: T) => T;
  /** what others changed since the base and `merged` has otherwise; null where it has all of that */
  readonly over: (base: T | undefined, there: T, merged: T) => T | null;
}

export interface Kept<T> {
  readonly value: T;
  readonly revision: number;
  /** what somebody else had kept and a save overwrote: whoever saved is to be asked */
  readonly over?: T;
  /** what became of one that could not be read */
  readonly notice?: string;
}

export interface KeptDocument<T> {
  load(): Kept<T>;
  save(value: T, revision: number | undefined): Kept<T>;
}

/** A document that cannot be read is set aside in the library, and the one that is loaded says so. */
export function keepDocument<T>(
  library: Library,
  { called, column, empty, merge, over, read, table, text }: DocumentKind<T>,
  { now }: Pick<Around, "now">,
): KeptDocument<T> {
  const { db } = library;
  const row = db.prepare(`SELECT ${column} AS text, revision FROM ${table}`);
  const put = db.prepare(
    `INSERT INTO ${table} (one, ${column}, revision) VALUES (1, ?, ?)
     ON CONFLICT (one) DO UPDATE SET ${column} = excluded.${column}, revision = excluded.revision`,
  );
  const aside = db.prepare("INSERT OR REPLACE INTO about (name, value) VALUES (?, ?)");
  const given = new Map<number, T>();
  const give = (kept: Kept<T>): Kept<T> => {
    given.set(kept.revision, kept.value);
    for (const revision of given.keys()) if (given.size > REMEMBERED) given.delete(revision);
    return kept;
  };
  const kept = () => row.get() as { text: string; revision: number } | undefined;
  const readIn = (json: string): T | null => {
    try {
      return read(JSON.parse(json));
    } catch {
      return null;
    }
  };
  const setAside = (): Kept<T> => {
    const name = `${called} set aside ${now().toISOString()}`;
    const revision = library.write(() => {
      const damaged = kept();
      aside.run(name, damaged?.text ?? "");
      const next = (damaged?.revision ?? 0) + 1;
      put.run(text(empty), next);
      return next;
    });
    const notice = `the ${called} could not be read: it was set aside in ${library.path} as "${name}", and a new one begins`;
    return { value: empty, revision, notice };
  };
  return {
    load() {
      const found = library.read(kept);
      if (found === undefined) return give({ value: empty, revision: 0 });
      const value = readIn(found.text);
      return give(value === null ? setAside() : { value, revision: found.revision });
    },
    save: (value, revision) =>
      give(
        library.write(() => {
          const before = kept();
          const there = (before && readIn(before.text)) ?? empty;
          const isStale = revision !== (before?.revision ?? 0);
          const base = revision === undefined ? undefined : given.get(revision);
          const merged = isStale ? merge(base, there, value) : value;
          const next = (before?.revision ?? 0) + 1;
          put.run(text(merged), next);
          const lost = isStale && before !== undefined ? over(base, there, merged) : null;
          const saved = { value: merged, revision: next };
          return lost === null ? saved : { ...saved, over: lost };
        }),
      ),
  };
}
