/** The guide against the program that it describes. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { View } from "../src/app/bench.ts";
import { pageFor } from "../src/app/guide-places.ts";
import { type Block, guideText, type Inline, idOf, inlineOf } from "../src/app/guide-text.ts";

const FOLDER = "docs/guide";
const names = readdirSync(FOLDER).filter((name) => name.endsWith(".md"));
const pages = new Map(names.map((name) => [name, guideText(readFileSync(join(FOLDER, name), "utf8"))]));

const inlines = (block: Block): readonly Inline[] =>
  block.kind === "paragraph"
    ? block.parts
    : block.kind === "list"
      ? block.items.flat()
      : block.kind === "table"
        ? [...block.head, ...block.rows.flat()].flat()
        : [];

/** Every part of one kind, with the page that it stands on. */
function* each<Kind extends Block["kind"]>(kind: Kind): Generator<[string, Extract<Block, { kind: Kind }>]> {
  for (const [name, { blocks }] of pages)
    for (const block of blocks)
      if (block.kind === kind) yield [name, block as Extract<Block, { kind: Kind }>];
}

function* eachInline<Kind extends Inline["kind"]>(
  kind: Kind,
): Generator<[string, Extract<Inline, { kind: Kind }>]> {
  for (const [name, { blocks }] of pages)
    for (const part of blocks.flatMap(inlines))
      if (part.kind === kind) yield [name, part as Extract<Inline, { kind: Kind }>];
}

/** What the screen says, as it is written in the sources: between tags, or as a text of its own. */
const sources = ["src/app", "src/deliver"]
  .flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)))
  .filter((path) => /\.tsx?$/.test(path) && !/\.test\.ts$|\/guide-/.test(path))
  .map((path) => readFileSync(path, "utf8").replace(/\s+/g, " "))
  .join("\n");
const isOnScreen = (words: string): boolean => {
  const step = /^(\d) (.+)$/.exec(words);
  if (step !== null) return sources.includes(`number={${step[1]}} word="${step[2]}"`);
  const literal = words.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
  return new RegExp(`["'\`>]\\s?${literal}[,:]?\\s?["'\`<{]`).test(sources);
};

