import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { checkPlan } from "../plan/index.ts";
import { setUpsOf } from "../workbench/index.ts";
import { smallLibrary } from "./testing/small-library.ts";

let small: ReturnType<typeof smallLibrary>;
beforeEach(() => {
  small = smallLibrary();
});
afterEach(() => small.end());

const PAGE = { offset: 0, limit: 50 };
const plan = (title: string, more: object = {}) => ({ title, ...more });
const titles = async (query: object = {}) =>
  (await small.shoots.find({ ...query, ...PAGE })).rows.map(({ title }) => title);

describe("[LB20] every kept work lies in exactly one shoot", () => {
  it("a new one in a shoot of its own that goes by its title until somebody gives it another", async () => {
    const { shoots, save } = small;
    await save("a", plan("Untitled"));
    await save("a", plan("Cellist"));
    const id = (await shoots.shootOf("a")) as string;
    const { shoot, plans } = await shoots.whole(id);
    expect(shoot).toMatchObject({ title: "Cellist", revision: 2, date: "2026-11-26", isPutAway: false });
    expect(plans).toMatchObject([{ key: "a", title: "Cellist", readings: 0, versions: [] }]);
    await shoots.change(id, 2, { title: "Season poster" });
    await save("a", plan("Cellist, tighter"));
    expect(await titles()).toEqual(["Season poster"]);
    expect(await shoots.shootOf("nothing")).toBeNull();
  });
  it("is moved with the frames shot on it; what it leaves bare is put away, what somebody filled in stays", async () => {
    const { shoots, save } = small;
    await save("a", plan("First"));
    await save("b", plan("Second"));
    const [a, b] = await Promise.all(["a", "b"].map((key) => shoots.shootOf(key)));
    await shoots.move("a", b as string);
    expect(await titles()).toEqual(["Second"]);
    expect(await titles({ putAway: true })).toEqual(["First"]);
    expect((await shoots.whole(b as string)).plans.map(({ key }) => key)).toEqual(["a", "b"]);
    await expect(shoots.move("a", "no such")).rejects.toThrow(/there is no shoot "no such"; choose one/);
    await expect(shoots.move("nothing", a as string)).rejects.toThrow(/no work "nothing" is kept/);
  });
});

describe("[LB21] a shoot's fields", () => {
  it("are kept trimmed, one revision after the other; a stale change is refused and nothing of it kept", async () => {
    const { shoots } = small;
    const made = await shoots.create({ client: " Town orchestra ", date: "2026-11-26" });
    expect(made).toMatchObject({ title: "Shoot of 2026-11-26", client: "Town orchestra", revision: 1 });
    expect(await shoots.create({})).toMatchObject({ title: "Shoot of 2026-11-26, 2" });
    const changed = await shoots.change(made.id, 1, { place: "Old granary" });
    expect(changed).toMatchObject({ client: "Town orchestra", place: "Old granary", revision: 2 });
    await expect(shoots.change(made.id, 1, { place: "Elsewhere" })).rejects.toThrow(
      /changed in another window/,
    );
    expect((await shoots.whole(made.id)).shoot).toEqual(changed);
  });
  it.each([
    [{ title: " " }, /a shoot without a title is not found again; give it one/],
    [{ title: "x".repeat(201) }, /the title has 201 characters; at most 200 are kept/],
    [{ date: "2026-02-30" }, /"2026-02-30" is no day; write it as 2026-11-26/],
    [{ notes: 7 as never }, /the notes is no text/],
  ])("%j is refused with the cure", async (fields, said) => {
    await expect(small.shoots.create(fields)).rejects.toThrow(said);
    expect(await titles()).toEqual([]);
  });
  it("put away: out of the list until it is asked for, nothing of it gone", async () => {
    const { shoots } = small;
    const { id } = await shoots.create({ title: "Old" });
    await shoots.change(id, 1, { isPutAway: true });
    expect(await titles()).toEqual([]);
    expect(await titles({ putAway: true })).toEqual(["Old"]);
    await shoots.change(id, 2, { isPutAway: false });
    expect(await titles()).toEqual(["Old"]);
  });
});

