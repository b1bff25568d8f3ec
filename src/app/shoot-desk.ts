/** The desk of test frames as this page follows it: what lies there, what is on its way, which frame is looked at. */

import type { Plan } from "../plan/index.ts";
import { type DeskState, type FrameDesk, type TestFrame, WorkError } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import type { Compared } from "./shoot-compare.ts";
import { Store } from "./store.ts";

/** A file that this page handed over and that is not on the desk yet, or that was refused. */
export interface Handed {
  readonly name: string;
  /** what is wrong and what to do; null while it is read */
  readonly problem: string | null;
}

export interface ShootState {
  /** none: there is no desk behind the page; away: it did not answer the last time */
  readonly reach: "none" | "asking" | "here" | "away";
  readonly desk: DeskState;
  readonly handed: readonly Handed[];
  /** id of the frame that is kept in sight; null follows the newest */
  readonly chosen: string | null;
  /** which of several faces is looked at, by frame; the largest where nothing was chosen */
  readonly faces: Readonly<Record<string, number>>;
}

const EMPTY: DeskState = { version: -1, folder: null, folderProblem: null, frames: [], pending: [] };
/** After an answer that did not come. */
const AGAIN_MS = 2000;

export class ShootDesk {
  readonly store: Store<ShootState>;
  readonly #desk: FrameDesk | null;
  readonly #wait: (ms: number) => Promise<void>;
  #isOn = false;
  #round = 0;

  constructor(desk: FrameDesk | null, wait: (ms: number) => Promise<void>) {
    this.#desk = desk;
    this.#wait = wait;
    this.store = new Store<ShootState>({
      reach: desk === null ? "none" : "asking",
      desk: EMPTY,
      handed: [],
      chosen: null,
      faces: {},
    });
  }

  /** Follows the desk, or leaves off: a page that nobody sees asks for nothing. */
  follow(on: boolean): void {
    if (on === this.#isOn || this.#desk === null) return;
    this.#isOn = on;
    if (on) void this.#go(this.#desk, ++this.#round);
  }

  async #go(desk: FrameDesk, round: number): Promise<void> {
    while (this.#isOn && round === this.#round) {
      const { reach, desk: known } = this.store.get();
      try {
        // a server that was started anew counts from the beginning
        const next = await desk.state(reach === "here" ? known.version : -1);
        if (round === this.#round) this.#take(next);
      } catch {
        if (round !== this.#round) return;
        this.store.update({ reach: "away" });
        await this.#wait(AGAIN_MS);
      }
    }
  }

  #take(next: DeskState): void {
    const { chosen, desk } = this.store.get();
    const old = new Map(desk.frames.map((frame) => [frame.id, frame]));
    // what is as it was stays the same object, so that nothing is drawn again for it
    const frames = next.frames.map((frame) => same(old.get(frame.id), frame));
    const isThere = frames.some(({ id }) => id === chosen);
    this.store.update({ reach: "here", desk: { ...next, frames }, chosen: isThere ? chosen : null });
  }

  /** Hands files over one after the other; what is refused stays in sight with its reason. */
  async hand(
    files: readonly { readonly name: string; arrayBuffer(): Promise<ArrayBuffer> }[],
  ): Promise<void> {
    const names = new Set(files.map(({ name }) => name));
    const others = this.store.get().handed.filter(({ name }) => !names.has(name));
    this.store.update({
      chosen: null,
      handed: [...others, ...[...names].map((name) => ({ name, problem: null }))],
    });
    for (const file of files) {
      const problem = await this.#read(file);
      const rest = this.store.get().handed.filter(({ name }) => name !== file.name);
      this.store.update({ handed: problem === null ? rest : [...rest, { name: file.name, problem }] });
    }
  }

  async #read(file: { readonly name: string; arrayBuffer(): Promise<ArrayBuffer> }): Promise<string | null> {
    if (this.#desk === null) return "photographs are read by the server; start Tapemark with `tapemark open`";
    try {
      const frame = await this.#desk.read(file.name, new Uint8Array(await file.arrayBuffer()));
      this.#add(frame);
      return null;
    } catch (error) {
      if (error instanceof WorkError) return error.message;
      return "the file could not be read from this disk; choose it again";
    }
  }

  /** Seen at once; the desk's next answer puts it where it belongs. */
  #add(frame: TestFrame): void {
    const { desk } = this.store.get();
    if (desk.frames.some(({ id }) => id === frame.id)) return;
    this.store.update({ desk: { ...desk, frames: [...desk.frames, frame] } });
  }

  dismiss(name: string): void {
    this.store.update({ handed: this.store.get().handed.filter((each) => each.name !== name) });
  }

  /** Why it was refused; null where it is done. */
  async watch(folder: string | null): Promise<string | null> {
    return this.#try((desk) => desk.watch(folder));
  }

  async forget(id: string): Promise<string | null> {
    return this.#try((desk) => desk.forget(id));
  }

  async #try(act: (desk: FrameDesk) => Promise<void>): Promise<string | null> {
    if (this.#desk === null) return "there is no server behind this page";
    try {
      await act(this.#desk);
      return null;
    } catch (error) {
      if (error instanceof WorkError) return error.message;
      throw error;
    }
  }

  choose(id: string | null): void {
    this.store.update({ chosen: id });
  }

  chooseFace(id: string, face: number): void {
    this.store.update({ faces: { ...this.store.get().faces, [id]: face } });
  }
}

function same(old: TestFrame | undefined, now: TestFrame): TestFrame {
  return old !== undefined && JSON.stringify(old) === JSON.stringify(now) ? old : now;
}

/** The one that arrived last. */
export function newestOf(frames: readonly TestFrame[]): TestFrame | null {
  return frames.reduce<TestFrame | null>(
    (newest, frame) => (newest === null || frame.arrivedAt >= newest.arrivedAt ? frame : newest),
    null,
  );
}

/** The frame that is looked at. */
export function shownFrame({ chosen, desk }: ShootState): TestFrame | null {
  return desk.frames.find(({ id }) => id === chosen) ?? newestOf(desk.frames);
}

/** Who is to be compared: the chosen face of the frame in sight with a person of the plan; null where either is missing. */
export function comparedOf(plan: Plan, person: number, state: ShootState): Compared | null {
  const frame = shownFrame(state);
  if (frame === null || frame.reading.faces.length === 0 || plan.people[person] === undefined) return null;
  const chosen = state.faces[frame.id] ?? 0;
  return { plan, person, frame, face: chosen < frame.reading.faces.length ? chosen : 0 };
}

const desks = new WeakMap<object, ShootDesk>();
const later = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

/** The one desk of a bench. */
export function shootDeskOf(bench: Pick<Bench, "desk">): ShootDesk {
  let desk = desks.get(bench);
  if (desk === undefined) {
    desk = new ShootDesk(bench.desk, later);
    desks.set(bench, desk);
  }
  return desk;
}
