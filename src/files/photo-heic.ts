/** HEIC to levels. The decoder runs in a thread of its own: one that hangs or fails is stopped without harm. */
import { createRequire } from "node:module";
import { Worker } from "node:worker_threads";
import type { FileHead } from "./photo-head.ts";
import { LONGEST_SECONDS, MOST_DEEP_PIXELS, notReadable } from "./photo-problem.ts";
import type { Levels } from "./photo-sharp.ts";

/** Turns and mirrors that the file asks for are made by the decoder. */
const THREAD = `
const { parentPort, workerData } = require("node:worker_threads");
const { all } = require(workerData.decoder);
(async () => {
  const [image] = await all({ buffer: workerData.bytes });
  if (image.width * image.height > workerData.mostPixels) throw new Error("its picture is larger than its header says");
  const { width, height, data } = await image.decode();
  const rgb = new Uint8Array(width * height * 3);
  for (let from = 0, to = 0; to < rgb.length; from += 4, to += 3) {
    rgb[to] = data[from];
    rgb[to + 1] = data[from + 1];
    rgb[to + 2] = data[from + 2];
  }
  parentPort.postMessage({ width, height, rgb }, [rgb.buffer]);
})().catch((error) => parentPort.postMessage({ problem: String((error && error.message) || error) }));
`;

interface Decoded {
  readonly width: number;
  readonly height: number;
  readonly rgb: Uint8Array;
}

/** Errors  WorkError: damaged, too slow */
export async function heicLevels(name: string, bytes: Uint8Array, head: FileHead): Promise<Levels> {
  const { width, height, rgb } = await decodeApart(bytes).catch((error: unknown) => {
    throw notReadable(name, error);
  });
  const notes = head.hasAlpha ? ["its transparency was left out"] : [];
  return { data: rgb, width, height, channels: 3, orientation: 1, converted: null, notes };
}

function decodeApart(bytes: Uint8Array): Promise<Decoded> {
  const decoder = createRequire(import.meta.url).resolve("heic-decode");
  const worker = new Worker(THREAD, {
    eval: true,
    workerData: { bytes, decoder, mostPixels: MOST_DEEP_PIXELS },
    resourceLimits: { maxOldGenerationSizeMb: 256 },
    // what the decoder prints of a damaged file is for its makers
    stdout: true,
    stderr: true,
  });
  return new Promise<Decoded>((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error("timeout")), LONGEST_SECONDS * 1000);
    worker.once("message", (answer: Decoded | { problem: string }) => {
      clearTimeout(timer);
      if ("problem" in answer) reject(new Error(answer.problem));
      else resolve(answer);
    });
    worker.once("error", reject);
    worker.once("exit", () => {
      clearTimeout(timer);
      reject(new Error("the decoder gave up"));
    });
  }).finally(() => worker.terminate());
}
