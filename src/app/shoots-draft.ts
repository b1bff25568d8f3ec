/** What is written about a shoot, kept by itself as it is typed, and what to do where another window wrote there too. */
import type { Shoot, ShootFields } from "../shoots/index.ts";
import { SaveConflict, type Scheduler, type ShootLibrary } from "../workbench/index.ts";
import { Store } from "./store.ts";
import { troubleOf } from "./trouble.ts";

export type FieldName = keyof ShootFields;

export interface DraftState {
  /** as the library last had it */
  readonly kept: Shoot;
  /** what is written here and not kept yet */
  readonly typed: Partial<ShootFields>;
  readonly state: "kept" | "waiting" | "keeping";
  /** why it is not kept, with its cure */
  readonly trouble: string | null;
  /** the same fields written elsewhere meanwhile, as they stand there; null where nobody has to be asked */
  readonly clash: Partial<ShootFields> | null;
}

/** After the last key. */
const STILL_MS = 500;
/** Another window that writes as fast as this one is met a few times before this one gives up for now. */
const MOST_MEETINGS = 5;

export class ShootDraft {
  readonly store: Store<DraftState>;
  readonly #library: Pick<ShootLibrary, "change" | "whole">;
  readonly #scheduler: Scheduler;
  #takeBack: (() => void) | null = null;
  #saving: Promise<void> | null = null;

  constructor(library: Pick<ShootLibrary, "change" | "whole">, scheduler: Scheduler, kept: Shoot) {
    this.#library = library;
    this.#scheduler = scheduler;
    this.store = new Store<DraftState>({ kept, typed: {}, state: "kept", trouble: null, clash: null });
  }

  /** The shoot as it stands on screen. */
  fields(): Shoot {
    const { kept, typed } = this.store.get();
    return { ...kept, ...typed };
  }

  put(fields: Partial<ShootFields>): void {
    const { kept, typed } = this.store.get();
    const next = { ...typed, ...fields };
    // what is on its way may be kept before this is: then the old words are a change of their own
    this.store.update({ typed: this.#saving === null ? unlike(next, kept) : next, state: "waiting" });
    this.#takeBack?.();
    this.#takeBack = this.#scheduler.after(STILL_MS, () => void this.flush());
  }

  /** Keeps now what still waits. */
  async flush(): Promise<void> {
    this.#takeBack?.();
    this.#takeBack = null;
    // what was typed while the last was on its way is a question of its own
    while (this.#saving !== null) await this.#saving;
    this.#saving = this.#save().finally(() => {
      this.#saving = null;
    });
    await this.#saving;
  }

  async #save(): Promise<void> {
    for (let meetings = 0; meetings < MOST_MEETINGS; meetings++) {
      const { clash, kept, typed } = this.store.get();
      if (clash !== null) return;
      if (Object.keys(typed).length === 0) return this.store.update({ state: "kept", trouble: null });
      this.store.update({ state: "keeping" });
      try {
        const next = await this.#library.change(kept.id, kept.revision, typed);
        this.#take(next);
        return;
      } catch (error) {
        if (!(error instanceof SaveConflict)) return this.#fail(error);
        try {
          this.meet((await this.#library.whole(kept.id)).shoot);
        } catch (away) {
          return this.#fail(away);
        }
      }
    }
    this.#fail(new SaveConflict(this.store.get().kept.id));
  }

  #take(kept: Shoot): void {
    const typed = unlike(this.store.get().typed, kept);
    const isDone = Object.keys(typed).length === 0;
    this.store.update({ kept, typed, state: isDone ? "kept" : "waiting", trouble: null });
  }

  #fail(error: unknown): void {
    this.store.update({ state: "waiting", trouble: troubleOf(error) });
  }

  /** The shoot as somebody else left it. Other fields join; what both wrote, differently, is asked about. */
  meet(theirs: Shoot): void {
    const { clash, kept, typed } = this.store.get();
    if (theirs.revision <= kept.revision) return;
    const both = namesOf(typed).filter((name) => name in (clash ?? {}) || theirs[name] !== kept[name]);
    const asked = both.filter((name) => theirs[name] !== typed[name]);
    this.store.update({
      kept: theirs,
      typed: unlike(typed, theirs),
      clash: asked.length === 0 ? null : Object.fromEntries(asked.map((name) => [name, theirs[name]])),
    });
  }

  async keepMine(): Promise<void> {
    this.store.update({ clash: null });
    await this.flush();
  }

  async takeTheirs(): Promise<void> {
    const { clash, typed } = this.store.get();
    const left = namesOf(typed).filter((name) => !(name in (clash ?? {})));
    this.store.update({ clash: null, typed: Object.fromEntries(left.map((name) => [name, typed[name]])) });
    await this.flush();
  }
}

function namesOf(fields: Partial<ShootFields>): FieldName[] {
  return Object.keys(fields) as FieldName[];
}

/** Those that the library does not have like this. */
function unlike(fields: Partial<ShootFields>, kept: Shoot): Partial<ShootFields> {
  const names = namesOf(fields).filter((name) => fields[name] !== kept[name]);
  return Object.fromEntries(names.map((name) => [name, fields[name]]));
}

const drafts = new WeakMap<object, Map<string, ShootDraft>>();

/** The draft of a shoot: whoever leaves the page while something is not kept yet finds it as it was typed. */
export function draftOf(
  library: Pick<ShootLibrary, "change" | "whole">,
  scheduler: Scheduler,
  kept: Shoot,
): ShootDraft {
  const known = drafts.get(library) ?? new Map<string, ShootDraft>();
  drafts.set(library, known);
  let draft = known.get(kept.id);
  if (draft === undefined) {
    draft = new ShootDraft(library, scheduler, kept);
    known.set(kept.id, draft);
  }
  return draft;
}
