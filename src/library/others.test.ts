import { expect, it } from "vitest";
import { EMPTY_SHELF, STARTER_SHELF } from "../gear/index.ts";
import { EMPTY_BOOK } from "../workbench/index.ts";
import { createGearShelf } from "./gear-shelf.ts";
import { openLibrary } from "./open.ts";
import { lookForOthers } from "./others.ts";
import { createShelfStore } from "./shelf-store.ts";
import { freshLibrary, plainAround } from "./testing/fresh-library.ts";
import { createWorks } from "./works.ts";

it("[LB15] what another copy saves is noticed by name; what is saved here is no news while nobody else writes", async () => {
  const here = freshLibrary();
  const there = openLibrary(here.path, plainAround());
  const [mine, theirs] = [
    createWorks(here, plainAround()),
    createWorks(there, { ...plainAround(), newId: () => "theirs" }),
  ];
  await mine.save("a", { revision: 1, plan: {}, history: null });
  const look = lookForOthers(here);
  expect(look()).toEqual([]);
  await mine.save("a", { revision: 2, plan: {}, history: null });
  expect(look()).toEqual([]);
  await theirs.save("b", { revision: 1, plan: {}, history: null, by: "window 9" });
  expect(look()).toEqual([
    { kind: "work", key: "a", revision: 2, by: null },
    { kind: "work", key: "b", revision: 1, by: "window 9" },
    { kind: "shoots", shoot: null },
  ]);
  expect(look()).toEqual([]);
  there.write((db) => db.exec("UPDATE shoots SET notes = 'bring the V-flats'"));
  expect(look()).toEqual([{ kind: "shoots", shoot: null }]);
  await createShelfStore(here, plainAround()).save(STARTER_SHELF, 0);
  await createShelfStore(there, plainAround()).save(EMPTY_SHELF, 1);
  await createGearShelf(there, plainAround()).save(EMPTY_BOOK);
  expect(look()).toEqual([{ kind: "gear" }, { kind: "shelf" }, { kind: "shoots", shoot: null }]);
  expect(look()).toEqual([]);
});
