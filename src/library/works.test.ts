import { describe, expect, it } from "vitest";
import type { SavedWork } from "../workbench/index.ts";
import { rebuildFound } from "./facts.ts";
import { freshLibrary, plainAround } from "./testing/fresh-library.ts";
import { smallLibrary } from "./testing/small-library.ts";
import { createPlanShelf, createWorks } from "./works.ts";

const work = (revision: number, title = `r${revision}`): SavedWork => ({
  revision,
  plan: { title },
  history: [title],
});

function started() {
  const around = plainAround();
  const library = freshLibrary(around);
  return { around, library, store: createWorks(library, around) };
}

describe("[LB2] works are kept one revision after the other", () => {
  it("plan, history and who saved come back as they were", async () => {
    const { store } = started();
    await store.save("w", { ...work(1), by: "window 1" });
    await store.save("w", work(2));
    expect(await store.load("w")).toEqual(work(2));
    expect(await store.load("nothing")).toBeNull();
  });
  it("a revision that is not the next one is refused and changes nothing", async () => {
    const { store } = started();
    await store.save("w", work(1));
    for (const revision of [1, 3])
      await expect(store.save("w", work(revision, "other"))).rejects.toThrow(/another window/);
    await expect(store.save("new", work(2))).rejects.toThrow(/another window/);
    expect(await store.load("w")).toEqual(work(1));
    expect(await store.list()).toHaveLength(1);
  });
  it("the same save sent again by the same window is kept already", async () => {
    const { store } = started();
    const mine = { ...work(1), by: "window 1" };
    await store.save("w", mine);
    await store.save("w", mine);
    await expect(store.save("w", { ...mine, by: "window 2" })).rejects.toThrow(/another window/);
    expect(await store.load("w")).toEqual(mine);
  });
  it("a key that cannot name a work is refused in words", async () => {
    await expect(started().store.save("../w", work(1))).rejects.toThrow(
      /use small letters, digits and hyphens/,
    );
  });
  it("the list has the latest first", async () => {
    const { around, store } = started();
    await store.save("a", work(1, "first"));
    around.set("2026-11-26T11:00:00.000Z");
    await store.save("b", work(1, ""));
    expect(await store.list()).toEqual([
      { key: "b", title: "Untitled", savedAt: "2026-11-26T11:00:00.000Z" },
      { key: "a", title: "first", savedAt: "2026-11-26T10:00:00.000Z" },
    ]);
  });
});

describe("[LB18] a work that cannot be read is told by name and does not hide the others", () => {
  it.each(["plan", "history"])("its %s is damaged", async (part) => {
    const { library, store } = started();
    await store.save("good", work(1));
    await store.save("torn", work(1));
    library.db.exec(`UPDATE works SET ${part} = substr(${part}, 1, 5) WHERE key = 'torn'`);
    await expect(store.load("torn")).rejects.toThrow(
      /"torn" in .*library\.tapemark is damaged; the others are untouched/,
    );
    expect((await store.list()).map(({ key }) => key)).toEqual(["good", "torn"]);
    expect(await store.glance("good")).toEqual({ plan: work(1).plan, isDamaged: false });
    const plan = part === "plan" ? null : work(1).plan;
    expect(await store.glance("torn")).toEqual({ plan, isDamaged: true });
    expect(await store.load("good")).toEqual(work(1));
  });
});

it("[LB18] who only shows a plan reads it without its history, and is told where it is damaged", async () => {
  const { library, store } = started();
  const plans = createPlanShelf(library);
  await store.save("w", work(1));
  library.db.exec("UPDATE works SET history = substr(history, 1, 5)");
  expect(await plans.load("w")).toEqual({ plan: { title: "r1" }, revision: 1 });
  library.db.exec("UPDATE works SET plan = substr(plan, 1, 5)");
  await expect(plans.load("w")).rejects.toThrow(/"w" in .* is damaged/);
  expect(await plans.load("nothing")).toBeNull();
});

it("[LB18] the shoot that it lies in is shown and found as before", async () => {
  const { library, save, shoots, end } = smallLibrary();
  await save("torn", { title: "Cellist" });
  library.db.exec("UPDATE works SET plan = substr(plan, 1, 5)");
  rebuildFound(library);
  const { rows } = await shoots.find({ text: "cell", offset: 0, limit: 9 });
  expect((await shoots.whole(rows[0].id)).plans).toMatchObject([{ key: "torn" }]);
  end();
});

describe("[LB3] a work lies in a shoot from its first save on", () => {
  it("one of its own, titled as the plan, on that day; it stays there", async () => {
    const { library, store } = started();
    await store.save("w", work(1, "Cellist"));
    await store.save("w", work(2, "Cellist, season poster"));
    expect(library.db.prepare("SELECT id, title, date, revision FROM shoots").all()).toEqual([
      { id: "id-2", title: "Cellist", date: "2026-11-26", revision: 1 },
    ]);
    expect(library.db.prepare("SELECT shoot FROM works").all()).toEqual([{ shoot: "id-2" }]);
  });
  it("what is kept alongside is there with the save or not at all", async () => {
    const around = plainAround();
    const library = freshLibrary(around);
    const store = createWorks(library, {
      ...around,
      alongside: ({ key, plan }) => {
        library.db.prepare("INSERT INTO about (name, value) VALUES (?, ?)").run(key, JSON.stringify(plan));
        if (key === "bad") throw new Error("not this one");
      },
    });
    await store.save("good", work(1));
    await expect(store.save("bad", work(1))).rejects.toThrow("not this one");
    expect(library.db.prepare("SELECT * FROM about").all()).toEqual([
      { name: "good", value: '{"title":"r1"}' },
    ]);
    expect((await store.list()).map(({ key }) => key)).toEqual(["good"]);
    expect(library.db.prepare("SELECT count(*) AS n FROM shoots").get()).toEqual({ n: 1 });
  });
});

describe("[LB4] a clock that is set back breaks nothing", () => {
  it("a later save of a work is never older, and works go on being saved", async () => {
    const { around, store } = started();
    await store.save("w", work(1));
    around.set("2020-01-01T00:00:00.000Z");
    await store.save("w", work(2));
    await store.save("new", work(1, "new"));
    expect(await store.list()).toEqual([
      { key: "w", title: "r2", savedAt: "2026-11-26T10:00:00.000Z" },
      { key: "new", title: "new", savedAt: "2020-01-01T00:00:00.000Z" },
    ]);
  });
});
