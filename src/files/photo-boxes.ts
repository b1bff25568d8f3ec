/** Boxes of ISO base media files, as far as raw files of that kind need them. Source: ISO/IEC 14496-12, 4.2. */

const MOST_BOXES = 500;
const UUID_BYTES = 16;

/** The Exif blocks (CMT1: camera, CMT2: exposure) that lie in a raw file of the film's kind. */
export function exifBoxes(bytes: Uint8Array): Uint8Array[] {
  const found: Uint8Array[] = [];
  for (const movie of boxes(bytes))
    if (movie.kind === "moov")
      for (const inner of boxes(movie.body))
        if (inner.kind === "uuid")
          for (const block of boxes(inner.body.subarray(UUID_BYTES)))
            if (block.kind === "CMT1" || block.kind === "CMT2") found.push(block.body);
  return found;
}

function* boxes(bytes: Uint8Array): Generator<{ kind: string; body: Uint8Array }> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  for (let at = 0, count = 0; at + 8 <= bytes.length && count < MOST_BOXES; count++) {
    const kind = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    const isLong = view.getUint32(at) === 1 && at + 16 <= bytes.length;
    const told = isLong ? Number(view.getBigUint64(at + 8)) : view.getUint32(at);
    const size = told === 0 ? bytes.length - at : told;
    const head = isLong ? 16 : 8;
    if (size < head || at + size > bytes.length) return;
    yield { kind, body: bytes.subarray(at + head, at + size) };
    at += size;
  }
}
