/** The shelf on screen: changed at once, kept by itself, every step taken back on request. */
import { lostOf, mergeShelves, readShelf, type Shelf, type ShelfLoss, withTheirs } from "../gear/index.ts";
import { isSameData } from "../plan/index.ts";
import { type KeptShelf, type ShelfStore, WorkError } from "../workbench/index.ts";
import { type Bench, refusal } from "./bench.ts";
import { withValue } from "./find-brief.ts";
import type { PutBrief } from "./find-part.tsx";
import { browserShelf, onOtherWindow } from "./gear-near.ts";
import { Store } from "./store.ts";

/** What a step changed; taken back, only that is. */
interface Step {
  readonly label: string;
  readonly before: Shelf;
  readonly after: Shelf;
}

export interface ShelfState {
  /** null until it is there */
  readonly shelf: Shelf | null;
  /** nothing was ever changed of the one that everybody begins with */
  readonly isStarter: boolean;
  readonly undone: readonly Step[];
  readonly done: readonly Step[];
  readonly isKeeping: boolean;
  /** why it did not come or is not kept, with the cure */
  readonly trouble: string | null;
  /** what another window changed too: this one's stands there, until somebody says otherwise */
  readonly apart: readonly ShelfLoss[];
  /** what became of a shelf that could not be read */
  readonly notice: string | null;
}

const NOTHING_YET: ShelfState = {
  shelf: null,
  isStarter: false,
  undone: [],
  done: [],
  isKeeping: false,
  trouble: null,
  apart: [],
  notice: null,
};
const NOT_YET = "The shelf is not there yet.";
const MOST_STEPS = 200;

export class ShelfDesk {
  readonly store = new Store<ShelfState>(NOTHING_YET);
  readonly #keeper: ShelfStore;
  #revision: number | undefined;
  /** as it was last kept */
  #kept: Shelf | null = null;
  #saving: Promise<void> | null = null;
  #saves = 0;

  constructor(keeper: ShelfStore) {
    this.#keeper = keeper;
  }

  /** Asks for it anew; what is changed here and not kept yet stays. */
  async load(): Promise<void> {
    try {
      this.#take(await this.#newest(), this.#kept);
    } catch (error) {
      return this.#tell(error);
    }
    // what could not be kept before is kept now
    await this.keep();
  }

  async #newest(): Promise<KeptShelf> {
    for (;;) {
      while (this.#saving !== null) await this.#saving;
      const saves = this.#saves;
      const kept = await this.#keeper.load();
      // what was kept while that was on its way may be newer
      if (saves === this.#saves) return kept;
    }
  }

  /** Another window has kept something, or may have. What was never asked for here is not asked for now. */
  async heard(): Promise<void> {
    if (this.store.get().shelf !== null) await this.load();
  }

  /** What another window changed too is decided: as it is here, or as the other left it, which is one step. */
  decide(loss: ShelfLoss, isTaking: boolean): void {
    const { apart, shelf } = this.store.get();
    this.store.update({ apart: apart.filter((each) => each !== loss) });
    if (isTaking && shelf !== null) this.change(`${loss.name} as elsewhere`, withTheirs(shelf, loss));
  }

  /** Puts one value of the shelf, as one step; answers why it is refused. */
  readonly putInto: PutBrief = (label, path, value) => {
    const { shelf } = this.store.get();
    return shelf === null ? NOT_YET : this.change(label, withValue(shelf, path, value));
  };

  /** Puts a whole other shelf in its place, as one step. */
  change(label: string, to: unknown): string | null {
    const { shelf, done } = this.store.get();
    if (shelf === null) return NOT_YET;
    const read = readShelf(to);
    if (!read.ok) return refusal(read);
    if (isSameData(read.shelf, shelf)) return null;
    const step = { label, before: shelf, after: read.shelf };
    this.#show(read.shelf, [...done, step].slice(-MOST_STEPS), []);
    return null;
  }

  undo(): void {
    const { done, undone } = this.store.get();
    const step = done.at(-1);
    if (step !== undefined)
      this.#show(this.#turned(step.after, step.before), done.slice(0, -1), [...undone, step]);
  }

  redo(): void {
    const { done, undone } = this.store.get();
    const step = undone.at(-1);
    if (step !== undefined)
      this.#show(this.#turned(step.before, step.after), [...done, step], undone.slice(0, -1));
  }

  /** What can be taken back, and done again; null where nothing can. */
  steps(): { readonly undo: (() => void) | null; readonly redo: (() => void) | null } {
    const { done, undone } = this.store.get();
    return {
      undo: done.length === 0 ? null : () => this.undo(),
      redo: undone.length === 0 ? null : () => this.redo(),
    };
  }

  /** Tries again to keep what is not kept. */
  async keep(): Promise<void> {
    // what was changed while the last was on its way is a question of its own
    while (this.#saving !== null) await this.#saving;
    this.#saving = this.#save().finally(() => {
      this.#saving = null;
    });
    await this.#saving;
  }

