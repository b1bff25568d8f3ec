import { describe, expect, it } from "vitest";
import type { ShootQuery, ShootRow, ShootRows } from "../shoots/index.ts";
import { FoundShoots } from "./shoots-found.ts";
import { SHOOT } from "./shoots-testing.ts";

const row = (title: string): ShootRow => ({
  ...SHOOT,
  id: title,
  title,
  plans: 1,
  frames: 0,
  selects: 0,
  patterns: [],
  lights: [],
  rooms: [],
  cover: null,
});

/** Answers each question when told to, in any order. */
function library() {
  const asked: { query: ShootQuery; answer: () => Promise<void> }[] = [];
  const find = (query: ShootQuery) =>
    new Promise<ShootRows>((resolve) => {
      const answer = async () => {
        resolve({ total: 1, rows: [row(query.text ?? "all")] });
        for (let i = 0; i < 5; i++) await Promise.resolve();
      };
      asked.push({ query, answer });
    });
  const found = new FoundShoots({
    find,
    choices: async () => ({ patterns: ["Loop"], lights: [], rooms: [] }),
  });
  return { asked, found, title: () => found.row(0)?.title };
}

describe("[AP113] the list is narrowed", () => {
  it("the last answer stays in sight until the next one is there", async () => {
    const { asked, found, title } = library();
    void found.refresh();
    await asked[0]?.answer();
    void found.narrow({ text: "cell" });
    expect([title(), found.store.get().narrowing, found.store.get().foundBy]).toEqual([
      "all",
      { text: "cell" },
      {},
    ]);
    await asked[1]?.answer();
    expect([title(), found.store.get().foundBy]).toEqual(["cell", { text: "cell" }]);
  });
  it("an answer that comes after a later question is let go", async () => {
    const { asked, found, title } = library();
    void found.narrow({ text: "c" });
    void found.narrow({ text: "cellist" });
    await asked[1]?.answer();
    await asked[0]?.answer();
    expect(title()).toBe("cellist");
  });
  it("all that is said is asked for together; clear asks for everything from the top", async () => {
    const { asked, found } = library();
    void found.narrow({ pattern: "Loop" });
    void found.narrow({ from: "2026-11-01", stars: 3 });
    expect(asked.at(-1)?.query).toEqual({
      pattern: "Loop",
      from: "2026-11-01",
      stars: 3,
      offset: 0,
      limit: 100,
    });
    found.take(40);
    found.scrollTop = 900;
    void found.clear();
    expect(asked.at(-1)?.query).toEqual({ offset: 0, limit: 100 });
    expect([found.store.get().at, found.scrollTop]).toEqual([0, 0]);
  });
  it("what there is to choose from comes along", async () => {
    const { asked, found } = library();
    const done = found.refresh();
    await asked[0]?.answer();
    await done;
    expect(found.store.get().choices.patterns).toEqual(["Loop"]);
  });
});
