/** Set-ups found for a brief: three answers on the first page, the form, the search, taking one. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  floor,
  launch,
  numbers,
  openPage,
  pattern,
  type Served,
  serve,
  settled,
  violations,
} from "./start.ts";

let browser: Browser;
let served: Served;
beforeAll(async () => {
  browser = await launch();
  served = await serve("examples/cellist.json");
});
afterAll(async () => {
  await browser.close();
  await served.stop();
});

const SEARCH = { timeout: 60_000 };
const toFind = (page: Page) => page.getByRole("button", { name: "find a set-up" }).click();
const find = (page: Page) => page.getByRole("button", { name: /^find (set-ups|again)$/ });
const brief = (page: Page) => page.getByRole("form", { name: "Brief" });
const wish = (page: Page, name: string) => brief(page).getByLabel(`${name}, brief`, { exact: true });
const answers = (page: Page) => page.getByRole("article");
async function ask(page: Page, name: string, typed: string): Promise<void> {
  await wish(page, name).fill(typed);
  await wish(page, name).press("Enter");
}

/** What sticks out, is cut, or is too small to be hit. */
const FAULTS = `(() => {
  const wide = document.documentElement.clientWidth;
  const out = document.documentElement.scrollWidth > wide ? ["sideways"] : [];
  for (const e of document.querySelectorAll("button, input, select, p, dt, dd, h1, h2, h3, figcaption, summary")) {
    if (e.closest(".visually-hidden")) continue;
    const box = e.getBoundingClientRect();
    if (box.width === 0) continue;
    if (box.left < -0.5 || box.right > wide + 0.5) out.push("outside: " + e.textContent);
    if (e.matches("button, input:not([type=radio]), select") && (box.height < 23.9 || box.width < 23.9)) out.push("small: " + e.outerHTML);
    if (e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline") out.push("cut: " + e.outerHTML.slice(0, 160));
  }
  return out;
})()`;

describe("a new plan", () => {
  test("[AP87] three answers, and a set-up that meets them is on the table", async () => {
    const empty = await serve();
    const { page, context, complaints } = await openPage(browser, empty.url, { bypassCSP: true });
    await page.getByRole("radio", { name: /found for the look/ }).check();
    await page.getByLabel("pattern").selectOption("loop");
    await page.getByLabel("lit side").selectOption("right");
    await page.getByLabel("kit").selectOption("one small flash");
    expect(await violations(page)).toEqual([]);
    await page.getByRole("button", { name: "find a set-up" }).click();
    await pattern(page).waitFor(SEARCH);
    await settled(page);
    expect(await pattern(page).textContent()).toBe("Loop");
    expect(await page.getByRole("region", { name: "Reading" }).textContent()).toContain("own right lit");
    expect(await page.getByLabel("title of the job").inputValue()).toBe("Loop, own right lit");
    await toFind(page);
    expect(await wish(page, "pattern").inputValue()).toBe("loop");
    expect(await page.getByRole("heading", { name: /set-ups? fits?/ }).count()).toBe(1);
    expect(complaints).toEqual([]);
    await context.close();
    await empty.stop();
  });
});

