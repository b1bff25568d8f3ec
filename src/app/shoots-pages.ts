/** Rows of a long list, asked for by the hundred as they come into view. */
import { Store } from "./store.ts";
import { troubleOf } from "./trouble.ts";

export const PAGE = 100;

export interface Page<Row> {
  readonly total: number;
  readonly rows: readonly Row[];
}

export interface Paged<Row> {
  /** null until the first answer */
  readonly total: number | null;
  /** by number, from 0 */
  readonly pages: ReadonlyMap<number, readonly Row[]>;
  /** why the last question was not answered, with its cure; null where it was */
  readonly trouble: string | null;
}

/** One question at a time, and always for what is in view now: rows that were only passed are never asked for. */
export class PagedRows<Row> {
  readonly store = new Store<Paged<Row>>({ total: null, pages: new Map(), trouble: null });
  readonly #ask: (offset: number, limit: number) => Promise<Page<Row>>;
  #wanted: readonly number[] = [0];
  readonly #stale = new Set<number>();
  #asking: Promise<void> | null = null;

  constructor(ask: (offset: number, limit: number) => Promise<Page<Row>>) {
    this.#ask = ask;
  }

  /** Rows of these numbers are in view. */
  want(first: number, last: number): Promise<void> {
    const { total } = this.store.get();
    const end = total === null ? 0 : Math.max(0, Math.min(last, total - 1));
    const from = Math.floor(Math.max(0, Math.min(first, end)) / PAGE);
    const to = Math.floor(end / PAGE);
    this.#wanted = Array.from({ length: to - from + 1 }, (_, i) => from + i);
    return this.#go();
  }

  /** Something has changed: what is in view is asked for again and stays in sight until its answer is there. */
  refresh(): Promise<void> {
    for (const page of this.store.get().pages.keys()) this.#stale.add(page);
    return this.#go();
  }

  row(index: number): Row | null {
    return rowAt(this.store.get(), index);
  }

  /** A row that is known anew, wherever it stands by now. */
  put(isIt: (row: Row) => boolean, row: Row): void {
    const { pages } = this.store.get();
    for (const [number, page] of pages) {
      const index = page.findIndex(isIt);
      if (index < 0) continue;
      this.store.update({ pages: new Map(pages).set(number, page.with(index, row)) });
      return;
    }
  }

  #go(): Promise<void> {
    this.#asking ??= this.#askAll().finally(() => {
      this.#asking = null;
    });
    return this.#asking;
  }

  async #askAll(): Promise<void> {
    for (let page = this.#next(); page !== undefined; page = this.#next()) {
      this.#stale.delete(page);
      try {
        this.#take(page, await this.#ask(page * PAGE, PAGE));
      } catch (error) {
        this.#stale.add(page);
        this.store.update({ trouble: troubleOf(error) });
        return;
      }
    }
  }

  #next(): number | undefined {
    const { pages } = this.store.get();
    return this.#wanted.find((page) => !pages.has(page) || this.#stale.has(page));
  }

  #take(number: number, { rows, total }: Page<Row>): void {
    const known = this.store.get();
    const pages = new Map(known.pages).set(number, rows);
    if (known.total !== null && known.total !== total) {
      // rows have come or gone: the others may have moved
      for (const other of pages.keys()) if (other !== number) this.#stale.add(other);
      const last = Math.max(0, Math.floor((total - 1) / PAGE));
      for (const other of [...pages.keys()]) if (other > last) pages.delete(other);
      this.#wanted = this.#wanted.filter((page) => page <= last);
    }
    this.store.set({ total, pages, trouble: null });
  }
}

/** Null where it has not come yet. */
export function rowAt<Row>({ pages }: Paged<Row>, index: number): Row | null {
  return pages.get(Math.floor(index / PAGE))?.[index % PAGE] ?? null;
}

export interface InView {
  readonly first: number;
  /** the last one, or one before the first where there is none */
  readonly last: number;
}

/** Which rows are in view, with some beyond either end so that a small move shows nothing empty. */
export function rowsInView(
  list: { readonly scrollTop: number; readonly height: number },
  rowHeight: number,
  rows: number,
  beyond: number,
): InView {
  const first = Math.max(0, Math.floor(list.scrollTop / rowHeight) - beyond);
  const last = Math.min(rows - 1, Math.ceil((list.scrollTop + list.height) / rowHeight) - 1 + beyond);
  return { first: Math.min(first, Math.max(0, last)), last };
}

/** Where a list has to stand so that a row is wholly in sight, moved as little as possible. */
export function scrollFor(
  row: number,
  rowHeight: number,
  list: { readonly scrollTop: number; readonly height: number },
): number {
  const top = row * rowHeight;
  if (top < list.scrollTop) return top;
  const lowest = top + rowHeight - list.height;
  return lowest > list.scrollTop ? Math.min(lowest, top) : list.scrollTop;
}

/** Where a key leads to in a list that is read along its rows; null where it is no key of lists. */
export function keyLeads(
  key: string,
  at: number,
  list: { readonly total: number; readonly columns: number; readonly rowsOnScreen: number },
): number | null {
  const { columns, rowsOnScreen, total } = list;
  if (total === 0) return null;
  const page = Math.max(1, rowsOnScreen - 1) * columns;
  const steps: Readonly<Record<string, number>> = {
    ArrowDown: columns,
    ArrowUp: -columns,
    PageDown: page,
    PageUp: -page,
    ...(columns > 1 && { ArrowRight: 1, ArrowLeft: -1 }),
  };
  if (key === "Home") return 0;
  if (key === "End") return total - 1;
  const step = steps[key];
  if (step === undefined) return null;
  const to = at + step;
  if (to >= 0 && to < total) return to;
  // up or down out of a grid stays where it is, a page goes as far as it can
  const isStep = Math.abs(step) === columns && columns > 1;
  return isStep ? at : Math.max(0, Math.min(total - 1, to));
}
