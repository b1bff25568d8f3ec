import { describe, expect, it } from "vitest";
import { Stopped } from "../reading/index.ts";
import { DeskFrames, MOST_FRAMES } from "./desk-frames.ts";
import { MemoryShelf } from "./desk-shelf.ts";
import { createDesk } from "./index.ts";
import { NO_GEAR, plainReader, readingOf } from "./testing/plain-reader.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const newDesk = (patience_ms?: number) =>
  createDesk({
    reader: plainReader(),
    gear: NO_GEAR,
    now: () => new Date("2026-11-26T12:00:00Z"),
    ...(patience_ms === undefined ? {} : { patience_ms }),
  });

describe("[DK1] the order in which they were taken", () => {
  it("by the camera's clock, then as people count; without a time when they came", async () => {
    const desk = newDesk();
    for (const [name, takenAt] of [
      ["IMG_10.jpg", "2026-11-26T10:00:00"],
      ["late.jpg", "2026-11-26T10:00:00.5"],
      ["IMG_9.jpg", "2026-11-26T10:00:00"],
      ["early.jpg", "2025-01-01T00:00:00"],
    ])
      await desk.read(name, bytes(`at ${takenAt} `));
    await desk.read("now.png", bytes("no time"));
    const { frames } = await desk.state(0);
    expect(frames.map(({ name }) => name)).toEqual([
      "early.jpg",
      "IMG_9.jpg",
      "IMG_10.jpg",
      "late.jpg",
      "now.png",
    ]);
  });
});

describe("[DK2] so many frames, each once", () => {
  it("past the limit the one that came first goes, whenever it was taken", () => {
    const frames = new DeskFrames(new MemoryShelf(() => new Date(0)));
    for (let k = 0; k <= MOST_FRAMES; k++) {
      const takenAt = `2026-11-26T10:00:00.${1000 - k}`;
      const photo = { id: `${k}`, reading: readingOf(`${k}.jpg`, takenAt), preview: null, thumbnail: null };
      frames.put(photo, { path: null, bytes: 1, before: [] });
    }
    const ids = frames.list().map(({ id }) => id);
    expect(ids).toHaveLength(MOST_FRAMES);
    expect(ids).not.toContain("0");
    expect(ids.at(-1)).toBe("1");
  });
  it("the same file again is the same frame and keeps when it came; what cannot be forgotten is told", async () => {
    let hour = 10;
    const now = () => new Date(`2026-11-26T${hour++}:00:00Z`);
    const desk = createDesk({ reader: plainReader(), gear: NO_GEAR, now });
    const first = await desk.read("a.jpg", bytes("x"));
    const again = await desk.read("a.jpg", bytes("x"));
    expect(again).toEqual(first);
    expect((await desk.state(0)).frames).toEqual([first]);
    await expect(desk.forget("no such id")).rejects.toThrow(/no such frame/);
  });
});

describe("[DK12] a desk that is ended", () => {
  it("tells whoever handed something over, and watches nothing any more", async () => {
    const reader = { ...plainReader(), read: () => Promise.reject(new Stopped()) };
    const desk = createDesk({ reader, gear: NO_GEAR, now: () => new Date() });
    await expect(desk.read("a.jpg", bytes("x"))).rejects.toThrow(
      /ended before a\.jpg was read; start it again/,
    );
    const watching = desk.watch(process.cwd());
    await desk.stop();
    await watching;
    expect((await desk.state(0)).folder).toBeNull();
  });
});

describe("[DK4] news", () => {
  it("comes at once where the page is behind or knows another desk, else with the next change", async () => {
    const desk = newDesk(60_000);
    const { version } = await desk.state(0);
    expect((await desk.state(version + 1000)).version).toBe(version);
    let heard = 0;
    const waiting = desk.state(version).then((state) => {
      heard = state.version;
    });
    await new Promise((resolve) => setTimeout(resolve, 30));
    expect(heard).toBe(0);
    await desk.read("a.jpg", bytes("x"));
    await waiting;
    expect(heard).toBeGreaterThan(version);
    await desk.stop();
  });
  it("without a change the same state, when the wait is over", async () => {
    const desk = newDesk(20);
    const { version } = await desk.state(0);
    expect((await desk.state(version)).version).toBe(version);
  });
});
