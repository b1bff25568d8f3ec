import { describe, expect, it } from "vitest";
import type { SearchTask } from "../finder/index.ts";
import type { Computer, Finder, WorkOptions } from "../workbench/index.ts";
import { FindRun } from "./find-run.ts";
import { askedRoom, FIRST_ANSWERS } from "./start-looks.ts";
import { USUAL_ROOM } from "./start-room.ts";

function question() {
  const asked = askedRoom(USUAL_ROOM, FIRST_ANSWERS);
  if (!asked.ok) throw new Error("the usual room is no room");
  return asked.plan;
}

/** A finder that does as it is told and not before. */
class HandFinder {
  readonly waiting: { task: SearchTask; resolve: (tried: number) => void; reject: (error: Error) => void }[] =
    [];
  search: Finder["search"] = (_plan, { task }, options: WorkOptions = {}) =>
    new Promise((resolve, reject) => {
      const signal = options.signal as AbortSignal;
      if (signal.aborted) return reject(new Error("stopped"));
      signal.addEventListener("abort", () => reject(new Error("stopped")));
      this.waiting.push({ task, resolve: (tried) => resolve({ candidates: [], tried }), reject });
    });
  asFinder(): Computer & Finder {
    return this as unknown as Computer & Finder;
  }
}

const turn = () => new Promise((resolve) => setTimeout(resolve, 0));

describe("[AP84] a search tells how far it is, stops at once and fails in words", () => {
  it("what was tried is counted as it is reported", async () => {
    const hand = new HandFinder();
    const run = new FindRun(() => [hand.asFinder()]);
    void run.search(question(), "k");
    await turn();
    expect(run.store.get().running).toEqual({ done: 0, what: "trying set-ups", tried: 0 });
    hand.waiting[0]?.resolve(1234);
    await turn();
    const { running } = run.store.get();
    expect(running?.tried).toBe(1234);
    expect(running?.done).toBeGreaterThan(0);
    run.stop();
  });
  it("stopped, it is over within a turn and says after how many; what was found before stays", async () => {
    const hand = new HandFinder();
    const run = new FindRun(() => [hand.asFinder(), hand.asFinder()]);
    const over = run.search(question(), "k");
    await turn();
    hand.waiting[0]?.resolve(100);
    await turn();
    run.stop();
    await turn();
    expect(run.store.get()).toEqual({ running: null, ended: { how: "stopped", tried: 100 }, found: null });
    expect(await over).toBeNull();
  });
  it("a finder that fails ends it for all, in its words; the next search begins anew", async () => {
    const hand = new HandFinder();
    const run = new FindRun(() => [hand.asFinder(), hand.asFinder()]);
    const over = run.search(question(), "k");
    await turn();
    hand.waiting[0]?.reject(new Error("the worker died"));
    expect(await over).toBeNull();
    expect(run.store.get().ended).toEqual({ how: "failed", why: "the worker died" });
    void run.search(question(), "k");
    await turn();
    expect(run.store.get()).toMatchObject({ ended: null, running: { tried: 0 } });
    run.stop();
  });
  it("a new search takes the place of one that runs", async () => {
    const hand = new HandFinder();
    const run = new FindRun(() => [hand.asFinder()]);
    const first = run.search(question(), "k");
    await turn();
    void run.search({ ...question(), title: "again" }, "k");
    expect(await first).toBeNull();
    expect(run.store.get()).toMatchObject({ ended: null, running: { what: "trying set-ups" } });
    run.stop();
  });
});
