/** A shelf in this browser, where no server keeps one. */
import { lostOf, mergeShelves, readShelf, type Shelf, STARTER_SHELF, shelfText } from "../gear/index.ts";
import { type KeptShelf, type ShelfStore, WorkError } from "../workbench/index.ts";

const PLACE = "tapemark.shelf";
/** Where one that cannot be read is put aside. */
const UNREAD = "tapemark.shelf.unread";

/** Windows of one browser see each other's at once: what was handed to this one last is what its changes are told apart by.
 * Errors  rejects with a WorkError where the browser keeps nothing */
export function browserShelf(storage: () => Storage = () => localStorage): ShelfStore {
  let base: Shelf | undefined;
  const handed = (kept: KeptShelf): KeptShelf => {
    base = kept.shelf;
    return kept;
  };
  return {
    async load() {
      return handed(keptIn(storage));
    },
    async save(shelf) {
      const { isStarter, shelf: there } = keptIn(storage);
      const whole = isStarter ? shelf : mergeShelves(base, there, shelf);
      const isOver = !isStarter && lostOf(base, there, whole).length > 0;
      try {
        storage().setItem(PLACE, shelfText(whole));
      } catch {
        throw new WorkError(
          "this browser refuses to keep it",
          "let it keep data of this page, or start the program with tapemark open",
        );
      }
      return handed({ shelf: whole, isStarter: false, ...(isOver && { over: there }) });
    },
  };
}

/** Calls when another window of this browser has kept a shelf. */
export function onOtherWindow(act: () => void): void {
  addEventListener("storage", ({ key }) => {
    if (key === PLACE) act();
  });
}

function keptIn(storage: () => Storage): KeptShelf {
  const starter = { shelf: STARTER_SHELF, isStarter: true };
  let text: string | null;
  try {
    text = storage().getItem(PLACE);
  } catch {
    return starter;
  }
  if (text === null) return starter;
  const read = readShelf(parsed(text));
  if (read.ok) return { shelf: read.shelf, isStarter: false };
  try {
    storage().setItem(UNREAD, text);
  } catch {
    // it stays where it is until something is changed
  }
  return {
    ...starter,
    notice: `The shelf that this browser kept could not be read. It lies there still, as ${UNREAD}; this is the one to begin with.`,
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
