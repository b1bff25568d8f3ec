/** A library in a folder of its own, for tests: with a clock and ids that can be foreseen. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { News } from "../../workbench/index.ts";
import { createHand, createShoots, createWorks, openLibrary, savedWorkNoter } from "../index.ts";

export function smallLibrary() {
  const folder = mkdtempSync(join(tmpdir(), "tapemark-shoots-"));
  const told: News[] = [];
  const listeners = new Set<(news: News) => void>();
  const sidecars: unknown[] = [];
  let [minute, id] = [0, 0];
  const parts = {
    now: () => new Date(Date.UTC(2026, 10, 26, 12, minute++)),
    newId: () => `id-${String(++id).padStart(4, "0")}`,
    news: {
      tell(news: News) {
        told.push(news);
        for (const listener of listeners) listener(news);
      },
      subscribe(listener: (news: News) => void) {
        listeners.add(listener);
        return () => void listeners.delete(listener);
      },
    },
  };
  const library = openLibrary(join(folder, "library.tapemark"), parts);
  // the disk is not what is tested with it
  library.db.exec("PRAGMA synchronous = OFF");
  const shoots = createShoots(library, {
    ...parts,
    writeSidecars: async (frames) => {
      sidecars.push(frames);
      return { written: frames.length, unchanged: 0, problems: [] };
    },
  });
  const works = createWorks(library, { ...parts, alongside: savedWorkNoter(library, parts) });
  return {
    ...{ folder, library, told, sidecars, parts, shoots, works },
    hand: createHand(library, parts.news),
    async save(key: string, plan: unknown) {
      const revision = ((await works.load(key))?.revision ?? 0) + 1;
      await works.save(key, { plan, history: null, revision });
    },
    /** as it was at first, without opening another file */
    empty() {
      for (const table of ["words", "facts", "placed", "frames", "versions", "works", "shoots", "about"])
        library.db.exec(`DELETE FROM ${table}`);
    },
    end() {
      library.close();
      rmSync(folder, { recursive: true });
    },
  };
}
