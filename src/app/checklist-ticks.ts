/** What stands, ticked in this window: shared with phones and other windows through the library, and kept here alone where none
 * is behind the page, or while it does not answer. */
import type { Placed } from "../shoots/index.ts";
import { type ShootLibrary, StoreAway } from "../workbench/index.ts";
import { Store } from "./store.ts";
import { troubleOf } from "./trouble.ts";

type TickLibrary = Pick<ShootLibrary, "placed" | "place">;

export interface Ticks {
  readonly placed: readonly Placed[];
  /** these are known in this window only */
  readonly isHereAlone: boolean;
  /** why the last tick was not taken */
  readonly trouble: string | null;
}

/** A tick of this window that the library has not taken yet: the tick, or null where one is taken away. */
type Own = ReadonlyMap<string, Placed | null>;

const HERE = "this window";

export class TickDesk {
  readonly store = new Store<Ticks>({ placed: [], isHereAlone: false, trouble: null });
  readonly #library: TickLibrary | null;
  #key = "";
  #far: readonly Placed[] = [];
  #own: Own = new Map();

  constructor(library: TickLibrary | null) {
    this.#library = library;
  }

  /** What stands of a work now. What is kept here alone is handed over first. */
  async lookAt(key: string): Promise<void> {
    if (this.#key !== key) {
      this.#key = key;
      this.#far = [];
      this.#own = new Map();
    }
    await this.#handOver();
    await this.#look();
  }

  /** `setUp`: the mark of the thing as it is set up now; `at`: the time of the tick. */
  async put(thing: string, setUp: string, isPlaced: boolean, at: string): Promise<void> {
    this.#own = new Map(this.#own).set(thing, isPlaced ? { thing, by: HERE, at, setUp } : null);
    this.store.update({ trouble: null });
    this.#show(false);
    await this.#handOver();
    await this.#look();
  }

  async #handOver(): Promise<void> {
    if (this.#library === null || this.#key === "") return this.#show(this.#own.size > 0);
    const key = this.#key;
    for (const [thing, tick] of this.#own) {
      try {
        await this.#library.place(key, thing, tick !== null, HERE);
      } catch (error) {
        if (this.#key !== key) return;
        if (error instanceof StoreAway) return this.#show(true);
        this.store.update({ trouble: troubleOf(error) });
      }
      if (this.#key !== key) return;
      // another tick of the same thing may have come meanwhile, and is handed over next
      if (this.#own.get(thing) === tick) this.#own = without(this.#own, thing);
    }
  }

  async #look(): Promise<void> {
    if (this.#library === null || this.#key === "") return;
    const key = this.#key;
    const far = await this.#library.placed(key).catch(() => null);
    if (far === null || this.#key !== key) return;
    this.#far = far;
    this.#show(this.#own.size > 0);
  }

  #show(isHereAlone: boolean): void {
    const far = this.#far.filter(({ thing }) => !this.#own.has(thing));
    const own = [...this.#own.values()].filter((tick) => tick !== null);
    this.store.update({ placed: [...far, ...own], isHereAlone });
  }
}

function without(own: Own, thing: string): Own {
  return new Map([...own].filter(([each]) => each !== thing));
}

const desks = new WeakMap<object, TickDesk>();

/** The one that all screens of a bench share. */
export function tickDeskOf(bench: { readonly library: TickLibrary | null }): TickDesk {
  let desk = desks.get(bench);
  if (desk === undefined) {
    desk = new TickDesk(bench.library);
    desks.set(bench, desk);
  }
  return desk;
}
