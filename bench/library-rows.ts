/** A library of 2,000 shoots and 50,000 frames beside one of a tenth of that. */
import { execFileSync } from "node:child_process";
import { randomUUID } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { readingOf } from "../src/files/testing/plain-reader.ts";
import { createShoots, openLibrary } from "../src/library/index.ts";
import type { ShootQuery } from "../src/shoots/index.ts";
import type { ShootLibrary } from "../src/workbench/index.ts";
import { fillLibrary, LARGE_SHOOT } from "./library-made.ts";
import type { Row } from "./work.ts";

/** As scripts/bundled.mjs writes it. */
const OPENS = resolve("dist/bundled/library-open/library-open.js");

/** From nothing asked for to everything at once. */
const QUERIES: readonly Omit<ShootQuery, "offset" | "limit">[] = [
  {},
  { text: "zoe harbour" },
  { text: "s" },
  { text: "V-flats bring" },
  { text: "nobody of that name" },
  { pattern: "Loop" },
  { light: "key", stars: 5 },
  { room: "5.50 × 6.00 m", from: "2024-01-01", to: "2025-06-30" },
  { text: "poster", pattern: "Rembrandt", light: "rim", stars: 3, from: "2022-01-01" },
];

interface Made {
  readonly path: string;
  readonly shoots: ShootLibrary;
}

/** @param isSmall a tenth of both, where all that matters is that it runs */
export function libraryRows(demo: unknown, isSmall: boolean): Row[] {
  let made: { large: Made; small: Made } | null = null;
  const libraries = () => {
    made ??= makeBoth(demo as Readonly<Record<string, unknown>>, isSmall ? 10 : 1);
    return made;
  };
  return [
    {
      name: `${isSmall ? "200" : "2,000"} shoots opened by a new process, first page of the list`,
      against: "a tenth of them",
      asked: 300,
      runs: 7,
      once: () => ({ ours: opened(libraries().large.path), other: opened(libraries().small.path) }),
    },
    ...[...QUERIES.map((query) => searchRow(query, libraries)), framesRow(libraries)],
  ];
}

function searchRow(
  query: Omit<ShootQuery, "offset" | "limit">,
  libraries: () => { large: Made; small: Made },
): Row {
  return {
    name: `search ${JSON.stringify(query)}`,
    against: "in a tenth",
    asked: 50,
    runs: 9,
    once: async (clock) => {
      const timed = async ({ shoots }: Made) => {
        const start = clock();
        await shoots.find({ ...query, offset: 0, limit: 50 });
        return clock() - start;
      };
      const { large, small } = libraries();
      return { ours: await timed(large), other: await timed(small) };
    },
  };
}

function framesRow(libraries: () => { large: Made; small: Made }): Row {
  return {
    name: "300 frames of a shoot listed",
    against: "the first 30 of them",
    asked: 50,
    runs: 9,
    once: async (clock) => {
      const { shoots } = libraries().large;
      const start = clock();
      const { rows } = await shoots.frames(LARGE_SHOOT, 0, 300);
      const middle = clock();
      await shoots.frames(LARGE_SHOOT, 0, 30);
      if (rows.length !== 300) throw new Error(`${rows.length} frames were listed`);
      return { ours: middle - start, other: clock() - middle };
    },
  };
}

function makeBoth(demo: Readonly<Record<string, unknown>>, part: number): { large: Made; small: Made } {
  const folder = mkdtempSync(join(tmpdir(), "tapemark-bench-library-"));
  process.once("exit", () => rmSync(folder, { recursive: true, force: true }));
  const one = (name: string, shoots: number, frames: number): Made => {
    const path = join(folder, `${name}.tapemark`);
    const around = { now: () => new Date(), newId: randomUUID };
    const library = openLibrary(path, around);
    fillLibrary(library, demo, readingOf("IMG_1.jpg", null), {
      shoots: shoots / part,
      frames: frames / part,
    });
    const writeSidecars = async () => ({ written: 0, unchanged: 0, problems: [] });
    return { path, shoots: createShoots(library, { ...around, news: { tell: () => {} }, writeSidecars }) };
  };
  return { large: one("large", 2000, 50_000), small: one("small", 200, 5000) };
}

function opened(path: string): number {
  const said = execFileSync(process.execPath, [OPENS, path], { encoding: "utf8" });
  const { took, rows } = JSON.parse(said) as { took: number; rows: number };
  if (rows === 0) throw new Error("nothing was listed");
  return took;
}
