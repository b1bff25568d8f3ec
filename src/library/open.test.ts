import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { libraryPath, openLibrary } from "./open.ts";
import { freshLibrary, newFolder, plainAround } from "./testing/fresh-library.ts";

it("[LB1] a library is made where there is none, and opens again", () => {
  const path = join(newFolder(), "deep", "library.tapemark");
  openLibrary(path, plainAround()).close();
  const { db, close } = openLibrary(path, plainAround());
  expect(db.prepare("PRAGMA integrity_check").all()).toEqual([{ integrity_check: "ok" }]);
  close();
});

it("[LB1] every commit waits for the disk, and readers go on beside a writer", () => {
  const { db } = freshLibrary();
  const is = (name: string) => Object.values(db.prepare(`PRAGMA ${name}`).get());
  expect([is("journal_mode"), is("synchronous"), is("foreign_keys")]).toEqual([["wal"], [2], [1]]);
});

describe("[LB17] where the library lies", () => {
  it.each([
    [null, {}, "/data/library.tapemark"],
    [null, { TAPEMARK_LIBRARY: "" }, "/data/library.tapemark"],
    [null, { TAPEMARK_LIBRARY: "/own/shoots.tapemark" }, "/own/shoots.tapemark"],
    ["/named", { TAPEMARK_LIBRARY: "/own/shoots.tapemark" }, "/named"],
    ["here", {}, join(process.cwd(), "here")],
  ] as const)("%j and %j", (asked, env, path) => {
    expect(libraryPath(asked, env, "/data")).toBe(resolve(path));
  });
});
