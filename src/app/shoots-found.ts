/** The list of shoots as somebody left it: what it is narrowed by, what is in hand, where it stands. */
import type { ShootChoices, ShootQuery, ShootRow } from "../shoots/index.ts";
import type { ShootLibrary } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { type Paged, PagedRows, rowAt } from "./shoots-pages.ts";
import { Store } from "./store.ts";

/** What narrows the list; paging is the list's own. */
export type Narrowing = Omit<ShootQuery, "offset" | "limit">;

export interface Found extends Paged<ShootRow> {
  readonly narrowing: Narrowing;
  /** what `pages` was found by: the last answer stays in sight until the next one is there */
  readonly foundBy: Narrowing;
  readonly choices: ShootChoices;
  /** the row in hand */
  readonly at: number;
}

const NO_CHOICES: ShootChoices = { patterns: [], lights: [], rooms: [] };

export class FoundShoots {
  readonly store: Store<Found>;
  scrollTop = 0;
  /** somebody went from it to a shoot: the list has the keys again when they come back */
  isLeft = false;
  readonly #library: Pick<ShootLibrary, "find" | "choices">;
  #rows: PagedRows<ShootRow>;

  constructor(library: Pick<ShootLibrary, "find" | "choices">) {
    this.#library = library;
    const nothing = { total: null, pages: new Map(), trouble: null };
    this.store = new Store<Found>({ ...nothing, narrowing: {}, foundBy: {}, choices: NO_CHOICES, at: 0 });
    this.#rows = this.#asked({});
  }

  #asked(narrowing: Narrowing): PagedRows<ShootRow> {
    const rows = new PagedRows<ShootRow>((offset, limit) =>
      this.#library.find({ ...narrowing, offset, limit }),
    );
    rows.store.subscribe(() => {
      if (rows !== this.#rows) return;
      const { pages, total, trouble } = rows.store.get();
      // of a question that was not answered only that is shown
      if (total === null) this.store.update({ trouble });
      else this.store.update({ pages, total, trouble, foundBy: narrowing });
    });
    return rows;
  }

  row(index: number): ShootRow | null {
    return rowAt(this.store.get(), index);
  }

  narrow(change: Partial<Narrowing>): Promise<void> {
    return this.#ask({ ...this.store.get().narrowing, ...change });
  }

  clear(): Promise<void> {
    return this.#ask({});
  }

  #ask(narrowing: Narrowing): Promise<void> {
    this.scrollTop = 0;
    this.store.update({ narrowing, at: 0 });
    this.#rows = this.#asked(narrowing);
    return this.#rows.want(0, 0);
  }

  take(at: number): void {
    this.store.update({ at });
  }

  want(first: number, last: number): Promise<void> {
    return this.#rows.want(first, last);
  }

  /** Others have changed something, or somebody is back. */
  async refresh(): Promise<void> {
    const asked = this.store.get().total === null ? this.#rows.want(0, 0) : this.#rows.refresh();
    const choices = this.#library.choices().then(
      (known) => this.store.update({ choices: known }),
      // the list says what is wrong
      () => undefined,
    );
    await Promise.all([asked, choices]);
  }
}

const founds = new WeakMap<object, FoundShoots>();

/** The one search of a library. */
export function foundIn(library: NonNullable<Bench["library"]>): FoundShoots {
  let found = founds.get(library);
  if (found === undefined) {
    found = new FoundShoots(library);
    founds.set(library, found);
  }
  return found;
}
