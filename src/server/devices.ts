/** The devices that were let in. They are held in memory only: the end of the program is the end of every token. */
import { createHash, randomBytes } from "node:crypto";

export const MOST_DEVICES = 32;
/** A phone has one page open; a reload may hold the old one for a moment. */
const MOST_STREAMS = 3;
const MOST_NAME = 40;
/** So many writes at once, then one every so often: more than a person ticks and types. */
const MOST_WRITES = 30;
const WRITE_EVERY_MS = 1000;

/** A page that is open on a device and is told of changes. */
export interface Stream {
  /** tells the page why, and closes */
  end(why: string): void;
}

export interface Device {
  readonly id: string;
  readonly name: string;
  readonly pairedAt: string;
  readonly streams: ReadonlySet<Stream>;
}

interface Held extends Device {
  readonly digest: string;
  readonly streams: Set<Stream>;
  writes: number;
  wroteAt_ms: number;
}

export interface DevicesParts {
  readonly now: () => Date;
  readonly elapsed_ms: () => number;
  /** a device came, went, began or ceased to look */
  readonly onChange: () => void;
}

export class Devices {
  readonly #parts: DevicesParts;
  /** by the digest of its token: what is looked up says nothing about what is kept */
  readonly #held = new Map<string, Held>();

  constructor(parts: DevicesParts) {
    this.#parts = parts;
  }

  get isFull(): boolean {
    return this.#held.size >= MOST_DEVICES;
  }

  get isAnyLooking(): boolean {
    return [...this.#held.values()].some(({ streams }) => streams.size > 0);
  }

  list(): readonly Device[] {
    return [...this.#held.values()];
  }

  /** The token goes to the device and is not kept. */
  pair(name: string): string {
    const token = randomBytes(32).toString("base64url");
    const digest = digestOf(token);
    this.#held.set(digest, {
      id: randomBytes(8).toString("hex"),
      name: deviceName(name),
      pairedAt: this.#parts.now().toISOString(),
      digest,
      streams: new Set(),
      writes: 0,
      wroteAt_ms: this.#parts.elapsed_ms(),
    });
    this.#parts.onChange();
    return token;
  }

  find(token: string): Device | null {
    return this.#held.get(digestOf(token)) ?? null;
  }

  /** Its pages are told and closed, and its token is worth nothing from here on. */
  revoke(id: string, why: string): void {
    const held = [...this.#held.values()].find((device) => device.id === id);
    if (held === undefined) return;
    this.#held.delete(held.digest);
    for (const stream of [...held.streams]) stream.end(why);
    this.#parts.onChange();
  }

  revokeAll(why: string): void {
    for (const { id } of this.list()) this.revoke(id, why);
  }

  /** A page of it is open. Of too many the oldest gives way. */
  looks(device: Device, stream: Stream): void {
    const held = this.#of(device);
    if (held === undefined) {
      stream.end("this device was taken off the list");
      return;
    }
    held.streams.add(stream);
    const [oldest] = held.streams;
    if (held.streams.size > MOST_STREAMS) oldest.end("the plan is open on another page of this device");
    this.#parts.onChange();
  }

  leaves(device: Device, stream: Stream): void {
    if (this.#of(device)?.streams.delete(stream)) this.#parts.onChange();
  }

  /** Whether it may write now; counted. */
  mayWrite(device: Device): boolean {
    const held = this.#of(device);
    if (held === undefined) return false;
    const now = this.#parts.elapsed_ms();
    held.writes = Math.max(0, held.writes - (now - held.wroteAt_ms) / WRITE_EVERY_MS);
    held.wroteAt_ms = now;
    if (held.writes >= MOST_WRITES) return false;
    held.writes++;
    return true;
  }

  #of({ id }: Device): Held | undefined {
    return [...this.#held.values()].find((held) => held.id === id);
  }
}

function digestOf(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}

/** A name as it may be shown and written into a plan: what is on no screen, turns the text round or piles up on one letter
 * falls away. */
export function deviceName(text: string): string {
  const plain = text
    .normalize("NFC")
    .replace(/[\p{C}\p{Zl}\p{Zp}]/gu, " ")
    .replace(/(\p{M}{2})\p{M}+/gu, "$1")
    .replace(/\s+/gu, " ")
    .trim();
  return [...plain].slice(0, MOST_NAME).join("").trim() || "a device";
}
