/** PNG files for tests, chunk by chunk: RGB of 8 bits or grey of 16. */
import { crc32, deflateSync } from "node:zlib";

export interface MadePng {
  readonly width: number;
  readonly height: number;
  readonly levels: Uint8Array | Uint16Array;
  /** between the header and the picture */
  readonly chunks?: readonly (readonly [kind: string, body: Uint8Array])[];
}

export function makePng({ width, height, levels, chunks = [] }: MadePng): Buffer {
  const isDeep = levels instanceof Uint16Array;
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([isDeep ? 16 : 8, isDeep ? 0 : 2, 0, 0, 0], 8);
  const bytes = Buffer.from(levels.buffer.slice(levels.byteOffset, levels.byteOffset + levels.byteLength));
  if (isDeep) bytes.swap16();
  const stride = bytes.length / height;
  const rows = Buffer.alloc((stride + 1) * height);
  for (let y = 0; y < height; y++) bytes.copy(rows, y * (stride + 1) + 1, y * stride, (y + 1) * stride);
  return pngOf([["IHDR", head], ...chunks, ["IDAT", deflateSync(rows)], ["IEND", Buffer.alloc(0)]]);
}

export function pngOf(chunks: readonly (readonly [kind: string, body: Uint8Array])[]): Buffer {
  const parts = chunks.map(([kind, body]) => {
    const named = Buffer.concat([Buffer.from(kind, "latin1"), body]);
    const ends = Buffer.alloc(8);
    ends.writeUInt32BE(body.length, 0);
    ends.writeUInt32BE(crc32(named), 4);
    return Buffer.concat([ends.subarray(0, 4), named, ends.subarray(4)]);
  });
  return Buffer.concat([Buffer.from("\x89PNG\r\n\x1a\n", "latin1"), ...parts]);
}
