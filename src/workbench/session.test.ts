import { beforeEach, describe, expect, it } from "vitest";
import { newPlan, serialisePlan, setField } from "../plan/index.ts";
import type { Computer, PlanStore } from "./index.ts";
import { createMemoryStore, createSession, type Session, WorkError } from "./index.ts";

/** Time that passes only when told. */
function handClock() {
  let now = 0;
  let waiting: { at: number; run: () => void }[] = [];
  return {
    scheduler: {
      after(delay_ms: number, run: () => void) {
        const entry = { at: now + delay_ms, run };
        waiting.push(entry);
        return () => {
          waiting = waiting.filter((w) => w !== entry);
        };
      },
    },
    async pass(time_ms: number) {
      now += time_ms;
      const due = waiting.filter((w) => w.at <= now);
      waiting = waiting.filter((w) => w.at > now);
      for (const { run } of due) run();
      for (let i = 0; i < 20; i++) await Promise.resolve();
    },
  };
}

const computer: Computer = {
  read: () => Promise.reject(new Error("not asked for here")),
  frame: () => Promise.reject(new Error("not asked for here")),
  map: () => Promise.reject(new Error("not asked for here")),
};
const FILE = serialisePlan({ ...newPlan(), title: "Cellist" });
const titled = (title: string) => setField(`title ${title}`, ["title"], title);

let store: PlanStore;
let clock: ReturnType<typeof handClock>;
let session: Session;
const begin = () => createSession({ computer, store, scheduler: clock.scheduler, saveDelay_ms: 100 });
const title = () => session.get().plan.title;

beforeEach(async () => {
  store = createMemoryStore();
  clock = handClock();
  session = begin();
  await session.open("cellist", FILE);
  await session.flush();
});

describe("[WB3] [WB14] every edit is a step that undo takes back", () => {
  it("undo and redo walk through the steps and name them", () => {
    session.edit(titled("A"));
    session.edit(titled("B"));
    expect(session.get().undoLabel).toBe("title B");
    session.undo();
    expect([title(), session.get().redoLabel]).toEqual(["A", "title B"]);
    session.undo();
    session.undo();
    expect([title(), session.get().undoLabel]).toEqual(["Cellist", null]);
    session.redo();
    session.redo();
    session.redo();
    expect(title()).toBe("B");
  });

  it("the steps are listed, and any of them is gone to without losing those after it", () => {
    session.edit(titled("A"));
    session.edit(titled("B"));
    const { steps, at } = session.get();
    expect([steps.map((step) => step.label), at]).toEqual([["opened", "title A", "title B"], 2]);
    session.goTo(0);
    expect([title(), session.get().at, session.get().redoLabel]).toEqual(["Cellist", 0, "title A"]);
    session.goTo(2);
    session.goTo(7);
    session.goTo(-1);
    expect([title(), session.get().at]).toEqual(["B", 2]);
  });

  it("a drag is one step until it is let go", () => {
    for (const at of ["1", "2", "3"]) session.edit(titled(at), "drag");
    session.seal();
    session.edit(titled("4"), "drag");
    session.undo();
    expect(title()).toBe("3");
    session.undo();
    expect(title()).toBe("Cellist");
  });

  it("a wrong edit is refused with its path and leaves the plan as it was", () => {
    const before = session.get().plan;
    const outcome = session.edit(setField("aperture", ["camera", "fNumber"], -1));
    expect(outcome.ok).toBe(false);
    expect(session.get().plan).toBe(before);
    expect(session.get().problems.map((p) => p.path)).toEqual(["camera.fNumber"]);
    session.edit(titled("A"));
    expect(session.get().problems).toEqual([]);
  });

  it("replacing the plan is one step too", () => {
    expect(session.replace(serialisePlan({ ...newPlan(), title: "Group" }), "opened group").ok).toBe(true);
    expect(title()).toBe("Group");
    session.undo();
    expect(title()).toBe("Cellist");
    expect(session.replace("{", "opened").ok).toBe(false);
    expect(title()).toBe("Cellist");
  });
});

