/** The code that is typed on a device once. What it takes to guess it is worked out in docs/security.md. */
import { createHmac, randomBytes, randomInt, timingSafeEqual } from "node:crypto";

export interface PairingClock {
  readonly now: () => Date;
  /** never goes back, whatever is done to the clock */
  readonly elapsed_ms: () => number;
}

export const CODE_LIVES_MS = 5 * 60_000;
export const MOST_WRONG = 5;
const DIGITS = 6;

interface Code {
  readonly digits: string;
  readonly digest: Buffer;
  readonly madeAt_ms: number;
  readonly endsAt: Date;
  wrong: number;
}

export class PairingCode {
  #code: Code | null = null;
  readonly #clock: PairingClock;
  readonly #equal: (a: Buffer, b: Buffer) => boolean;
  /** digests of what is typed are of use to nobody who does not have it */
  readonly #key = randomBytes(32);
  /** compared with where there is no code, so that the answer takes as long */
  readonly #none = randomBytes(32);

  constructor(clock: PairingClock, equal: (a: Buffer, b: Buffer) => boolean = timingSafeEqual) {
    this.#clock = clock;
    this.#equal = equal;
  }

  /** A new one; the one before counts no more. */
  make(): void {
    const digits = String(randomInt(10 ** DIGITS)).padStart(DIGITS, "0");
    this.#code = {
      digits,
      digest: this.#digest(digits),
      madeAt_ms: this.#clock.elapsed_ms(),
      endsAt: new Date(this.#clock.now().getTime() + CODE_LIVES_MS),
      wrong: 0,
    };
  }

  forget(): void {
    this.#code = null;
  }

  /** For the person at the workbench; null once it is used, too old or guessed at too often. */
  shown(): { readonly digits: string; readonly endsAt: string } | null {
    const code = this.#living();
    return code && { digits: code.digits, endsAt: code.endsAt.toISOString() };
  }

  /** Whether it is the code: true once. Each try costs the same, whichever digit is wrong and whether there is a code. */
  enter(entered: string): boolean {
    const code = this.#living();
    const isSame = this.#equal(this.#digest(entered), code?.digest ?? this.#none);
    if (code === null) return false;
    if (isSame) this.#code = null;
    else if (++code.wrong >= MOST_WRONG) this.#code = null;
    return isSame;
  }

  /** Too old by either clock: one may be set back, the other may stand still while the machine sleeps. */
  #living(): Code | null {
    const code = this.#code;
    if (code === null) return null;
    const isOld =
      this.#clock.elapsed_ms() - code.madeAt_ms >= CODE_LIVES_MS || this.#clock.now() >= code.endsAt;
    if (isOld) this.#code = null;
    return this.#code;
  }

  #digest(text: string): Buffer {
    return createHmac("sha256", this.#key).update(text).digest();
  }
}
