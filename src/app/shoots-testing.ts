/** A library for tests that keeps one shoot in memory, with the same manners as the real one. */
import type { Shoot, ShootFields } from "../shoots/index.ts";
import { SaveConflict, type Scheduler, StoreAway } from "../workbench/index.ts";

export const SHOOT: Shoot = {
  id: "s1",
  title: "Cellist, season poster",
  date: "2026-11-26",
  place: "Mill Hall",
  client: "Anna Lind",
  notes: "",
  isPutAway: false,
  createdAt: "2026-11-20T10:00:00.000Z",
  changedAt: "2026-11-20T10:00:00.000Z",
  revision: 1,
};

/** One shoot that several windows write to. */
export class OneShoot {
  shoot: Shoot = SHOOT;
  isAway = false;
  readonly changes: Partial<ShootFields>[] = [];

  async change(id: string, revision: number, fields: Partial<ShootFields>): Promise<Shoot> {
    if (this.isAway) throw new StoreAway();
    if (revision !== this.shoot.revision) throw new SaveConflict(id);
    this.changes.push(fields);
    this.shoot = { ...this.shoot, ...fields, revision: revision + 1 };
    return this.shoot;
  }

  async whole() {
    if (this.isAway) throw new StoreAway();
    return { shoot: this.shoot, plans: [], frames: 0 };
  }
}

/** Time that passes when it is told to. */
export class HandClock implements Scheduler {
  readonly #waiting = new Set<() => void>();

  after(_: number, run: () => void): () => void {
    this.#waiting.add(run);
    return () => this.#waiting.delete(run);
  }

  get many(): number {
    return this.#waiting.size;
  }

  pass(): void {
    for (const run of [...this.#waiting]) {
      this.#waiting.delete(run);
      run();
    }
  }
}
