/** What one page is told, at the pace at which it takes it: whoever is slow gets the newest state and nothing in between,
 * and nothing piles up here for them. */
import type { Stream } from "./devices.ts";

/** As server-sent events are written. */
export function eventOf(value: unknown): Uint8Array {
  return new TextEncoder().encode(`data: ${JSON.stringify(value)}\n\n`);
}

/** Says to both sides that the other is still there. */
const HEARTBEAT = new TextEncoder().encode(": here\n\n");
export const HEARTBEAT_MS = 15_000;
/** Who has taken nothing for so long has gone without a word. */
const GONE_MS = 30_000;
/** To take the last words. */
const FAREWELL_MS = 500;

export interface LiveStreamParts {
  readonly elapsed_ms: () => number;
  /** the page has gone, or was closed from here */
  readonly onLeft: (stream: LiveStream) => void;
  /** cuts the connection, whatever lies in it */
  readonly cut: () => void;
}

export class LiveStream implements Stream {
  readonly body: ReadableStream<Uint8Array>;
  readonly #parts: LiveStreamParts;
  #controller: ReadableStreamDefaultController<Uint8Array> | null = null;
  #isWanted = false;
  #next: Uint8Array | null = null;
  #waitsSince_ms: number | null = null;
  #isEnding = false;
  #hasLeft = false;

  constructor(parts: LiveStreamParts) {
    this.#parts = parts;
    this.body = new ReadableStream<Uint8Array>(
      {
        start: (controller) => {
          this.#controller = controller;
        },
        pull: () => {
          this.#isWanted = true;
          this.#give();
        },
        cancel: () => this.#leave(),
      },
      // nothing is taken before the connection has room for it
      { highWaterMark: 0 },
    );
  }

  /** How many messages wait here: never more than the newest one. */
  get waiting(): number {
    return this.#next === null ? 0 : 1;
  }

  send(message: Uint8Array): void {
    if (this.#isEnding || this.#hasLeft) return;
    this.#next = message;
    this.#waitsSince_ms ??= this.#parts.elapsed_ms();
    this.#give();
  }

  /** Called now and then. */
  beat(): void {
    if (this.#hasLeft) return;
    const since = this.#waitsSince_ms;
    if (since !== null && this.#parts.elapsed_ms() - since > GONE_MS) this.#cut();
    else if (this.#next === null) this.send(HEARTBEAT);
  }

  end(why: string): void {
    if (this.#isEnding || this.#hasLeft) return;
    this.send(eventOf({ kind: "ended", why }));
    this.#isEnding = true;
    this.#give();
    if (!this.#hasLeft) setTimeout(() => this.#cut(), FAREWELL_MS).unref();
  }

  #give(): void {
    if (this.#isWanted && this.#next !== null) {
      this.#isWanted = false;
      const message = this.#next;
      this.#next = this.#waitsSince_ms = null;
      this.#controller?.enqueue(message);
    }
    if (this.#isEnding && this.#next === null && !this.#hasLeft) {
      this.#controller?.close();
      this.#leave();
    }
  }

  #cut(): void {
    if (this.#hasLeft) return;
    this.#leave();
    this.#parts.cut();
  }

  #leave(): void {
    if (this.#hasLeft) return;
    this.#hasLeft = true;
    this.#parts.onLeft(this);
  }
}
