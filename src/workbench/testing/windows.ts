/** Windows of one work for tests: what is sent between them and to the server arrives when the test says so. */
import {
  Courier,
  createMemoryShelf,
  createMemoryStore,
  createNearStore,
  createSession,
  type FarStore,
  type SavedWork,
  type Session,
  type Shelf,
  StoreAway,
} from "../index.ts";

const never = () => Promise.reject(new Error("not asked for here"));

export type Run = () => unknown;

/** What has been sent and has not arrived. The test says what arrives when. */
export class World {
  readonly messages: { readonly to: Seat; readonly arrive: Run }[] = [];
  readonly requests: Run[] = [];
  readonly seats: Seat[] = [];
  readonly kept = createMemoryStore();
  isAway = false;
  isGated = true;

  constructor(readonly now: () => Date) {}

  readonly far: FarStore = {
    ping: () => this.#ask(async () => undefined),
    load: (key) => this.#ask(() => this.kept.load(key)),
    glance: never,
    list: () => this.#ask(() => this.kept.list()),
    save: (key, work) =>
      this.#ask(async () => {
        await this.kept.save(key, work);
        for (const seat of this.seats) {
          this.messages.push({ to: seat, arrive: () => seat.courier.heard(key, work.revision, work.by) });
        }
      }),
  };

  /** A request arrives when the test says so. */
  #ask<T>(act: () => Promise<T>): Promise<T> {
    const answer = () => (this.isAway ? Promise.reject(new StoreAway()) : act());
    if (!this.isGated) return answer();
    return new Promise((resolve, reject) => {
      this.requests.push(() => answer().then(resolve, reject));
    });
  }
}

/** A store on a disk takes a while, and not always the same: what overlaps there differs from run to run. */
export function slowShelf(pick: () => number): Shelf {
  const shelf = createMemoryShelf();
  const wait = async () => {
    for (let i = pick() % 7; i > 0; i--) await Promise.resolve();
  };
  return {
    get: (key) => wait().then(() => shelf.get(key)),
    all: () => wait().then(() => shelf.all()),
    change: (key, to) => wait().then(() => shelf.change(key, to)),
  };
}

/** One window: what it has on the table, and what carries it. */
export class Seat {
  readonly courier: Courier;
  readonly session: Session;
  readonly timers: Run[] = [];

  constructor(
    world: World,
    shelf: Shelf,
    readonly self: string,
  ) {
    const scheduler = {
      after: (_: number, run: Run) => {
        this.timers.push(run);
        return () => {
          const at = this.timers.indexOf(run);
          if (at >= 0) this.timers.splice(at, 1);
        };
      },
    };
    this.courier = new Courier({
      near: createNearStore(shelf, world.now),
      far: world.far,
      scheduler,
      self,
      meet: (key: string, theirs: SavedWork, base: unknown) => this.session.meet(key, theirs, base),
      see: (key: string, kept: SavedWork) => this.session.see(key, kept),
      tell: (key: string) => {
        for (const seat of world.seats) {
          if (seat === this || seat.self !== self) continue;
          world.messages.push({ to: seat, arrive: () => seat.courier.told(key) });
        }
      },
    });
    this.session = createSession({
      computer: { read: never, frame: never, map: never },
      store: this.courier,
      scheduler,
    });
    world.seats.push(this);
  }
}

/** Lets everything go on that waits for nothing. */
export async function calm(): Promise<void> {
  for (let i = 0; i < 120; i++) await Promise.resolve();
}

/** Everything arrives; what timers put off happens. */
export async function arrive(world: World): Promise<void> {
  for (let round = 0; round < 60; round++) {
    await calm();
    const due = [
      ...world.requests.splice(0),
      ...world.messages.splice(0).map((message) => message.arrive),
      ...world.seats.flatMap((seat) => seat.timers.splice(0)),
    ];
    if (due.length === 0) return;
    for (const run of due) void run();
  }
  throw new Error("it never came to rest");
}