describe("[WB4] changes are saved as they are made", () => {
  it("within the delay after the first of them, also while they go on", async () => {
    session.edit(titled("A"));
    expect(session.get().saving.state).toBe("waiting");
    await clock.pass(60);
    session.edit(titled("B"));
    await clock.pass(60);
    expect(session.get().saving.state).toBe("saved");
    expect((await store.load("cellist"))?.plan).toMatchObject({ title: "B" });
  });

  it("a restart brings back the plan and the whole undo history, redo included", async () => {
    for (const t of ["A", "B", "C"]) session.edit(titled(t));
    session.undo();
    await session.close();
    session = begin();
    expect((await session.open("cellist", FILE)).ok).toBe(true);
    expect([title(), session.get().redoLabel]).toEqual(["B", "title C"]);
    session.undo();
    session.undo();
    expect([title(), session.get().undoLabel]).toEqual(["Cellist", null]);
  });

  it("a file that changed since is put on top, what was here is one undo away", async () => {
    session.edit(titled("mine"));
    await session.close();
    session = begin();
    await session.open("cellist", serialisePlan({ ...newPlan(), title: "from the file" }));
    expect(title()).toBe("from the file");
    session.undo();
    expect(title()).toBe("mine");
  });

  it("a new plan gets a key of its own at its first change", async () => {
    await session.createNew();
    session.edit(titled("one"));
    await session.flush();
    await session.createNew();
    session.edit(titled("two"));
    await session.flush();
    const works = (await store.list()).map((work) => `${work.key} ${work.title}`);
    expect(works.sort()).toEqual(["cellist Cellist", "plan-1 one", "plan-2 two"]);
  });
});

describe("[WB5] two windows notice each other, and nothing of either is lost", () => {
  async function collide() {
    const other = begin();
    await other.resume("cellist");
    other.edit(titled("theirs"));
    await other.flush();
    session.edit(titled("mine"));
    await session.flush();
    expect(session.get().saving.state).toBe("conflict");
    expect((await store.load("cellist"))?.plan).toMatchObject({ title: "theirs" });
  }

  it("what touches different fields becomes one plan without a question", async () => {
    const other = begin();
    await other.resume("cellist");
    other.edit(titled("theirs"));
    await other.flush();
    session.edit(setField("iso", ["camera", "iso"], 400));
    await session.flush();
    expect(session.get().saving.state).toBe("saved");
    expect((await store.load("cellist"))?.plan).toMatchObject({ title: "theirs", camera: { iso: 400 } });
  });

  it("keep mine: theirs is further down the same history", async () => {
    await collide();
    await session.keepMine();
    expect([title(), session.get().saving.state]).toEqual(["mine", "saved"]);
    session.undo();
    expect(title()).toBe("theirs");
    session.undo();
    expect(title()).toBe("Cellist");
  });

  it("take theirs: mine is one undo away", async () => {
    await collide();
    await session.takeTheirs();
    expect([title(), session.get().saving.state]).toEqual(["theirs", "saved"]);
    session.undo();
    expect(title()).toBe("mine");
  });

  it("theirs cannot be taken where it cannot be read, and is not overwritten by trying", async () => {
    const far = { revision: 2, plan: { format: "tapemark/plan", version: 99 }, history: null };
    await store.save("cellist", far);
    session.edit(titled("mine"));
    await session.flush();
    await session.takeTheirs();
    expect(session.get().saving).toMatchObject({
      state: "conflict",
      problem: expect.stringMatching(/cannot be read/),
    });
    expect((await store.load("cellist"))?.plan).toEqual(far.plan);
    const next = begin();
    const outcome = await next.resume("cellist");
    expect(outcome).toMatchObject({ ok: false, problems: [{ path: "version" }] });
  });

  it("nothing is saved over the other window until somebody decides", async () => {
    await collide();
    session.edit(titled("mine again"));
    await clock.pass(10_000);
    expect((await store.load("cellist"))?.plan).toMatchObject({ title: "theirs" });
  });
});

describe("[WB6] a store that fails is told with its cure, and tried again", () => {
  it("keeps the plan, says why, saves when the store works again", async () => {
    const works = store;
    let isFull = true;
    store = {
      ...works,
      save: (key, work) =>
        isFull ? Promise.reject(new WorkError("the disk is full", "free some space")) : works.save(key, work),
    };
    session = begin();
    await session.resume("cellist");
    session.edit(titled("kept"));
    await clock.pass(100);
    expect(session.get().saving).toEqual({
      state: "failed",
      problem: "the disk is full",
      cure: "free some space",
    });
    // another plan may be opened; the unsaved one is still here when one comes back to it
    await session.open("group", serialisePlan({ ...newPlan(), title: "Group" }));
    isFull = false;
    await session.resume("cellist");
    expect(title()).toBe("kept");
    await clock.pass(1000);
    expect((await works.load("cellist"))?.plan).toMatchObject({ title: "kept" });
  });

  it("opens a plan even when the store cannot be read", async () => {
    store = { ...store, load: () => Promise.reject(new Error("gone")) };
    session = begin();
    expect((await session.open("cellist", FILE)).ok).toBe(true);
    expect([title(), session.get().saving.state]).toEqual(["Cellist", "failed"]);
  });
});
