/** A reader for tests of what stands around it: knows name and size, and says of text that it is no photograph. */

import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import type { PhotoReading } from "../../testframe/index.ts";
import { NO_EXIF } from "../../testframe/testing/no-exif.ts";
import { WorkError } from "../../workbench/index.ts";
import type { PhotoReader, PhotoSource } from "../reader.ts";

export const NO_GEAR = { load: async () => ({ bodies: {}, lights: {} }) };

/** `takenAt` stands in the bytes, after "at "; "bad" in them is not read. */
export function plainReader(pause_ms = 0): PhotoReader & { readonly names: string[] } {
  const names: string[] = [];
  return {
    names,
    async read(source: PhotoSource) {
      const bytes = "bytes" in source ? Buffer.from(source.bytes) : readFileSync(source.path);
      await new Promise((resolve) => setTimeout(resolve, pause_ms));
      const text = bytes.toString("latin1");
      if (text.includes("bad")) throw new WorkError(`${source.name} is no photograph`, "hand over a JPEG");
      names.push(source.name);
      const id = createHash("sha256").update(source.name).update(bytes).digest("hex").slice(0, 16);
      const reading = readingOf(source.name, /at (\S+)/.exec(text)?.[1] ?? null);
      return { id, reading, preview: bytes, thumbnail: bytes.subarray(0, 8) };
    },
    picture: async (source) => ("bytes" in source ? source.bytes : readFileSync(source.path)),
    readCard: () => Promise.reject(new Error("no card here")),
    stop: async () => {},
  };
}

export function readingOf(name: string, takenAt: string | null): PhotoReading {
  const shares = { red: 0, green: 0, blue: 0, any: 0 };
  return {
    image: {
      name,
      kind: "jpeg",
      width: 60,
      height: 40,
      colour: { profile: "sRGB", isAssumed: true, bits: 8, isGrey: false },
      clipped: shares,
      near: shares,
      headroomStops: { red: 1, green: 1, blue: 1 },
      histogram: [1],
      exif: { ...NO_EXIF, takenAt },
      response: null,
      band: null,
    },
    faces: [],
    warnings: [],
  };
}