describe("[LB22] versions of a plan never change", () => {
  it("are numbered within their work, named, and given back as they were", async () => {
    const { shoots, save } = small;
    await save("a", plan("One", { lights: [{ name: "key" }] }));
    const first = await shoots.keepVersion("a", "");
    await save("a", plan("Two"));
    const second = await shoots.keepVersion("a", " softer ");
    expect([first, second]).toMatchObject([
      { number: 1, name: "version 1", isAutomatic: false },
      { number: 2, name: "softer" },
    ]);
    expect(await shoots.versionPlan(first.id)).toEqual(plan("One", { lights: [{ name: "key" }] }));
    expect(await shoots.renameVersion(first.id, "as planned")).toEqual({ ...first, name: "as planned" });
    const id = (await shoots.shootOf("a")) as string;
    const [{ versions }] = (await shoots.whole(id)).plans;
    expect(versions.map(({ name }) => name)).toEqual(["as planned", "softer"]);
    await expect(shoots.renameVersion(first.id, "")).rejects.toThrow(/give it one/);
    await expect(shoots.versionPlan("x")).rejects.toThrow(/there is no version "x"/);
    await expect(shoots.keepVersion("x", "")).rejects.toThrow(/no work "x" is kept/);
  });
});

describe("[LB23] what is placed", () => {
  const light = { name: "key", position: [3, 2, 2], direction: { at: [2, 4, 1.5] } };
  const panel = { name: "V-flat, black", position: [1, 4, 1.2], direction: { at: [2, 4, 1.5] } };
  const lit = {
    ...light,
    face: { shape: "disc", width: 1 },
    output: { wattSeconds: 400, stopsDown: 2 },
  };
  const flat = { ...panel, width: 1, height: 2, reflectance: 0.05 };
  const whole = (more: object) => ({
    format: "tapemark/plan",
    version: 1,
    ...plan("P", { room: { width: 5, depth: 6, height: 3 }, lights: [lit], panels: [flat], ...more }),
  });
  it("is ticked by whoever did it first, for things of the plan only, and told", async () => {
    const { shoots, save, told } = small;
    expect(await shoots.placed("a")).toEqual([]);
    await expect(shoots.place("a", "camera", true, "workbench")).rejects.toThrow(/no work "a" is kept here/);
    await save("a", whole({ backdrop: null }));
    await shoots.place("a", "lights/key", true, "Ida's tablet");
    await shoots.place("a", "lights/key", true, "workbench");
    await shoots.place("a", "panels/V-flat, black", true, "workbench");
    await shoots.place("a", "camera", true, "workbench");
    await shoots.place("a", "camera", false, "workbench");
    expect((await shoots.placed("a")).map(({ thing, by }) => [thing, by])).toEqual([
      ["lights/key", "Ida's tablet"],
      ["panels/V-flat, black", "workbench"],
    ]);
    expect(told.filter(({ kind }) => kind === "placed")).toHaveLength(4);
    for (const thing of ["backdrop", "lights/rim", "../x", ""])
      await expect(shoots.place("a", thing, true, "x")).rejects.toThrow(/look at the plan again/);
    await save("a", whole({ lights: [] }));
    expect((await shoots.placed("a")).map(({ thing }) => thing)).toEqual(["panels/V-flat, black"]);
  });
  it("a tick says what the thing was set up by then, and is made anew once the plan has changed that", async () => {
    const { shoots, save } = small;
    const isOld = async (saved: object) => {
      await save("a", saved);
      const checked = checkPlan(saved);
      const setUps = checked.ok ? setUpsOf(checked.plan) : new Map<string, string>();
      return (await shoots.placed("a")).map(({ thing, by, setUp }) => [
        thing,
        by,
        setUps.get(thing) !== setUp,
      ]);
    };
    await save("a", whole({}));
    await shoots.place("a", "lights/key", true, "Ida's tablet");
    await shoots.place("a", "camera", true, "Ida's tablet");
    expect(await isOld(whole({}))).toEqual([
      ["lights/key", "Ida's tablet", false],
      ["camera", "Ida's tablet", false],
    ]);
    expect(await isOld(whole({ lights: [{ ...lit, position: [3, 2, 2.3] }] }))).toEqual([
      ["lights/key", "Ida's tablet", true],
      ["camera", "Ida's tablet", false],
    ]);
    await shoots.place("a", "lights/key", true, "workbench");
    await shoots.place("a", "camera", true, "workbench");
    expect(await isOld(whole({ lights: [{ ...lit, position: [3, 2, 2.3] }] }))).toEqual([
      ["camera", "Ida's tablet", false],
      ["lights/key", "workbench", false],
    ]);
  });
});
