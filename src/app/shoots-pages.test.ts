import { describe, expect, it } from "vitest";
import { StoreAway } from "../workbench/index.ts";
import { keyLeads, PAGE, PagedRows, rowsInView, scrollFor } from "./shoots-pages.ts";

/** Rows 0 … total − 1, answered when told to. */
function book(total: number) {
  const asked: number[] = [];
  const waiting: (() => void)[] = [];
  const state = { total, isAway: false, add: 0 };
  const paged = new PagedRows<number>(async (offset, limit) => {
    asked.push(offset / PAGE);
    await new Promise<void>((resolve) => waiting.push(resolve));
    if (state.isAway) throw new StoreAway();
    const many = Math.max(0, Math.min(limit, state.total - offset));
    return { total: state.total, rows: Array.from({ length: many }, (_, i) => offset + i + state.add) };
  });
  const answer = async () => {
    waiting.shift()?.();
    for (let i = 0; i < 5; i++) await Promise.resolve();
  };
  return { asked, paged, state, answer };
}

describe("[AP111] rows come by the hundred as they come into view", () => {
  it("what was only passed on the way is never asked for", async () => {
    const { asked, paged, answer } = book(2000);
    void paged.want(0, 20);
    await answer();
    void paged.want(300, 320);
    // while that is on its way somebody goes on to the end
    for (let row = 400; row <= 1980; row += 20) void paged.want(row, row + 19);
    await answer();
    await answer();
    expect(asked).toEqual([0, 3, 19]);
    expect([paged.row(1999), paged.row(305), paged.row(1000)]).toEqual([1999, 305, null]);
  });
  it("a view across two pages asks for both, and what is there is not asked for again", async () => {
    const { asked, paged, answer } = book(250);
    void paged.want(0, 9);
    await answer();
    void paged.want(95, 105);
    await answer();
    await paged.want(0, 9);
    expect(asked).toEqual([0, 1]);
  });
  it("only rows in view are drawn, with some beyond", () => {
    expect(rowsInView({ scrollTop: 0, height: 700 }, 70, 2000, 4)).toEqual({ first: 0, last: 13 });
    expect(rowsInView({ scrollTop: 70_035, height: 700 }, 70, 2000, 4)).toEqual({ first: 996, last: 1014 });
    expect(rowsInView({ scrollTop: 139_300, height: 700 }, 70, 2000, 4)).toEqual({ first: 1986, last: 1999 });
    expect(rowsInView({ scrollTop: 0, height: 700 }, 70, 0, 4)).toEqual({ first: 0, last: -1 });
    // the list has become shorter than where it stood
    const { first, last } = rowsInView({ scrollTop: 9000, height: 700 }, 70, 3, 4);
    expect(last - first).toBeLessThan(3);
  });
});

describe("[AP124] a list follows what others bring", () => {
  it("what is in view is asked for again, stays in sight meanwhile, and the rest only once it is looked at", async () => {
    const { asked, paged, state, answer } = book(350);
    for (const row of [0, 150, 250]) {
      void paged.want(row, row + 9);
      await answer();
    }
    state.total = 351;
    state.add = 1000;
    void paged.refresh();
    expect([paged.row(250), paged.store.get().total]).toEqual([250, 350]);
    await answer();
    expect([paged.row(250), paged.store.get().total]).toEqual([1250, 351]);
    expect(asked).toEqual([0, 1, 2, 2]);
    void paged.want(0, 9);
    await answer();
    expect([asked.length, paged.row(0)]).toEqual([5, 1000]);
  });
  it("a change that comes while a question is open asks it again", async () => {
    const { asked, paged, state, answer } = book(10);
    void paged.want(0, 9);
    await answer();
    void paged.refresh();
    void paged.refresh();
    state.add = 50;
    await answer();
    await answer();
    expect([asked.length, paged.row(3)]).toEqual([3, 53]);
  });
  it("a row that is marked is found again where it has moved to", async () => {
    const { paged, state, answer } = book(250);
    void paged.want(95, 105);
    await answer();
    state.add = 1;
    void paged.refresh();
    await answer();
    paged.put((row) => row === 7, 7000);
    expect([paged.row(6), paged.row(7)]).toEqual([7000, 8]);
    paged.put((row) => row === -1, 0);
    expect(paged.row(6)).toBe(7000);
  });
  it("a list that has become shorter lets its end go", async () => {
    const { paged, state, answer } = book(250);
    void paged.want(0, 9);
    await answer();
    void paged.want(240, 249);
    await answer();
    state.total = 120;
    void paged.refresh();
    await answer();
    expect([paged.store.get().total, paged.row(245), paged.row(3)]).toEqual([120, null, 3]);
  });
  it("a server that is away is said once and asked again by whoever looks on", async () => {
    const { asked, paged, state, answer } = book(10);
    state.isAway = true;
    void paged.want(0, 9);
    await answer();
    expect(paged.store.get().trouble).toMatch(/does not answer; start it again/);
    expect(asked.length).toBe(1);
    state.isAway = false;
    void paged.want(0, 9);
    await answer();
    expect([paged.store.get().trouble, paged.row(4)]).toEqual([null, 4]);
  });
});

describe("[AP112] keys walk through a list", () => {
  const list = { total: 2000, columns: 1, rowsOnScreen: 10 };
  const grid = { total: 11, columns: 4, rowsOnScreen: 3 };
  it.each([
    ["ArrowDown", 4, 5],
    ["ArrowUp", 0, 0],
    ["ArrowUp", 4, 3],
    ["ArrowDown", 1999, 1999],
    ["PageDown", 4, 13],
    ["PageUp", 4, 0],
    ["PageDown", 1995, 1999],
    ["Home", 999, 0],
    ["End", 0, 1999],
    ["ArrowRight", 4, null],
    ["x", 4, null],
  ])("%s from row %i", (key, at, to) => expect(keyLeads(key, at, list)).toBe(to));
  it.each([
    ["ArrowRight", 3, 4],
    ["ArrowLeft", 4, 3],
    ["ArrowDown", 2, 6],
    ["ArrowDown", 9, 9],
    ["ArrowUp", 2, 2],
    ["End", 2, 10],
  ])("%s from picture %i of eleven in four columns", (key, at, to) =>
    expect(keyLeads(key, at, grid)).toBe(to),
  );
  it("a list without rows leads nowhere", () => expect(keyLeads("End", 0, { ...list, total: 0 })).toBeNull());
  it("the row is brought wholly into sight by the smallest move", () => {
    const at = { scrollTop: 700, height: 350 };
    expect([9, 10, 12, 14, 15].map((row) => scrollFor(row, 70, at))).toEqual([630, 700, 700, 700, 770]);
  });
});
