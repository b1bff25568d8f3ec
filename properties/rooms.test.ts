/** The rooms import to the left only, and what lies left of the adapters runs anywhere. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";

/** Which rooms each room may import, architecture.md: units, math -> photometry -> engine, figure, plan -> staging
 * -> gear -> safety -> reading, sheet -> finder, testframe, deliver -> shoots -> workbench -> files -> library -> app, phone,
 * cli, server. */
const RANK: Record<string, number> = {
  units: 0,
  math: 0,
  photometry: 1,
  engine: 2,
  figure: 2,
  plan: 2,
  staging: 3,
  gear: 3.2,
  safety: 3.5,
  reading: 4,
  sheet: 4,
  finder: 5,
  testframe: 5,
  deliver: 5,
  shoots: 6,
  workbench: 7,
  files: 8,
  library: 9,
  app: 10,
  phone: 10,
  cli: 10,
  server: 10,
};
const ADAPTERS = new Set(["app", "phone", "cli", "server"]);
/** Rooms that run on Node alone. What shell and server both do on the disk is in `files`. */
const NODE = new Set(["files", "library", "cli", "server"]);
/** A sheet prints what a reading says: the one import between rooms of a rank, types and words only. */
const ALSO = new Set(["sheet>reading"]);

function files(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? files(path) : /\.tsx?$/.test(name) ? [path] : [];
  });
}

const sources = files("src").map((file) => {
  const text = readFileSync(file, "utf8");
  return { file, room: file.split("/")[1], text, imports: ts.preProcessFile(text, true, true).importedFiles };
});

function forbidden(): string[] {
  const out: string[] = [];
  for (const { file, room, imports } of sources) {
    for (const { fileName } of imports) {
      if (!fileName.startsWith(".")) continue;
      const target = relative("src", resolve(dirname(file), fileName)).split("/")[0];
      if (target === room || target === "..") continue;
      const test = /\.test\.tsx?$/.test(file);
      const left = RANK[target] < RANK[room] || ALSO.has(`${room}>${target}`);
      const adapters = ADAPTERS.has(room) && ADAPTERS.has(target);
      if (!test && (!left || adapters)) out.push(`${file} imports ${fileName}`);
    }
  }
  return out;
}

describe("[AR1] rooms", () => {
  it("there is something to check", () => expect(sources.length).toBeGreaterThan(60));
  it("every room has its rank", () => {
    for (const { room } of sources) expect(RANK, room).toHaveProperty(room);
  });
  it("imports go to the left, types included", () => expect(forbidden()).toEqual([]));
  // documents, processes and the like do not compile there at all: tsconfig.json gives those rooms neither DOM nor Node
  it("left of the adapters nothing knows a clock, chance or Node", () => {
    const found: string[] = [];
    for (const { file, room, text, imports } of sources) {
      if (ADAPTERS.has(room) || NODE.has(room) || /\.test\.ts$/.test(file)) continue;
      const code = text.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "").replace(/"(?:[^"\\\n]|\\.)*"/g, '""');
      for (const word of ["Math.random", "Date.now", "new Date("])
        if (code.includes(word)) found.push(`${file}: ${word}`);
      for (const { fileName } of imports)
        if (fileName.startsWith("node:")) found.push(`${file}: ${fileName}`);
    }
    expect(found).toEqual([]);
  });
});
