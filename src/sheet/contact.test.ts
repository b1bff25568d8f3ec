import { expect, it } from "vitest";
import { type ContactCell, contactPage } from "./contact.ts";
import { overlap } from "./labels.ts";
import { PAPER_SIZE } from "./placement.ts";
import { textsOf } from "./testing/read-page.ts";

const picture = { data: "iVBORw0KGgo=", width: 320, height: 267 };
const cell = (does: string, more: Partial<ContactCell> = {}): ContactCell => ({
  ...{ does, why: null, picture, notes: ["the head stays; light on the face unchanged"] },
  direction: "Rembrandt still; light 53° to own left, 37° up; catchlight 2:00 to 1:30",
  power: "lit cheek −0.2 stop; ratio −0.1 stop; background +0.1 stop; headroom +0.1 stop",
  ...more,
});
const long = "Large octagonal softbox on the rolling stand, its inner diffuser taken out ".repeat(4);
const SHEETS = {
  short: Array.from({ length: 9 }, (_, i) => cell(`move ${i}`)),
  long: Array.from({ length: 9 }, () => cell(long, { direction: long, power: long, notes: [long, long] })),
  blocked: [
    cell("as the plan stands"),
    ...Array.from({ length: 8 }, () =>
      cell("light up", { why: long, picture: null, direction: "", power: "", notes: [] }),
    ),
  ],
};

it.each(
  Object.entries(SHEETS).flatMap(([name, cells]) =>
    (["a4", "letter"] as const).map((paper) => ({ name, cells, paper })),
  ),
)("[RC15] one page, nothing over another: $name on $paper", ({ cells, paper }) => {
  const [width, height] = PAPER_SIZE[paper];
  const page = contactPage({ title: long, about: long, cells }, { paper, date: "21 November 2026" });
  const texts = textsOf(page);
  expect(texts.length).toBeGreaterThan(9);
  for (const { text, box } of texts)
    expect(box.x0 >= 10 && box.y0 >= 10 && box.x1 <= width - 10 && box.y1 <= height - 10, text).toBe(true);
  const boxes = texts.map(({ box }) => box);
  const frames = [...page.matchAll(/<rect x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"/g)]
    .map((m) => m.slice(1).map(Number))
    .slice(1)
    .map(([x, y, w, h]) => ({ x0: x, y0: y, x1: x + w, y1: y + h }));
  expect(frames).toHaveLength(9);
  for (const { y1, x1 } of frames) expect(y1 < height - 10 && x1 <= width - 10).toBe(true);
  // what is written in place of a frame lies within it
  const under = cells.some(({ picture: shown }) => shown === null) ? [] : frames;
  const all = [...boxes, ...under];
  expect(all.flatMap((a, i) => all.slice(i + 1).filter((b) => overlap(a, b)))).toEqual([]);
});

it("[RC12] a move that cannot be made says why in place of its frame", () => {
  const cells = [cell("as the plan stands"), cell("light up", { why: "no light is on", picture: null })];
  const page = contactPage({ title: "Cellist", about: "cellist", cells }, { paper: "a4" });
  expect(page.match(/<image/g)).toHaveLength(1);
  expect(page).toContain("no light is on");
});

it("[RC13] direction and power stand under names of their own", () => {
  const page = contactPage({ title: "Cellist", about: "", cells: [cell("key up 15 cm")] }, { paper: "a4" });
  const texts = textsOf(page).map(({ text }) => text);
  expect(texts.indexOf("direction")).toBeGreaterThan(texts.indexOf("key up 15 cm"));
  expect(texts.indexOf("power")).toBeGreaterThan(texts.indexOf("direction"));
});
