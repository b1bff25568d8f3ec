/** Killed while an archive comes in, while a copy is made, while somebody goes back to one. */
import fs from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import { clearArriving } from "./archive-arriving.ts";
import { exportShoots } from "./archive-export.ts";
import { copyLibrary } from "./copies.ts";
import { demandSound } from "./copies-sound.ts";
import { copiesFolder } from "./daily.ts";
import { type Library, openLibrary } from "./open.ts";
import { cellistShoot, fill } from "./testing/filled-library.ts";
import { newFolder, plainAround } from "./testing/fresh-library.ts";
import { killed } from "./testing/kills.ts";

const SEED = 20261127;
const LONG_MS = 600_000;
const SHOOTS = 6;
const PHOTOGRAPH = Buffer.alloc(300_000, 9);
let made: string;
const at = (name: string) => join(made, name);
const titleOf = (library: Library) =>
  (library.db.prepare("SELECT title FROM shoots ORDER BY id").get() as { title: string } | undefined)?.title;

beforeAll(async () => {
  made = newFolder();
  const library = openLibrary(at("library.tapemark"), plainAround());
  for (let i = 0; i < SHOOTS; i++) {
    const shoot = cellistShoot(`shoot-${i}`);
    const frames = shoot.frames.map((frame) => ({ ...frame, photograph: frame.photograph && PHOTOGRAPH }));
    fill(library, { ...shoot, frames }, at("card"));
  }
  await exportShoots(library, "all", at("archive.zip"));
  await copyLibrary(library.path, at("copy.tapemark"));
  library.write((db) => db.exec("UPDATE shoots SET title = 'worked on since'"));
  await copyLibrary(library.path, at("since.tapemark"));
  library.close();
}, LONG_MS);
afterAll(() => fs.rmSync(made, { recursive: true }));

describe(`killed at any moment, seed ${SEED}`, { timeout: LONG_MS }, () => {
  it(`[LB55] ${amount(35)} while an archive comes in: all of it or nothing, and nothing of it lies about`, async () => {
    await killed(
      {
        job: "archive",
        within_ms: 250,
        prepare(folder) {
          fs.linkSync(at("archive.zip"), join(folder, "archive.zip"));
          fs.mkdirSync(join(folder, "photographs", "mine"), { recursive: true });
        },
        check(library, lines, folder) {
          clearArriving(library);
          const rows = library.db.prepare("SELECT path FROM frames WHERE path IS NOT NULL").all();
          const { n } = library.db.prepare("SELECT count(*) AS n FROM shoots").get() as { n: number };
          expect([0, SHOOTS]).toContain(n);
          if (lines.includes("taken in")) expect(n).toBe(SHOOTS);
          expect(rows).toHaveLength(n * 2);
          for (const { path } of rows as { path: string }[])
            expect(fs.readFileSync(path).equals(PHOTOGRAPH)).toBe(true);
          // a folder of somebody's own stays, and no other is there but those of shoots
          expect(fs.readdirSync(join(folder, "photographs")).sort()).toEqual(
            n === 0 ? ["mine"] : ["mine", ...Array.from({ length: SHOOTS }, (_, i) => `shoot-${i}`)],
          );
        },
      },
      amount(35),
      SEED,
    );
  });
  it(`[LB56] ${amount(20)} while copies are made: each that has its name is whole`, async () => {
    await killed(
      {
        job: "copies",
        within_ms: 250,
        prepare: (folder) => fs.copyFileSync(at("since.tapemark"), join(folder, "library.tapemark")),
        check(library, lines) {
          const folder = copiesFolder(library.path);
          const copies = fs.existsSync(folder)
            ? fs.readdirSync(folder).filter((name) => !name.startsWith("."))
            : [];
          for (const line of lines.slice(1)) expect(fs.existsSync(line)).toBe(true);
          expect(copies.length).toBeGreaterThanOrEqual(lines.length - 1);
          for (const name of copies) expect(demandSound(join(folder, name), name).shoots).toBe(SHOOTS);
        },
      },
      amount(20),
      SEED + 1,
    );
  });
  it(`[LB56] ${amount(15)} while somebody goes back to a copy: the library is there, as it was or as the copy`, async () => {
    await killed(
      {
        job: "restore",
        within_ms: 60,
        prepare(folder) {
          fs.copyFileSync(at("since.tapemark"), join(folder, "library.tapemark"));
          fs.copyFileSync(at("copy.tapemark"), join(folder, "copy.tapemark"));
        },
        check(library, lines, folder) {
          const isBack = titleOf(library) === "Cellist / season poster";
          if (lines.includes("restored")) expect(isBack).toBe(true);
          const aside = fs.readdirSync(folder).find((name) => name.includes("set aside"));
          if (isBack) {
            const before = openLibrary(join(folder, aside ?? ""), plainAround());
            expect(titleOf(before)).toBe("worked on since");
            before.close();
          } else expect(titleOf(library)).toBe("worked on since");
        },
      },
      amount(15),
      SEED + 2,
    );
  });
});
