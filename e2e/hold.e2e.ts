/** The hold zone: drawn on the Floor, told in numbers, following the plan, hidden while somebody guesses. */
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { floor, launch, type Opened, openPage, type Served, serve, settled } from "./start.ts";

let browser: Browser;
let served: Served;
let opened: Opened;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());
beforeEach(async () => {
  served = await serve("examples/cellist.json");
  opened = await openPage(browser, served.url);
  await settled(opened.page);
});
afterEach(async () => {
  await opened.context.close();
  await served.stop();
  expect(opened.complaints).toEqual([]);
});

const button = (page: Page) => page.getByRole("button", { name: "hold zone" });
const panel = (page: Page) => page.getByRole("region", { name: "Hold zone" });
const row = (page: Page, way: string) =>
  panel(page)
    .getByRole("row")
    .filter({ has: page.getByRole("rowheader", { name: way, exact: true }) });
/** What is drawn has no roles: it is said in words in the panel. */
const outline = (page: Page) => floor(page).locator(".hold-layer .outline");
const words = (page: Page) => floor(page).locator(".hold-layer text").allTextContents();
const atRest = (page: Page) =>
  panel(page).and(page.locator("[aria-busy=false]")).waitFor({ timeout: 60_000 });

test("[HZ16] switched on, the zone is on the Floor with what ends it, and every number stands in Reading", async () => {
  const { page } = opened;
  expect(await outline(page).count()).toBe(0);
  expect(await panel(page).count()).toBe(0);
  await button(page).click();
  await atRest(page);
  expect(await button(page).getAttribute("aria-pressed")).toBe("true");
  const ahead = await row(page, "ahead").getByRole("cell").allTextContents();
  expect(ahead[0]).toMatch(/^\d+ cm$/);
  expect(ahead[1]).not.toBe("");
  expect(await panel(page).getByRole("row").count()).toBe(9);
  expect(await panel(page).textContent()).toMatch(
    /Inside it the light on the cellist stays as asked: Rembrandt, exposure and ratio within a third of a stop/,
  );
  expect(await panel(page).textContent()).not.toMatch(/safe/i);
  expect(await outline(page).getAttribute("d")).toMatch(/^M[\d.]+,[\d.]+L/);
  const drawn = await words(page);
  expect(drawn.some((text) => text.startsWith(ahead[0] as string))).toBe(true);
  expect(drawn.some((text) => /^circle \d+ cm$/.test(text))).toBe(true);
  await page.getByRole("button", { name: "feet" }).click();
  await expect.poll(() => row(page, "ahead").getByRole("cell").first().textContent()).toMatch(/″$/);
}, 90_000);

test("[HZ15] a plan that changes fades it until it is worked out anew; off, it is gone", async () => {
  const { page } = opened;
  await button(page).click();
  await atRest(page);
  const before = await outline(page).getAttribute("d");
  await floor(page)
    .getByRole("button", { name: /^cellist/ })
    .focus();
  await page.keyboard.press("Shift+ArrowRight");
  await expect.poll(() => floor(page).locator(".hold-layer.stale").count(), { timeout: 5_000 }).toBe(1);
  expect(await words(page)).toEqual([]);
  await expect
    .poll(() => floor(page).locator(".hold-layer:not(.stale)").count(), { timeout: 60_000 })
    .toBe(1);
  expect(await outline(page).getAttribute("d")).not.toBe(before);
  await button(page).click();
  expect(await outline(page).count()).toBe(0);
  expect(await panel(page).count()).toBe(0);
}, 90_000);

test("[HZ16] while somebody guesses neither drawing nor numbers are there", async () => {
  const { page } = opened;
  await button(page).click();
  await atRest(page);
  await page.getByRole("button", { name: "guess" }).click();
  expect(await outline(page).count()).toBe(0);
  expect(await panel(page).count()).toBe(0);
}, 90_000);
