import { describe, expect, it } from "vitest";
import { ShootDraft } from "./shoots-draft.ts";
import { HandClock, OneShoot, SHOOT } from "./shoots-testing.ts";

function desk() {
  const library = new OneShoot();
  const clock = new HandClock();
  const draft = new ShootDraft(library, clock, library.shoot);
  return { library, clock, draft, state: () => draft.store.get() };
}

describe("[AP114] a shoot is written where it stands and kept by itself", () => {
  it("many keys are one change, once the hand is still", async () => {
    const { library, clock, draft, state } = desk();
    for (const place of ["M", "Mi", "Mill", "Mill, upstairs"]) draft.put({ place });
    expect([clock.many, state().state, draft.fields().place]).toEqual([1, "waiting", "Mill, upstairs"]);
    clock.pass();
    await draft.flush();
    expect(library.changes).toEqual([{ place: "Mill, upstairs" }]);
    expect([state().state, library.shoot.revision]).toEqual(["kept", 2]);
  });
  it("what was typed back to what is kept is no change", async () => {
    const { library, draft } = desk();
    draft.put({ title: "Cell" });
    draft.put({ title: SHOOT.title });
    await draft.flush();
    expect(library.changes).toEqual([]);
  });
  it("what is typed while the last is on its way is kept after it, and stays on screen", async () => {
    const { library, draft, state } = desk();
    draft.put({ notes: "bring" });
    const first = draft.flush();
    draft.put({ notes: "bring black velvet" });
    await first;
    expect([draft.fields().notes, state().state]).toEqual(["bring black velvet", "waiting"]);
    await draft.flush();
    expect(library.changes).toEqual([{ notes: "bring" }, { notes: "bring black velvet" }]);
  });
  it("what was taken back while it was on its way is taken back in the library too", async () => {
    const { library, draft } = desk();
    draft.put({ notes: "bring" });
    const first = draft.flush();
    draft.put({ notes: "" });
    await first;
    expect(draft.fields().notes).toBe("");
    await draft.flush();
    expect(library.shoot.notes).toBe("");
  });
  it("a library that is away keeps nothing, says so, and has it later", async () => {
    const { library, draft, state } = desk();
    library.isAway = true;
    draft.put({ client: "City Players" });
    await draft.flush();
    expect(state().trouble).toMatch(/does not answer; start it again/);
    expect(draft.fields().client).toBe("City Players");
    library.isAway = false;
    await draft.flush();
    expect([library.shoot.client, state().trouble]).toEqual(["City Players", null]);
  });
});

describe("[AP114] another window wrote there meanwhile", () => {
  it("in another field: both stand", async () => {
    const { library, draft, state } = desk();
    draft.put({ place: "Gallery" });
    await library.change("s1", 1, { client: "City Players" });
    await draft.flush();
    expect(library.shoot).toMatchObject({ place: "Gallery", client: "City Players", revision: 3 });
    expect([state().clash, state().state]).toEqual([null, "kept"]);
  });
  it("in the same field: it is asked about, nothing is kept over it, and either answer stands", async () => {
    for (const isMine of [true, false]) {
      const { library, draft, state } = desk();
      draft.put({ title: "Poster", notes: "velvet" });
      await library.change("s1", 1, { title: "Programme", place: "Gallery" });
      await draft.flush();
      expect(state().clash).toEqual({ title: "Programme" });
      expect([library.shoot.title, draft.fields().title]).toEqual(["Programme", "Poster"]);
      await (isMine ? draft.keepMine() : draft.takeTheirs());
      const title = isMine ? "Poster" : "Programme";
      expect(library.shoot).toMatchObject({ title, notes: "velvet", place: "Gallery" });
      expect([draft.fields().title, state().state]).toEqual([title, "kept"]);
    }
  });
  it("in the same field to the same words: nobody is asked", async () => {
    const { library, draft, state } = desk();
    draft.put({ title: "Poster" });
    await library.change("s1", 1, { title: "Poster" });
    await draft.flush();
    expect([state().clash, state().state, library.shoot.revision]).toEqual([null, "kept", 2]);
  });
  it("a third change while somebody is asked is part of the question", async () => {
    const { library, draft, state } = desk();
    draft.put({ title: "Poster" });
    await library.change("s1", 1, { title: "Programme" });
    await draft.flush();
    await library.change("s1", 2, { title: "Leaflet" });
    draft.meet(library.shoot);
    expect(state().clash).toEqual({ title: "Leaflet" });
    await library.change("s1", 3, { place: "Gallery" });
    draft.meet(library.shoot);
    expect(state().clash).toEqual({ title: "Leaflet" });
    await draft.keepMine();
    expect(library.shoot).toMatchObject({ title: "Poster", place: "Gallery" });
  });
  it("what is seen of others while nothing is typed simply stands", async () => {
    const { library, draft } = desk();
    await library.change("s1", 1, { date: null });
    draft.meet(library.shoot);
    expect([draft.fields().date, draft.fields().revision]).toEqual([null, 2]);
  });
});
