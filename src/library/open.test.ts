import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { openLibrary } from "./open.ts";

it("[LB1] a library is made where there is none, and opens again", () => {
  const folder = mkdtempSync(join(tmpdir(), "tapemark-library-"));
  const path = join(folder, "deep", "library.tapemark");
  openLibrary(path).close();
  const { db, close } = openLibrary(path);
  expect(db.prepare("PRAGMA integrity_check").all()).toEqual([{ integrity_check: "ok" }]);
  close();
  rmSync(folder, { recursive: true });
});
