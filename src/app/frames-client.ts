/** The desk of test frames, the gear book and the shelf, asked over HTTP. */
import type {
  DeskState,
  FrameDesk,
  GearBook,
  GearStore,
  KeptShelf,
  ShelfStore,
  TestFrame,
} from "../workbench/index.ts";
import { ask } from "./server.ts";

const FRAMES = "./api/frames";
const GEAR = "./api/gear";
const SHELF = "./api/shelf";
/** The desk answers after half a minute at the latest where nothing changes. */
const POLL_MS = 45_000;
/** A large picture is read in some seconds, and others may wait before it. */
const READ_MS = 180_000;

const within = (ms: number) => AbortSignal.timeout(ms);
const json = (body: unknown): RequestInit => ({
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});

export function connectDesk(): FrameDesk {
  return {
    async state(after) {
      const answer = await ask(`${FRAMES}?after=${after}`, { signal: within(POLL_MS) });
      return (await answer.json()) as DeskState;
    },
    async read(name, bytes) {
      const answer = await ask(`${FRAMES}?name=${encodeURIComponent(name)}`, {
        method: "POST",
        headers: { "content-type": "application/octet-stream" },
        body: new Uint8Array(bytes),
        signal: within(READ_MS),
      });
      return (await answer.json()) as TestFrame;
    },
    async watch(folder) {
      const address = `${FRAMES}/watch`;
      await ask(address, folder === null ? { method: "DELETE" } : { method: "PUT", ...json({ folder }) });
    },
    async forget(id) {
      await ask(`${FRAMES}/${encodeURIComponent(id)}`, { method: "DELETE" });
    },
  };
}

export function connectGear(): GearStore {
  return {
    load: async () => (await (await ask(GEAR)).json()) as GearBook,
    save: async (book) => (await (await ask(GEAR, { method: "PUT", ...json(book) })).json()) as GearBook,
  };
}

export function connectShelf(): ShelfStore {
  return {
    load: async () => (await (await ask(SHELF)).json()) as KeptShelf,
    save: async (shelf, revision) => {
      const answer = await ask(SHELF, { method: "PUT", ...json({ shelf, revision }) });
      return (await answer.json()) as KeptShelf;
    },
  };
}

/** Where the picture of a frame lies. */
export function pictureOf(id: string): string {
  return `${FRAMES}/${encodeURIComponent(id)}/picture`;
}
