/** A frame of 24 megapixels, from the file to what is told of it, and as a watched folder brings it. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { openFaceNets } from "../src/files/face-models.ts";
import { createDesk, decodePhotograph } from "../src/files/index.ts";
import { createPhotoWork } from "../src/files/reader-work.ts";
import { Pcg32 } from "../src/math/index.ts";
import { checkPlan } from "../src/plan/index.ts";
import { developFrame, Memory, renderFrame } from "../src/reading/index.ts";
import { type FaceFinder, makeFaceFinder, readPhotograph } from "../src/testframe/index.ts";
import type { Row } from "./work.ts";

const [WIDTH, HEIGHT] = [4000, 6000];
/** One after the other, as a photographer presses. */
const EVERY_MS = 3000;

export function photoRows(demoText: unknown): Row[] {
  let made: Promise<Buffer> | null = null;
  const file = () => {
    made ??= frameFile(demoText);
    return made;
  };
  return [
    {
      name: "a 24-megapixel JPEG read, its model loaded",
      against: "of it outside the landmark model",
      asked: 6000,
      askedOther: 1500,
      runs: 3,
      once: async (c) => {
        const bytes = await file();
        const start = c();
        const finder = timed(makeFaceFinder(await openFaceNets(process.cwd())), c);
        const loaded = c();
        const reading = await readPhotograph(await decodePhotograph("frame.jpg", bytes), finder);
        if (reading.faces.length !== 1) throw new Error(`${reading.faces.length} faces were read`);
        return { ours: c() - start, other: c() - loaded - finder.spent() };
      },
    },
    {
      name: "the same in a watched folder, until it is on the desk",
      against: "frames come every",
      asked: EVERY_MS,
      runs: 3,
      once: async (c) => ({ ours: await onTheDesk(await file(), c), other: EVERY_MS }),
    },
  ];
}

function timed(finder: FaceFinder, clock: () => number): FaceFinder & { spent(): number } {
  let spent = 0;
  return {
    spent: () => spent,
    async find(picture) {
      const start = clock();
      try {
        return await finder.find(picture);
      } finally {
        spent += clock() - start;
      }
    },
  };
}

/** The second of two frames: the model is there by then, as it is in a session. */
async function onTheDesk(bytes: Buffer, clock: () => number): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), "tapemark-bench-"));
  const desk = createDesk({
    reader: { ...createPhotoWork(process.cwd()), stop: async () => {} },
    gear: { load: async () => ({ bodies: {}, lights: {} }) },
    now: () => new Date(),
  });
  const frames = async (count: number) => {
    for (let state = await desk.state(0); state.frames.length < count; )
      state = await desk.state(state.version);
  };
  try {
    await desk.watch(folder);
    writeFileSync(join(folder, "1.jpg"), bytes);
    await frames(1);
    const start = clock();
    writeFileSync(join(folder, "2.jpg"), bytes);
    await frames(2);
    return clock() - start;
  } finally {
    await desk.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The demo's frame enlarged, with a grain that no codec can make light of. */
async function frameFile(demoText: unknown): Promise<Buffer> {
  const checked = checkPlan(demoText);
  if (!checked.ok) throw new Error(checked.problems[0].what);
  const frame = renderFrame(checked.plan, { width: 240, quality: "coarse" }, new Memory());
  const { rgba, width, height } = developFrame(frame, checked.plan.camera);
  const random = new Pcg32(24);
  const side = 512;
  const grain = Buffer.alloc(3 * side * side);
  for (let i = 0; i < grain.length; i++) grain[i] = 112 + Math.floor(32 * random.next());
  const tile = { input: grain, raw: { width: side, height: side, channels: 3 as const }, tile: true };
  return sharp(Buffer.from(rgba.buffer), { raw: { width, height, channels: 4 } })
    .removeAlpha()
    .resize(WIDTH, HEIGHT, { kernel: "cubic" })
    .composite([{ ...tile, blend: "soft-light" }])
    .jpeg({ quality: 92 })
    .toBuffer();
}
