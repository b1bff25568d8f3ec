/** Damage, chosen by a seed: of texts, of documents, of requests. */

export interface Chance {
  /** a whole number from 0 up to, and without, `end` */
  below(end: number): number;
  of<T>(list: readonly T[]): T;
  /** true once in so many */
  oneIn(many: number): boolean;
}

/** mulberry32: the same numbers for the same seed everywhere. */
export function createChance(seed: number): Chance {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (end: number) => Math.floor(next() * end);
  return { below, of: (list) => list[below(list.length)], oneIn: (many) => below(many) === 0 };
}

export function bytesOf(chance: Chance, length: number): Buffer {
  return Buffer.from(Array.from({ length }, () => chance.below(256)));
}

/** One to four pieces changed, taken out, put in or doubled. */
export function damagedBytes(chance: Chance, whole: Buffer): Buffer {
  let bytes = whole;
  for (let times = 1 + chance.below(4); times > 0; times--) {
    const at = chance.below(bytes.length + 1);
    const length = chance.below(chance.oneIn(4) ? 400 : 8);
    const [before, piece, after] = [
      bytes.subarray(0, at),
      bytes.subarray(at, at + length),
      bytes.subarray(at),
    ];
    const rest = after.subarray(length);
    bytes = Buffer.concat(
      chance.of([
        [before, bytesOf(chance, length), rest],
        [before, rest],
        [before, bytesOf(chance, length), after],
        [before, piece, piece, rest],
        [before, Buffer.from(chance.of(WORDS)), rest],
        ...(chance.oneIn(6) ? [[before]] : []),
      ]),
    );
  }
  return bytes;
}

const WORDS = [
  '"',
  "{",
  "}",
  "[",
  "]",
  ",",
  ":",
  "\\",
  "\\u0000",
  "null",
  "1e999",
  "-",
  "//",
  '"__proto__":',
];

type Box = Record<string, unknown>;

/** One to three places of a document hold something else, or are gone. */
export function damagedDocument(chance: Chance, text: string): string {
  const document = JSON.parse(text) as Box;
  for (let times = 1 + chance.below(3); times > 0; times--) {
    const places = placesIn(document);
    if (places.length === 0) break;
    const [holder, key] = chance.of(places);
    damage(chance, holder, key);
  }
  return JSON.stringify(document);
}

function damage(chance: Chance, holder: Box, key: string): void {
  const value = holder[key];
  if (chance.oneIn(4)) holder[key] = oddValue(chance);
  else if (typeof value === "number") holder[key] = value * chance.of([-1, 0, 1.07, 1e-9, 1e9, 1e300]);
  else if (typeof value === "string")
    holder[key] = chance.of([`${value} `, "", longer(value), value.toUpperCase()]);
  else if (Array.isArray(value)) {
    holder[key] = chance.of([
      [],
      [...value, ...value],
      value.slice(1),
      [value],
      Array(200).fill(value[0] ?? 1),
    ]);
  } else if (chance.oneIn(2)) delete holder[key];
  else if (typeof value === "object" && value !== null) {
    holder[key] = {
      ...value,
      [chance.of(["", "__proto__", "name", "constructor", "beem"])]: oddValue(chance),
    };
  } else holder[`${key}s`] = value;
}

/** Long, and no longer: a text that is struck three times would be too long for any. */
function longer(value: string): string {
  return value.length > 1e5 ? value : value.repeat(300);
}

function oddValue(chance: Chance): unknown {
  return chance.of<() => unknown>([
    () => null,
    () => true,
    () => [],
    () => ({}),
    () => "x".repeat(chance.below(100_000)),
    () => chance.of([0, -0.5, 1e-320, 1.7e308, 2 ** 53, -7]),
    () => JSON.parse(`${"[".repeat(300)}${"]".repeat(300)}`),
    () => Array.from({ length: chance.below(1000) }, (_, i) => i),
    () => chance.of(["\u0000", "\ud800", "\u202e", "../../etc/passwd", "é".repeat(50), "constructor"]),
    () => [Number.MAX_VALUE, Number.MIN_VALUE, 3],
  ])();
}

/** Every place in a document where a value stands. */
function placesIn(value: unknown): [Box, string][] {
  if (typeof value !== "object" || value === null) return [];
  const holder = value as Box;
  return Object.keys(holder).flatMap((key) => [[holder, key] as [Box, string], ...placesIn(holder[key])]);
}

/** What this thread holds: its own heap, and what lies outside of it for it. The process's whole memory is others' too: files
 * of tests run side by side in it. */
export function heldBytes(): number {
  const { arrayBuffers, external, heapUsed } = process.memoryUsage();
  return heapUsed + Math.max(external, arrayBuffers);
}