  /** What a step did, done to the shelf as it is now: others may have changed it meanwhile. */
  #turned(from: Shelf, to: Shelf): Shelf {
    const { shelf } = this.store.get();
    return shelf === null || isSameData(shelf, from) ? to : mergeShelves(from, shelf, to);
  }

  #show(shelf: Shelf, done: readonly Step[], undone: readonly Step[]): void {
    this.store.update({ shelf, done, undone, isStarter: false });
    void this.keep();
  }

  async #save(): Promise<void> {
    const { shelf } = this.store.get();
    if (shelf === null || (this.#kept !== null && isSameData(shelf, this.#kept))) {
      this.store.update({ trouble: null });
      return;
    }
    this.#saves++;
    this.store.update({ isKeeping: true });
    try {
      this.#take(await this.#keeper.save(shelf, this.#revision), shelf);
    } catch (error) {
      this.#tell(error);
    }
    this.store.update({ isKeeping: false });
  }

  /** What is kept, joined with what was changed here since `asked` was handed over. */
  #take(kept: KeptShelf, asked: Shelf | null): void {
    const { shelf } = this.store.get();
    const isOurs = shelf === null || asked === null || isSameData(shelf, asked);
    const joined = isOurs ? kept.shelf : mergeShelves(asked, kept.shelf, shelf);
    const lost = [
      ...(kept.over === undefined ? [] : lostOf(this.#kept ?? undefined, kept.over, kept.shelf)),
      ...(isOurs ? [] : lostOf(asked, kept.shelf, joined)),
    ];
    this.#kept = kept.shelf;
    this.#revision = kept.revision;
    this.store.update({
      shelf: joined,
      apart: [...this.store.get().apart.filter((old) => !lost.some((each) => isOne(each, old))), ...lost],
      isStarter: kept.isStarter,
      notice: kept.notice ?? this.store.get().notice,
      trouble: null,
    });
  }

  #tell(error: unknown): void {
    if (!(error instanceof WorkError)) throw error;
    this.store.update({ trouble: `The shelf: ${error.message}.` });
  }
}

const isOne = (one: ShelfLoss, other: ShelfLoss) => one.kind === other.kind && one.name === other.name;

const desks = new WeakMap<Bench, ShelfDesk>();

/** The one shelf of a page: on the server where there is one, else in this browser. */
export function shelfDeskOf(bench: Bench): ShelfDesk {
  const known = desks.get(bench);
  if (known !== undefined) return known;
  const desk = new ShelfDesk(bench.shelf ?? browserShelf());
  if (bench.shelf === null) onOtherWindow(() => void desk.heard());
  else
    bench.news.subscribe(({ kind }) => {
      if (kind === "shelf") void desk.heard();
    });
  desks.set(bench, desk);
  return desk;
}
