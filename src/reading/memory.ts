/** Keeps what has been traced, so that a change of power, colour or exposure traces nothing again.
 * One Memory belongs to one thread and one plan that is being worked on; a few versions of each thing stay. */
export class Memory {
  private readonly slots = new Map<string, { key: string; value: unknown }[]>();

  /** The value made for this key before, or a new one. */
  recall<T>(slot: string, key: string, make: () => T): T {
    let kept = this.slots.get(slot);
    if (!kept) {
      kept = [];
      this.slots.set(slot, kept);
    }
    const found = kept.findIndex((entry) => entry.key === key);
    if (found >= 0) {
      const [entry] = kept.splice(found, 1);
      kept.unshift(entry);
      return entry.value as T;
    }
    const value = make();
    kept.unshift({ key, value });
    if (kept.length > VERSIONS_KEPT) kept.pop();
    return value;
  }
}

const VERSIONS_KEPT = 3;
