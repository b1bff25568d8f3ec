/** How often anybody may try a code: each address by itself, and all of them together. */

/** Of all addresses together. */
export const MOST_TRIES = 30;
const WINDOW_MS = 60_000;
const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 60_000;
/** More do not share a studio's network; the one that was heard of longest ago is forgotten. */
const MOST_ADDRESSES = 1000;

export class PairingLimits {
  readonly #elapsed_ms: () => number;
  #tries: number[] = [];
  readonly #wrong = new Map<string, { count: number; until_ms: number }>();

  constructor(elapsed_ms: () => number) {
    this.#elapsed_ms = elapsed_ms;
  }

  /** 0 where it may try now */
  wait_ms(address: string): number {
    const now = this.#elapsed_ms();
    this.#tries = this.#tries.filter((at) => now - at < WINDOW_MS);
    const all = this.#tries.length < MOST_TRIES ? 0 : this.#tries[0] + WINDOW_MS - now;
    return Math.max(0, all, (this.#wrong.get(address)?.until_ms ?? 0) - now);
  }

  /** After each try that was let through. Wrong ones double the wait. */
  tried(address: string, isRight: boolean): void {
    const now = this.#elapsed_ms();
    this.#tries.push(now);
    const count = (this.#wrong.get(address)?.count ?? 0) + 1;
    this.#wrong.delete(address);
    if (isRight) return;
    const wait = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (count - 1));
    this.#wrong.set(address, { count, until_ms: now + wait });
    const [oldest] = this.#wrong.keys();
    if (this.#wrong.size > MOST_ADDRESSES && oldest !== undefined) this.#wrong.delete(oldest);
  }
}
