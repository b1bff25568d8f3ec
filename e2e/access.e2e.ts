/** For every hand, eye and ear: keyboard, names, contrast, sizes of screen. */
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import {
  drawn,
  floor,
  launch,
  numbers,
  openAlone,
  read,
  type Served,
  SharedPage,
  serve,
  settled,
  violations,
} from "./start.ts";

let browser: Browser;
let served: Served;
let page: Page;
const shared = new SharedPage();

beforeAll(async () => {
  browser = await launch();
  served = await serve("examples/cellist.json");
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});
beforeEach(async () => {
  ({ page } = await shared.get(() => openAlone(browser, served.url, { bypassCSP: true })));
});
afterEach(async ({ task }) => {
  await page.emulateMedia({ colorScheme: null });
  await page.setViewportSize({ width: 1440, height: 900 });
  expect(await shared.putBack(task.result?.state !== "fail")).toEqual([]);
});

describe("[AP13] axe-core finds nothing", () => {
  test.each(["light", "dark"] as const)(
    "in the %s scheme, with an object taken hold of and the probe set",
    async (colorScheme) => {
      await page.emulateMedia({ colorScheme });
      await settled(page);
      expect(await violations(page)).toEqual([]);
      await floor(page).getByRole("button", { name: /^key/ }).focus();
      await page.getByRole("button", { name: "probe", exact: true }).click();
      await page.getByLabel("aperture").fill("8.4");
      await page.getByLabel("aperture").press("Enter");
      expect(await violations(page)).toEqual([]);
      await page.getByRole("button", { name: "probe", exact: true }).click();
    },
  );
});

describe("keyboard and ear", () => {
  test("[AP8] every object is reached and named; keys nudge, and the reading is announced", async () => {
    await read(page);
    const names = await floor(page)
      .getByRole("button")
      .all()
      .then((all) => Promise.all(all.map((one) => one.getAttribute("aria-label"))));
    expect(names).toHaveLength(8);
    for (const name of names as string[]) expect(name).toMatch(/from the (left|right) wall/);
    const key = floor(page).getByRole("button", { name: /^key/ });
    await key.focus();
    const across = numbers(page).getByLabel(/^from left wall/);
    const start = Number.parseFloat(await across.inputValue());
    await page.keyboard.press("ArrowRight");
    expect(Number.parseFloat(await across.inputValue())).toBeCloseTo(start + 0.01, 6);
    await page.keyboard.press("Shift+ArrowLeft");
    expect(Number.parseFloat(await across.inputValue())).toBeCloseTo(start - 0.09, 6);
    const bearing = numbers(page).getByLabel(/^bearing/);
    const from = Number.parseFloat(await bearing.inputValue());
    await page.keyboard.press(".");
    await page.keyboard.press("Alt+ArrowRight");
    // the aim is kept to the millimetre of its point, which is a tenth of a degree at this distance
    expect(Math.abs(Number.parseFloat(await bearing.inputValue()) - from - 2)).toBeLessThan(0.15);
    await settled(page);
    expect(await page.getByRole("status").textContent()).toMatch(
      /lit, .*stops? cheek to cheek; chin f\/.*to clipping\./,
    );
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    expect(Number.parseFloat(await across.inputValue())).toBeCloseTo(start, 6);
  });

  test("[AP8] the whole bench is walked with Tab, and focus is seen", async () => {
    await read(page);
    const seen = new Set<string>();
    for (let step = 0; step < 150; step++) {
      await page.keyboard.press("Tab");
      const at = (await page.evaluate(`(() => {
        const e = document.activeElement;
        if (e === document.body) return "";
        if (e.dataset.owner !== undefined) return e.closest("svg").getAttribute("aria-label") + ": " + e.dataset.owner;
        return e.getAttribute("aria-label") ?? e.labels?.[0]?.textContent ?? e.textContent;
      })()`)) as string;
      seen.add(at.trim());
    }
    for (const owner of ["lights[0]", "people[0]", "camera", "panels[0]", "meters[2]", "backdrop"]) {
      expect([...seen].filter((name) => name.endsWith(`: ${owner}`))).toHaveLength(2);
    }
    for (const wanted of [/^title/, /^open$/, /^key/, /^probe$/, /^aperture/, /^clipping$/]) {
      expect([...seen].some((name) => wanted.test(name))).toBe(true);
    }
  });
});

describe("[AP12] themes", () => {
  test("the system decides until one is chosen; the choice is there again after a reload", async () => {
    // a page of its own: what is chosen is kept
    const { page, context } = await openAlone(browser, served.url, { colorScheme: "dark" });
    await drawn(page);
    const paper = () => page.evaluate("getComputedStyle(document.documentElement).backgroundColor");
    const dim = await paper();
    expect(await page.getByRole("button", { name: "dim", exact: true }).getAttribute("aria-pressed")).toBe(
      "true",
    );
    await page.getByRole("button", { name: "light", exact: true }).first().click();
    const light = await paper();
    expect(light).not.toBe(dim);
    await page.reload();
    expect(await paper()).toBe(light);
    await context.close();
  });
});

describe("[AP13] sizes of screen", () => {
  test.each([
    [1440, 900],
    [1024, 768],
    [390, 844],
  ])("at %i × %i nothing sticks out sideways and every button is at least 24 px", async (width, height) => {
    await page.setViewportSize({ width, height });
    await settled(page);
    await floor(page).getByRole("button", { name: /^key/ }).focus();
    const report = (await page.evaluate(`(() => {
      const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;
      const out = [];
      for (const e of document.querySelectorAll("button, input, select, textarea, p, dd, h1, h2, figcaption")) {
        if (e.closest(".visually-hidden")) continue;
        const box = e.getBoundingClientRect();
        if (box.width === 0) continue;
        if (box.left < -0.5 || box.right > document.documentElement.clientWidth + 0.5) out.push("outside: " + e.textContent);
        if (e.matches("button, input, select") && (box.height < 23.9 || box.width < 23.9)) out.push("small: " + e.textContent);
        if (e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline") out.push("cut: " + e.outerHTML.slice(0, 120));
      }
      return { wide, out };
    })()`)) as { wide: number; out: string[] };
    expect(report).toEqual({ wide: 0, out: [] });
  });
});
