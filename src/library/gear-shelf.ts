/** The gear book in the library. */
import { isSameData } from "../plan/index.ts";
import { EMPTY_BOOK, type GearBook, type GearStore, gearBookText, readGearBook } from "../workbench/index.ts";
import type { Around } from "./homes.ts";
import { type Kept, keepDocument } from "./kept-document.ts";
import type { Library } from "./open.ts";

export function createGearShelf(library: Library, around: Pick<Around, "now">): GearStore {
  const kind = {
    ...({ table: "gear", column: "book", called: "gear book", empty: EMPTY_BOOK } as const),
    ...{ read: bare, text: gearBookText, merge: mergeBooks, over: lostOfBook },
  };
  const document = keepDocument<GearBook>(library, kind, around);
  const given = ({ value, ...kept }: Kept<GearBook>): GearBook => ({ ...value, ...kept });
  return {
    load: async () => given(document.load()),
    save: async (book) => given(document.save({ bodies: book.bodies, lights: book.lights }, book.revision)),
  };
}

/** As it is kept: without the state that it was read from. */
function bare(value: unknown): GearBook | null {
  const book = readGearBook(value);
  return book && { bodies: book.bodies, lights: book.lights };
}

function mergeBooks(base: GearBook | undefined, there: GearBook, mine: GearBook): GearBook {
  return {
    bodies: mergeRecords(base?.bodies, there.bodies, mine.bodies),
    lights: mergeRecords(base?.lights, there.lights, mine.lights),
  };
}

/** Of what others learnt since the base, the entries that the merged book has otherwise. */
function lostOfBook(base: GearBook | undefined, there: GearBook, merged: GearBook): GearBook | null {
  const bodies = lostRecords(base?.bodies, there.bodies, merged.bodies);
  const lights = lostRecords(base?.lights, there.lights, merged.lights);
  return Object.keys(bodies).length + Object.keys(lights).length === 0 ? null : { bodies, lights };
}

function lostRecords<T>(
  base: Readonly<Record<string, T>> | undefined,
  there: Readonly<Record<string, T>>,
  merged: Readonly<Record<string, T>>,
): Record<string, T> {
  const isLost = (key: string, theirs: T) =>
    !isSameData(theirs, base && own(base, key)) && !isSameData(theirs, own(merged, key));
  return Object.fromEntries(Object.entries(there).filter(([key, theirs]) => isLost(key, theirs)));
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
        ? !isSameData(m, own(base, key))
        : m !== undefined && (t === undefined || m.measuredOn >= t.measuredOn);
    const chosen = isMine ? m : t;
    if (chosen !== undefined) out.set(key, chosen);
  }
  return Object.fromEntries(out);
}

function own<T>(record: Readonly<Record<string, T>>, key: string): T | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}
