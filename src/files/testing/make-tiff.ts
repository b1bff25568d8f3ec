/** TIFF-structured files for tests: directories with values, sub-directories and blobs, little-endian. */

export type TagValue =
  | { readonly kind: "short" | "long"; readonly values: readonly number[] }
  | { readonly kind: "rational"; readonly values: readonly (readonly [number, number])[] }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "directory"; readonly tags: Tags }
  /** where its bytes lie, as a long */
  | { readonly kind: "place"; readonly bytes: Uint8Array }
  /** its bytes as they are */
  | { readonly kind: "bytes"; readonly bytes: Uint8Array };
export type Tags = Readonly<Record<number, TagValue>>;

export const short = (...values: number[]): TagValue => ({ kind: "short", values });
export const long = (...values: number[]): TagValue => ({ kind: "long", values });
export const rational = (...values: [number, number][]): TagValue => ({ kind: "rational", values });
export const text = (value: string): TagValue => ({ kind: "text", text: value });
export const directory = (tags: Tags): TagValue => ({ kind: "directory", tags });
export const place = (bytes: Uint8Array): TagValue => ({ kind: "place", bytes });
export const bytesOf = (bytes: Uint8Array): TagValue => ({ kind: "bytes", bytes });

export function makeTiff(tags: Tags, magic = "II*\0"): Buffer {
  const out = new Grower();
  out.put(0, Buffer.from(magic, "latin1"));
  const at = out.append(Buffer.alloc(4));
  out.long(at, writeDirectory(out, tags));
  return out.bytes();
}

class Grower {
  #data = Buffer.alloc(0);
  append(bytes: Uint8Array): number {
    const at = this.#data.length + (this.#data.length % 2);
    this.put(at, bytes);
    return at;
  }
  put(at: number, bytes: Uint8Array): void {
    const length = Math.max(this.#data.length, at + bytes.length);
    const grown = Buffer.alloc(length);
    this.#data.copy(grown);
    grown.set(bytes, at);
    this.#data = grown;
  }
  long(at: number, value: number): void {
    this.#data.writeUInt32LE(value, at);
  }
  bytes(): Buffer {
    return this.#data;
  }
}

function writeDirectory(out: Grower, tags: Tags): number {
  const entries = Object.entries(tags)
    .map(([tag, value]) => [Number(tag), value] as const)
    .sort((a, b) => a[0] - b[0]);
  const table = Buffer.alloc(2 + 12 * entries.length + 4);
  const start = out.append(table);
  table.writeUInt16LE(entries.length, 0);
  for (const [i, [tag, value]] of entries.entries()) {
    const [kind, count, bytes] = encoded(out, value);
    const at = 2 + 12 * i;
    table.writeUInt16LE(tag, at);
    table.writeUInt16LE(kind, at + 2);
    table.writeUInt32LE(count, at + 4);
    if (bytes.length <= 4) table.set(bytes, at + 8);
    else table.writeUInt32LE(out.append(bytes), at + 8);
  }
  out.put(start, table);
  return start;
}

function encoded(out: Grower, value: TagValue): [kind: number, count: number, bytes: Uint8Array] {
  const longs = (values: readonly number[]) => Buffer.from(Uint32Array.from(values).buffer);
  switch (value.kind) {
    case "short":
      return [3, value.values.length, Buffer.from(Uint16Array.from(value.values).buffer)];
    case "long":
      return [4, value.values.length, longs(value.values)];
    case "rational":
      return [5, value.values.length, longs(value.values.flat())];
    case "text":
      return [2, value.text.length + 1, Buffer.from(`${value.text}\0`, "latin1")];
    case "directory":
      return [4, 1, longs([writeDirectory(out, value.tags)])];
    case "place":
      return [4, 1, longs([out.append(value.bytes)])];
    case "bytes":
      return [7, value.bytes.length, value.bytes];
  }
}

/** An uncompressed picture of 16 bits (or 32 in floating point), one strip. */
export function deepTiff(
  width: number,
  height: number,
  levels: Uint16Array | Float32Array,
  more: Tags = {},
): Buffer {
  const channels = levels.length / (width * height);
  const isFloat = levels instanceof Float32Array;
  const each = (value: number) => short(...new Array<number>(channels).fill(value));
  const bytes = Buffer.from(levels.buffer, levels.byteOffset, levels.byteLength);
  return makeTiff({
    256: long(width),
    257: long(height),
    258: each(isFloat ? 32 : 16),
    259: short(1),
    262: short(channels === 1 ? 1 : 2),
    273: place(bytes),
    277: short(channels),
    278: long(height),
    279: long(bytes.length),
    339: each(isFloat ? 3 : 1),
    ...more,
  });
}
