/** The shelf of gear in the library. */
import { lostOf, mergeShelves, readShelf, type Shelf, STARTER_SHELF, shelfText } from "../gear/index.ts";
import { type KeptShelf, type ShelfStore, WorkError } from "../workbench/index.ts";
import type { Around } from "./homes.ts";
import { type Kept, keepDocument } from "./kept-document.ts";
import type { Library } from "./open.ts";

export function createShelfStore(library: Library, around: Pick<Around, "now">): ShelfStore {
  const kind = {
    ...({ table: "shelf", column: "shelf", called: "gear shelf", empty: STARTER_SHELF } as const),
    ...{ read: shelfOf, text: shelfText, merge: mergeShelves },
    over: (base: Shelf | undefined, there: Shelf, merged: Shelf) =>
      lostOf(base, there, merged).length === 0 ? null : there,
  };
  const document = keepDocument<Shelf>(library, kind, around);
  const given = ({ value, ...kept }: Kept<Shelf>): KeptShelf => ({
    ...kept,
    shelf: value,
    isStarter: kept.revision === 0 || kept.notice !== undefined,
  });
  return {
    load: async () => given(document.load()),
    async save(shelf, revision) {
      const sound = readShelf(shelf);
      if (sound.ok) return given(document.save(sound.shelf, revision));
      const { path, what } = sound.problems[0];
      throw new WorkError(`the shelf cannot be kept: ${path}: ${what}`, "correct that and save again");
    },
  };
}

/** The shelf in a document; null where it is none. */
export function shelfOf(document: unknown): Shelf | null {
  const read = readShelf(document);
  return read.ok ? read.shelf : null;
}

/** The same of its text. */
export function shelfIn(text: string): Shelf | null {
  try {
    return shelfOf(JSON.parse(text));
  } catch {
    return null;
  }
}
