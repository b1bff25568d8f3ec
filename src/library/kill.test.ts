/** Killed at any moment: the library opens, is sound, and what was promised is there. */
import fs from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import { MIGRATIONS } from "./migrations.ts";
import { moveIn } from "./moved-in.ts";
import type { Library } from "./open.ts";
import { newFolder } from "./testing/fresh-library.ts";
import { type KillScenario, killed } from "./testing/kills.ts";
import { makeOldLibrary } from "./testing/old-library.ts";
import { savedWork } from "./testing/saved-work.ts";
import { createWorks } from "./works.ts";

const SEED = 20261126;
/** With the large counts on a machine that does other things too. */
const LONG_MS = 600_000;
const NEVER = { now: () => new Date(0), newId: () => "never" };

/** Looks whether each work is of one piece, and at the revision that was promised last ("KEY REVISION" in the lines of this
 * and earlier jobs), or at the next one whose answer was lost. */
function keeping(): (library: Library, lines: readonly string[]) => Promise<void> {
  const promised = new Map<string, number>();
  return async (library, lines) => {
    for (const line of lines) {
      const [key, revision] = line.split(" ");
      promised.set(key, Number(revision));
    }
    const works = createWorks(library, NEVER);
    const kept = new Map<string, number>();
    for (const { key } of await works.list()) {
      const work = await works.load(key);
      kept.set(key, work?.revision ?? 0);
      expect(work).toEqual(savedWork(key, work?.revision ?? 0));
    }
    for (const [key, revision] of promised) expect([revision, revision + 1]).toContain(kept.get(key));
    for (const [key, revision] of kept) promised.set(key, revision);
  };
}

describe(`[LB9] killed at any moment, seed ${SEED}`, { timeout: LONG_MS }, () => {
  it(`${amount(60)} among edits: every acknowledged one is there`, async () => {
    const scenario: KillScenario = { job: "edits", within_ms: 150, check: keeping() };
    // it works until it is killed
    expect(await killed(scenario, amount(60), SEED)).toBe(amount(60));
  });

  describe("while an old library is brought forward", () => {
    const WORKS = 1500;
    let old = "";
    beforeAll(() => {
      old = join(newFolder(), "old.tapemark");
      makeOldLibrary(old, 1, (db) => {
        const put = db.prepare(
          "INSERT INTO works (key, title, plan, history, revision, saved_at) VALUES (?, ?, ?, ?, 1, ?)",
        );
        for (let i = 0; i < WORKS; i++)
          put.run(`old-${i}`, `old ${i}`, `{"title":"old ${i}"}`, "null", "2026-10-05T12:00:00.000Z");
      });
    });
    it(`${amount(40)}: all works are there, each in a shoot of its own`, async () => {
      await killed(
        {
          job: "opening",
          within_ms: 60,
          prepare: (folder) => fs.copyFileSync(old, join(folder, "library.tapemark")),
          check({ db }) {
            const n = (sql: string) => (db.prepare(sql).get() as { n: number }).n;
            expect(n("SELECT count(*) AS n FROM works WHERE key LIKE 'old-%'")).toBe(WORKS);
            expect(n("SELECT count(*) AS n FROM works w JOIN shoots s ON s.id = w.shoot")).toBe(WORKS + 3);
            expect(n("SELECT count(*) AS n FROM shoots")).toBe(WORKS + 3);
            expect(n("SELECT user_version AS n FROM pragma_user_version")).toBe(MIGRATIONS.length);
          },
        },
        amount(40),
        SEED + 1,
      );
    });
  });

  it(`${amount(15)} while a library is begun: none, or a whole one`, async () => {
    await killed(
      {
        job: "opening",
        within_ms: 30,
        prepare: () => {},
        check: ({ db }) =>
          expect(db.prepare("PRAGMA user_version").get()).toEqual({ user_version: MIGRATIONS.length }),
      },
      amount(15),
      SEED + 2,
    );
  });

  it(`${amount(15)} while old files move in: all of them at the next start, each once, the files as they were`, async () => {
    const WORKS = 200;
    const fileOf = (i: number) =>
      JSON.stringify({ ...savedWork(`file-${i}`, 3), savedAt: "2026-10-05T12:00:00.000Z" });
    await killed(
      {
        job: "moving",
        within_ms: 40,
        prepare(folder) {
          fs.mkdirSync(join(folder, "data", "works"), { recursive: true });
          for (let i = 0; i < WORKS; i++)
            fs.writeFileSync(join(folder, "data", "works", `file-${i}.json`), fileOf(i));
        },
        async check(library, lines, folder) {
          const count = () =>
            library.db
              .prepare(
                "SELECT (SELECT count(*) FROM works) AS works, (SELECT count(*) FROM shoots) AS shoots",
              )
              .get();
          const before = count();
          expect([0, WORKS]).toContain(before.works);
          if (lines.includes("moved")) expect(before.works).toBe(WORKS);
          moveIn(library, join(folder, "data"), { ...NEVER, newId: () => crypto.randomUUID() });
          expect(count()).toEqual({ works: WORKS, shoots: WORKS });
          await keeping()(library, []);
          expect(fs.readFileSync(join(folder, "data", "works", "file-7.json"), "utf8")).toBe(fileOf(7));
        },
      },
      amount(15),
      SEED + 3,
    );
  });
});