describe("the guide", () => {
  it("[GD1] ten pages in the order of the job, what the numbers mean, and what is left out; each is listed", () => {
    expect(names.filter((name) => /^\d\d-/.test(name))).toHaveLength(10);
    const listed = [...eachInline("link")].filter(([name]) => name === "README.md").map(([, { to }]) => to);
    expect(names.filter((name) => name !== "README.md" && !listed.includes(name))).toEqual([]);
    // a page is read standing: six hundred words at most
    for (const [name, { blocks }] of pages) {
      const words = blocks.flatMap(inlines).flatMap(({ text }) => text.split(/\s+/)).length;
      expect(words, name).toBeLessThan(600);
    }
  });

  it("[GD2] links lead to pages, headings and files that are there", () => {
    const lost: string[] = [];
    for (const [name, { to }] of eachInline("link")) {
      const [file, part] = to.split("#");
      const target = file === "" ? name : file;
      const page = pages.get(target);
      if (page === undefined && !statSync(join(FOLDER, target), { throwIfNoEntry: false })?.isFile())
        lost.push(`${name}: ${to}`);
      const ids = page?.blocks.flatMap((block) => (block.kind === "heading" ? [block.id] : [])) ?? [];
      if (part !== undefined && !ids.includes(part)) lost.push(`${name}: ${to}`);
    }
    expect(lost).toEqual([]);
    for (const [name, { text }] of eachInline("code")) {
      const file = /^docs\/[\w./-]+\.md$/.exec(text);
      if (file !== null)
        expect(statSync(text, { throwIfNoEntry: false })?.isFile(), `${name}: ${text}`).toBe(true);
    }
  });

  it("[GD3] pictures are there, small, shown somewhere, and made by the script", () => {
    const files = readdirSync(join(FOLDER, "pictures")).map((name) => `pictures/${name}`);
    const shown = [...each("picture")].map(([, { file }]) => file);
    expect(shown.filter((file) => !files.includes(file))).toEqual([]);
    expect(files.filter((file) => !shown.includes(file))).toEqual([]);
    const sizes = files.map((file) => statSync(join(FOLDER, file)).size);
    expect(Math.max(...sizes)).toBeLessThanOrEqual(60_000);
    expect(sizes.reduce((a, b) => a + b, 0)).toBeLessThan(2_000_000);
    const scenes = readFileSync("scripts/guide-scenes.mjs", "utf8");
    const made = [...scenes.matchAll(/^\s+name: "([\w-]+)",$/gm)].map(([, name]) => `pictures/${name}.webp`);
    expect(made.toSorted()).toEqual(files.toSorted());
    for (const [name, { says }] of each("picture")) expect(says.length, name).toBeGreaterThan(20);
  });

  it("[GD4] words in bold stand on the screen as they are written", () => {
    const lost = [...eachInline("strong")].filter(([, { text }]) => !isOnScreen(text));
    expect(lost.map(([name, { text }]) => `${name}: ${text}`)).toEqual([]);
    // and the check can fail
    expect(isOnScreen("make it lovely")).toBe(false);
    expect(isOnScreen("7 lunch")).toBe(false);
  });

  it("[GD5] commands are the shell's, on files that are there", () => {
    const commands = readFileSync("src/cli/help.ts", "utf8");
    for (const [name, { text }] of each("code")) {
      for (const line of text.split("\n")) {
        const call = /^node bin\/tapemark\.js ([\w-]+)((?: \S+)*)$/.exec(line);
        if (call === null) throw new Error(`${name}: "${line}" is no call of the shell`);
        expect(commands, line).toContain(`"${call[1]}",`);
        for (const [file] of line.matchAll(/examples\/\S+/g))
          expect(statSync(file).isFile(), line).toBe(true);
      }
    }
  });

  it("[GD6] every screen has its page", () => {
    const screens = /export type Screen =([^;]+);/.exec(readFileSync("src/app/bench.ts", "utf8"))?.[1] ?? "";
    const all = [...screens.matchAll(/"(\w+)"/g)].map(([, screen]) => screen).filter((s) => s !== "guide");
    expect(all.length).toBeGreaterThan(6);
    for (const screen of all) {
      const page = pageFor({ screen, shoot: "frames" } as unknown as View);
      expect(names, screen).toContain(`${page}.md`);
      if (screen !== "start") expect(page, screen).not.toBe("README");
    }
  });

  it("[GD7] what a page may be written in: headings, paragraphs, lists, tables, pictures, commands", () => {
    const { title, blocks } = guideText(
      "# A\n\n## How sure?\n\nOne\ntwo **b** `c` [d](e.md#f).\n\n- x\n  y\n- z\n\n1. w\n\n| a | b |\n|---|---|\n| c | d |\n\n![says](pictures/p.webp)\n\n```\nls\n```\n",
    );
    expect(title).toBe("A");
    expect(blocks.map(({ kind }) => kind)).toEqual([
      "heading",
      "paragraph",
      "list",
      "list",
      "table",
      "picture",
      "code",
    ]);
    expect(blocks[0]).toMatchObject({ id: "how-sure" });
    expect(blocks[1]).toEqual({
      kind: "paragraph",
      parts: [
        { kind: "text", text: "One two " },
        { kind: "strong", text: "b" },
        { kind: "text", text: " " },
        { kind: "code", text: "c" },
        { kind: "text", text: " " },
        { kind: "link", text: "d", to: "e.md#f" },
        { kind: "text", text: "." },
      ],
    });
    expect(blocks[2]).toMatchObject({ isOrdered: false, items: [inlineOf("x y"), inlineOf("z")] });
    expect(blocks[4]).toMatchObject({ rows: [[inlineOf("c"), inlineOf("d")]] });
    expect(idOf("What's new, and 2 more")).toBe("whats-new-and-2-more");
    expect(() => guideText("text")).toThrow(/begins with its title/);
    expect(() => guideText("# A\n\n```\nx")).toThrow(/not closed/);
  });
});
