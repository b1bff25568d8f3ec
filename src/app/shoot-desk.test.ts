import { describe, expect, test } from "vitest";
import { type DeskState, type FrameDesk, WorkError } from "../workbench/index.ts";
import { newestOf, ShootDesk, shownFrame } from "./shoot-desk.ts";
import { isPhotograph } from "./shoot-files.ts";
import { deskOf, frameOf } from "./shoot-testing.ts";

/** A desk whose answers are given by hand. */
function byHand() {
  const asked: number[] = [];
  let answer: (state: DeskState | Error) => void = () => {};
  let isReading = false;
  let finish: (problem: string | null) => void = () => {};
  const port: FrameDesk = {
    state: (after) =>
      new Promise((resolve, reject) => {
        asked.push(after);
        answer = (state) => (state instanceof Error ? reject(state) : resolve(state));
      }),
    read: (name) =>
      new Promise((resolve, reject) => {
        isReading = true;
        finish = (problem) =>
          problem === null
            ? resolve({ ...frameOf(7), name })
            : reject(new WorkError(problem, "take another"));
      }),
    watch: async (folder) => {
      if (folder === "/nowhere") throw new WorkError("there is no such folder", "check its path");
    },
    forget: async () => {},
  };
  const desk = new ShootDesk(port, () => Promise.resolve());
  const turn = () => new Promise<void>((resolve) => setTimeout(resolve, 0));
  return {
    desk,
    asked,
    say: async (state: DeskState | Error) => {
      answer(state);
      await turn();
    },
    turn,
    finish: async (problem: string | null) => {
      await turn();
      expect(isReading).toBe(true);
      isReading = false;
      finish(problem);
      await turn();
    },
  };
}

const file = (name: string) => ({ name, arrayBuffer: async () => new ArrayBuffer(1) });

describe("following the desk", () => {
  test("[AP91] each answer is followed by the next question; what is as it was stays the same object", async () => {
    const { asked, desk, say } = byHand();
    expect(desk.store.get().reach).toBe("asking");
    desk.follow(true);
    await say(deskOf(4, frameOf(1)));
    const [first] = desk.store.get().desk.frames;
    await say(deskOf(5, structuredClone(frameOf(1)), frameOf(2)));
    expect(asked).toEqual([-1, 4, 5]);
    expect(desk.store.get().desk.frames[0]).toBe(first);
    expect(desk.store.get().desk.frames).toHaveLength(2);
  });

  test("[AP91] a desk that does not answer is said, asked again, and then for everything", async () => {
    const { asked, desk, say } = byHand();
    desk.follow(true);
    await say(deskOf(4, frameOf(1)));
    await say(new Error("gone"));
    expect(desk.store.get().reach).toBe("away");
    expect(desk.store.get().desk.frames).toHaveLength(1);
    await say(deskOf(1));
    expect(asked).toEqual([-1, 4, -1, 1]);
    expect(desk.store.get().reach).toBe("here");
  });

  test("[AP91] a page in the back asks nothing", async () => {
    const { asked, desk, say } = byHand();
    desk.follow(true);
    desk.follow(false);
    await say(deskOf(4, frameOf(1)));
    expect(asked).toEqual([-1]);
    desk.follow(true);
    expect(asked).toHaveLength(2);
  });

  test("[AP106] without a desk nothing is asked and handing over says why", async () => {
    const desk = new ShootDesk(null, () => Promise.resolve());
    desk.follow(true);
    await desk.hand([file("a.jpg")]);
    expect(desk.store.get()).toMatchObject({ reach: "none", handed: [{ name: "a.jpg" }] });
    expect(desk.store.get().handed[0]?.problem).toContain("tapemark open");
  });
});

describe("the frame in sight", () => {
  test("[AP93] the one that arrived last, whatever its place in the run, until one is chosen", async () => {
    const { desk, say } = byHand();
    desk.follow(true);
    await say(deskOf(1, frameOf(3), frameOf(1)));
    expect(shownFrame(desk.store.get())?.id).toBe("f3");
    desk.choose("f1");
    await say(deskOf(2, frameOf(3), frameOf(1), frameOf(9)));
    expect(shownFrame(desk.store.get())?.id).toBe("f1");
    await say(deskOf(3, frameOf(3), frameOf(9)));
    expect(desk.store.get().chosen).toBeNull();
    expect(shownFrame(desk.store.get())?.id).toBe("f9");
    expect(newestOf([])).toBeNull();
  });
});

describe("files handed over", () => {
  test("[AP92] one after the other; what is refused stays in sight until it is put aside", async () => {
    const { desk, finish } = byHand();
    const done = desk.hand([file("good.jpg"), file("bad.jpg")]);
    expect(desk.store.get().handed.map(({ problem }) => problem)).toEqual([null, null]);
    await finish(null);
    expect(desk.store.get().desk.frames.map(({ name }) => name)).toEqual(["good.jpg"]);
    await finish("this is no photograph");
    await done;
    expect(desk.store.get().handed).toEqual([
      { name: "bad.jpg", problem: "this is no photograph; take another" },
    ]);
    desk.dismiss("bad.jpg");
    expect(desk.store.get().handed).toEqual([]);
  });

  test("[AP92] a folder that is not there is refused with its cure", async () => {
    const { desk } = byHand();
    expect(await desk.watch("/nowhere")).toBe("there is no such folder; check its path");
    expect(await desk.watch("/home/me")).toBeNull();
  });

  test.each([
    ["IMG_1.JPG", "image/jpeg", true],
    ["IMG_1.CR3", "", true],
    ["IMG_1.heic", "", true],
    ["plan.json", "application/json", false],
    ["drawing.svg", "image/svg+xml", false],
    ["jpg", "", false],
  ])("[AP90] %s is taken for a photograph: %s %s", (name, type, is) => {
    expect(isPhotograph({ name, type })).toBe(is);
  });
});