describe("the form", () => {
  test("[AP80] [AP81] [AP83] every change is a step of the plan's brief; undo takes it back", async () => {
    const { page, context, complaints } = await openPage(browser, served.url);
    await settled(page);
    await toFind(page);
    expect(await wish(page, "ratio").inputValue()).toBe("free");
    expect(await page.getByRole("button", { name: "undo" }).isDisabled()).toBe(true);
    await wish(page, "pattern").selectOption("rembrandt");
    await ask(page, "ratio", "1.5 ± 0.3");
    expect(await wish(page, "ratio").inputValue()).toBe("1.2 to 1.8 stops");
    await ask(page, "aperture", "f/8 + 0.3");
    expect(await wish(page, "aperture").inputValue()).toBe("f/8 + 0.0 to f/8 + 0.6");
    await ask(page, "catchlight", "1:30");
    expect(await wish(page, "catchlight").inputValue()).toBe("1:30 ± 0:30");
    await page.getByRole("button", { name: "feet" }).click();
    await ask(page, "lens to face", "6 to 9");
    expect(await wish(page, "lens to face").inputValue()).toBe("6′ 0″ to 9′ 0″");
    await page.getByRole("button", { name: "metres" }).click();
    expect(await wish(page, "lens to face").inputValue()).toBe("1.83 to 2.74 m");
    await ask(page, "shadow edge", "softish");
    expect(await brief(page).getByRole("alert").textContent()).toMatch(/no range.*Kept free/);
    await wish(page, "shadow edge").press("Escape");
    await brief(page).getByText("400 Ws; octagon 1.50 m").click();
    await brief(page).getByLabel("full power, key").fill("200");
    await brief(page).getByLabel("full power, key").press("Enter");
    expect(await brief(page).getByText("200 Ws; octagon 1.50 m").count()).toBe(1);
    const undo = page.getByRole("button", { name: "undo" });
    await undo.click();
    expect(await brief(page).getByText("400 Ws; octagon 1.50 m").count()).toBe(1);
    await undo.click();
    expect(await wish(page, "lens to face").inputValue()).toBe("free");
    await page.getByRole("button", { name: "back to the plan" }).click();
    const step = page.getByRole("navigation", { name: "The job" }).getByRole("listitem").first();
    expect(await step.textContent()).toContain("Rembrandt; ratio 1.2 to 1.8 stops");
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe("the search", () => {
  test("[AP84] [AP85] [AP86] [AP88] it is stopped, runs, and one of its answers is taken and given back", async () => {
    const own = await serve("examples/cellist.json");
    const { page, context, complaints } = await openPage(browser, own.url, { bypassCSP: true });
    await settled(page);
    const placed = () =>
      numbers(page)
        .getByLabel(/^from left wall/)
        .inputValue();
    await floor(page).getByRole("button", { name: /^key/ }).focus();
    const before = await placed();
    await toFind(page);
    await wish(page, "pattern").selectOption("loop");
    await wish(page, "lit side").selectOption("right");
    await find(page).click();
    await page.getByRole("progressbar", { name: "the search" }).waitFor();
    await page.getByRole("button", { name: "stop" }).click();
    await page
      .getByRole("main")
      .getByText(/^Stopped/)
      .waitFor({ timeout: 2000 });
    expect(await answers(page).count()).toBe(0);

    await find(page).click();
    await page.getByRole("heading", { level: 2, name: /fit|nearest/ }).waitFor(SEARCH);
    const many = await answers(page).count();
    expect(many).toBeGreaterThan(0);
    expect(many).toBeLessThanOrEqual(5);
    const title = await answers(page).first().getByRole("heading").textContent();
    expect(await page.evaluate("document.activeElement.textContent")).toBe(title);
    expect(await answers(page).first().getByRole("definition").first().textContent()).toContain("Loop");
    expect(await violations(page)).toEqual([]);
    for (const [width, height] of [
      [390, 844],
      [1024, 768],
      [1440, 900],
    ] as const) {
      await page.setViewportSize({ width, height });
      expect([width, await page.evaluate(FAULTS)]).toEqual([width, []]);
    }
    await page.getByRole("button", { name: "dim" }).click();
    expect(await violations(page)).toEqual([]);

    await wish(page, "pattern").selectOption("split");
    expect(await page.getByText(/changed since/).count()).toBe(1);
    await page.getByRole("button", { name: "undo" }).click();
    expect(await page.getByText(/changed since/).count()).toBe(0);

    await page
      .getByRole("button", { name: /^take this plan/ })
      .first()
      .click();
    await settled(page);
    expect(await page.getByLabel("title of the job").inputValue()).toBe("Cellist, season poster");
    expect(await pattern(page).textContent()).toBe("Loop");
    expect(await page.getByRole("region", { name: "Reading" }).textContent()).toContain("own right lit");
    await floor(page).getByRole("button", { name: /^key/ }).focus();
    expect(await placed()).not.toBe(before);
    await page.keyboard.press("Control+z");
    expect(await placed()).toBe(before);
    expect(complaints).toEqual([]);
    await context.close();
    await own.stop();
  });
});
