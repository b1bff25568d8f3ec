/** Whether a file ends as its kind must: one that is still being written does not. */
import { type FileHandle, open } from "node:fs/promises";

/** "cannot tell": its kind has no end of its own, as a TIFF or most raw files */
export type Ending = "whole" | "unfinished" | "cannot tell";

export async function endingOf(path: string): Promise<Ending> {
  const file = await open(path, "r");
  try {
    const { size } = await file.stat();
    const head = await piece(file, 0, 12);
    if (head.length < 12) return "unfinished";
    // room that was set aside and not yet filled
    if (head.every((byte) => byte === 0)) return "unfinished";
    if (head.readUInt16BE(0) === 0xffd8) return told(await endsAsJpeg(file, size));
    if (head.readUInt32BE(0) === 0x89504e47)
      return told((await piece(file, size - 8, 4)).toString("latin1") === "IEND");
    if (head.toString("latin1", 0, 4) === "RIFF") return told(head.readUInt32LE(4) + 8 <= size);
    if (head.toString("latin1", 4, 8) === "ftyp") return told(await boxesFill(file, size));
    return "cannot tell";
  } finally {
    await file.close();
  }
}

const told = (isWhole: boolean): Ending => (isWhole ? "whole" : "unfinished");

async function piece(file: FileHandle, from: number, length: number): Promise<Buffer> {
  const buffer = Buffer.alloc(length);
  const { bytesRead } = await file.read(buffer, 0, length, Math.max(0, from));
  return buffer.subarray(0, bytesRead);
}

/** The end marker comes last, or somewhere behind the picture where a camera adds something of its own. Segments are passed
 * over by their lengths: a small picture inside one of them has an end too. */
async function endsAsJpeg(file: FileHandle, size: number): Promise<boolean> {
  let at = 2;
  for (let isScan = false; !isScan; ) {
    const head = await piece(file, at, 4);
    if (head.length < 4 || head[0] !== 0xff) return false;
    isScan = head[1] === 0xda;
    at += 2 + head.readUInt16BE(2);
  }
  if (at + 2 > size) return false;
  // within a scan these two bytes stand for nothing else
  if ((await piece(file, size - 2, 2)).readUInt16BE(0) === 0xffd9) return true;
  const rest = await piece(file, at, size - at);
  for (let i = 0; i + 1 < rest.length; i++) if (rest[i] === 0xff && rest[i + 1] === 0xd9) return true;
  return false;
}

/** A chain of boxes, each with its length, that reaches the end exactly. */
async function boxesFill(file: FileHandle, size: number): Promise<boolean> {
  let at = 0;
  for (let count = 0; at < size && count < 1000; count++) {
    const head = await piece(file, at, 16);
    if (head.length < 8) return false;
    const short = head.readUInt32BE(0);
    // 0: up to the end, wherever that is; 1: the length is written behind
    if (short === 0) return true;
    const length = short === 1 && head.length === 16 ? Number(head.readBigUInt64BE(8)) : short;
    if (length < 8) return false;
    at += length;
  }
  return at === size;
}
