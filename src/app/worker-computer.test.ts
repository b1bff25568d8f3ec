import { describe, expect, test } from "vitest";
import type { Plan } from "../plan/index.ts";
import type { PlanReading } from "../reading/index.ts";
import type { Computer, Finder, FramePicture } from "../workbench/index.ts";
import { CancelledError, ComputerError, WorkerComputer, type WorkerLike } from "./worker-computer.ts";
import { hostComputer } from "./worker-host.ts";
import type { FromWorker, ToWorker } from "./worker-protocol.ts";

const PLAN = { title: "a plan" } as unknown as Plan;
const READING: PlanReading = {
  meters: [],
  people: [],
  group: null,
  camera: {
    clipped: { skin: 0, frame: 0 },
    headroomStops: null,
    withoutShine: { clippedSkin: 0, headroomStops: null },
    channels: {
      red: { clippedSkin: 0, headroomStops: null },
      green: { clippedSkin: 0, headroomStops: null },
      blue: { clippedSkin: 0, headroomStops: null },
    },
    backgroundStops: null,
  },
  warnings: [],
};

const never = () => new Promise<never>(() => {});
const NO_FINDER: Finder = {
  ready: never,
  search: never,
  settle: never,
  hold: never,
  steps: never,
  reach: never,
  remedies: never,
  calibrate: never,
  compare: never,
};

/** A worker in name only: the real host on the same thread, with messages that are cloned and take a turn. */
function inlineWorker(alone: Computer): WorkerLike & { terminated: boolean } {
  const worker: WorkerLike & { terminated: boolean } = {
    terminated: false,
    onmessage: null,
    onerror: null,
    postMessage(message: ToWorker) {
      const stop = message.type === "start" ? message.stop : null;
      const copy = structuredClone({ ...message, stop: null }) as ToWorker;
      setTimeout(() => receive(message.type === "start" ? ({ ...copy, stop } as ToWorker) : copy), 0);
    },
    terminate() {
      worker.terminated = true;
    },
  };
  const receive = hostComputer({ ...NO_FINDER, ...alone }, (message: FromWorker, transfer) => {
    const data = structuredClone(message, { transfer });
    setTimeout(() => !worker.terminated && worker.onmessage?.({ data }), 0);
  });
  return worker;
}

describe("the computer port over a worker", () => {
  test("[AP6] a reading comes back equal, with its progress", async () => {
    const seen: number[] = [];
    const computer: Computer = {
      read: async (_plan, _quality, options) => {
        options?.onProgress?.({ done: 0.5, what: "half" });
        return READING;
      },
      frame: never,
      map: never,
    };
    const port = new WorkerComputer(() => inlineWorker(computer), false);
    const reading = await port.read(PLAN, "fine", { onProgress: ({ done }) => seen.push(done) });
    expect(reading).toEqual(READING);
    expect(seen).toEqual([0.5]);
  });

  test("[AP6] a frame's buffers change owner and arrive whole", async () => {
    const kept: FramePicture[] = [];
    const computer: Computer = {
      read: never,
      frame: async () => {
        const picture = {
          width: 1,
          height: 1,
          rgba: new Uint8ClampedArray([1, 2, 3, 255]),
          tenths: new Int8Array([-30]),
          deep: null,
          clipped: new Uint8Array([2]),
        };
        kept.push(picture);
        return picture;
      },
      map: never,
    };
    const port = new WorkerComputer(() => inlineWorker(computer), false);
    const picture = await port.frame(PLAN, { width: 1, quality: "coarse" });
    expect([...picture.rgba]).toEqual([1, 2, 3, 255]);
    expect([...picture.clipped]).toEqual([2]);
    expect(kept[0]?.rgba.byteLength).toBe(0);
  });

  test("[AP6] an error in the worker arrives as an error that says what the worker said", async () => {
    const computer: Computer = {
      read: async () => {
        throw new RangeError("the scene has no light");
      },
      frame: never,
      map: never,
    };
    const port = new WorkerComputer(() => inlineWorker(computer), false);
    await expect(port.read(PLAN, "coarse")).rejects.toThrow(ComputerError);
    await expect(port.read(PLAN, "coarse")).rejects.toThrow("the scene has no light");
  });

  test.each([true, false])(
    "[AP6] a job that is cancelled stops in the worker (shared flag: %s)",
    async (share) => {
      let rounds = 0;
      let stopped = false;
      const computer: Computer = {
        read: async (_plan, _quality, options) => {
          while (!options?.signal?.aborted) {
            rounds++;
            await new Promise((resolve) => setTimeout(resolve, 1));
          }
          stopped = true;
          throw new Error("stopped");
        },
        frame: never,
        map: never,
      };
      const workers: { terminated: boolean }[] = [];
      const spawn = () => {
        const worker = inlineWorker(computer);
        workers.push(worker);
        return worker;
      };
      const port = new WorkerComputer(spawn, share);
      const stop = new AbortController();
      const job = port.read(PLAN, "fine", { signal: stop.signal });
      await new Promise((resolve) => setTimeout(resolve, 20));
      stop.abort();
      await expect(job).rejects.toThrow(CancelledError);
      await new Promise((resolve) => setTimeout(resolve, 50));
      expect(rounds).toBeGreaterThan(0);
      expect(stopped).toBe(true);
      expect(workers.map((worker) => worker.terminated)).toEqual([false]);
    },
  );

  test("[AP6] a worker that does not hear is replaced, and the job behind the stopped one is still done", async () => {
    const deaf: Computer = { read: never, frame: never, map: never };
    const hears: Computer = { read: async () => READING, frame: never, map: never };
    const made: { terminated: boolean }[] = [];
    const port = new WorkerComputer(() => {
      const worker = inlineWorker(made.length === 0 ? deaf : hears);
      made.push(worker);
      return worker;
    }, false);
    const stop = new AbortController();
    const first = port.read(PLAN, "fine", { signal: stop.signal });
    const second = port.read(PLAN, "coarse");
    await new Promise((resolve) => setTimeout(resolve, 20));
    stop.abort();
    await expect(first).rejects.toThrow(CancelledError);
    expect(await second).toEqual(READING);
    expect(made.map((worker) => worker.terminated)).toEqual([true, false]);
  });

  test("[AP9] a worker that dies fails what it was doing; the next job starts another", async () => {
    const deaf: Computer = { read: never, frame: never, map: never };
    const hears: Computer = { read: async () => READING, frame: never, map: never };
    const made: WorkerLike[] = [];
    const port = new WorkerComputer(() => {
      const worker = inlineWorker(made.length === 0 ? deaf : hears);
      made.push(worker);
      return worker;
    }, false);
    const job = port.read(PLAN, "coarse");
    made[0]?.onerror?.({ message: "out of memory" });
    await expect(job).rejects.toThrow("out of memory");
    expect(await port.read(PLAN, "coarse")).toEqual(READING);
  });
});
