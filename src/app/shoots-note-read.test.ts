import { describe, expect, it } from "vitest";
import { newPlan, type Plan } from "../plan/index.ts";
import type { News } from "../workbench/index.ts";
import type { Bench } from "./bench.ts";
import { noteReads } from "./shoots-note-read.ts";
import { Store } from "./store.ts";

const settle = async () => {
  for (let i = 0; i < 6; i++) await Promise.resolve();
};

/** As much of a bench as is followed. */
function bench() {
  const noted: [string, string | null][] = [];
  const state = { isAway: false, isThere: true };
  const session = new Store({ key: "", plan: newPlan() as Plan, saving: { state: "waiting" } });
  const results = new Store<object>({ reading: null, readingOf: null, readingQuality: "glance" });
  const tellers = new Set<(news: News) => void>();
  const news = {
    subscribe(listener: (told: News) => void) {
      tellers.add(listener);
      return () => tellers.delete(listener);
    },
  };
  const library = {
    shootOf: async () => (state.isThere ? "s1" : null),
    async noteRead(key: string, { pattern }: { pattern: string | null }) {
      noted.push([key, pattern]);
      if (state.isAway) throw new Error("away");
    },
  };
  noteReads({ news, session, results: { store: results }, library } as unknown as Bench);
  const read = (pattern: string | null, readingQuality = "fine", readingOf = session.get().plan) =>
    results.set({ reading: { people: [{ face: { pattern } }] }, readingOf, readingQuality });
  const edit = () => session.update({ plan: { ...session.get().plan } });
  const arrive = () => {
    for (const tell of tellers) tell({ kind: "work", key: "cellist", revision: 1, by: null });
  };
  return { noted, state, session, read, edit, arrive };
}

describe("[AP121] the library is told the pattern of what is kept", () => {
  it("once its fine reading is there and it is kept, not before", async () => {
    const { noted, session, read } = bench();
    read("loop");
    session.update({ key: "cellist" });
    expect(noted).toEqual([]);
    session.update({ saving: { state: "saved" } });
    session.update({ saving: { state: "saved" } });
    read("loop");
    await settle();
    expect(noted).toEqual([["cellist", "loop"]]);
  });
  it("again when it becomes another, and not while it is dragged", async () => {
    const { noted, session, read, edit } = bench();
    session.update({ key: "cellist", saving: { state: "saved" } });
    read("loop");
    edit();
    read("split", "glance");
    read("loop");
    edit();
    read("split");
    edit();
    read(null);
    await settle();
    expect(noted).toEqual([
      ["cellist", "loop"],
      ["cellist", "split"],
      ["cellist", null],
    ]);
  });
  it("a library that does not answer is told at the next reading", async () => {
    const { noted, session, state, read, edit } = bench();
    session.update({ key: "cellist", saving: { state: "saved" } });
    state.isAway = true;
    read("loop");
    await settle();
    read("loop");
    edit();
    await settle();
    read("loop");
    await settle();
    expect(noted.length).toBe(2);
  });
  it("what lies in this browser only is told once the library has it", async () => {
    const { noted, session, state, read, arrive } = bench();
    state.isThere = false;
    session.update({ key: "cellist", saving: { state: "saved" } });
    read("loop");
    await settle();
    expect(noted).toEqual([]);
    state.isThere = true;
    arrive();
    await settle();
    arrive();
    await settle();
    expect(noted).toEqual([["cellist", "loop"]]);
  });
  it("what is read of another plan, one light alone, is no news of this one", () => {
    const { noted, session, read } = bench();
    session.update({ key: "cellist", saving: { state: "saved" } });
    read("rim", "fine", newPlan());
    expect(noted).toEqual([]);
  });
});
