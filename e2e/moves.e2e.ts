/** The small moves round the print, as somebody meets them. */

import { readFileSync } from "node:fs";
import { rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { launch, numbers, openAlone, type Served, SharedPage, serve, settled } from "./start.ts";

let browser: Browser;
let demo: Served;
let bare: Served;
/** nobody, and no light */
const BARE = join(tmpdir(), `nobody-${process.pid}.json`);

beforeAll(async () => {
  browser = await launch();
  demo = await serve("examples/cellist.json");
  const plan = JSON.parse(readFileSync("examples/cellist.json", "utf8"));
  const camera = { ...plan.camera, orientation: "landscape" };
  await writeFile(BARE, JSON.stringify({ ...plan, people: [], lights: [], meters: [], camera }));
  bare = await serve(BARE);
});
afterAll(async () => {
  await browser.close();
  await demo.stop();
  await bare.stop();
  await rm(BARE, { force: true });
});

const shared = new SharedPage();
async function openDemo(): Promise<Page> {
  const { page } = await shared.get(() => openAlone(browser, demo.url));
  await triedOnce(page);
  return page;
}
afterEach(async ({ task }) => {
  expect(await shared.putBack(task.result?.state === "pass")).toEqual([]);
});

const ring = (page: Page) => page.getByRole("toolbar", { name: "Moves" });
const move = (page: Page, name: RegExp) => ring(page).getByRole("button", { name });

/** Every move has its pattern and its change; the fine round may still be under way. */
async function triedOnce(page: Page): Promise<void> {
  await settled(page);
  for (const button of await ring(page).getByRole("button").all())
    await button
      .getByText(/same.f|stops?$|no light|cannot/)
      .first()
      .waitFor({ timeout: 60_000 });
}

/** Names of the buttons that overlap another or the print, and what is wider than its place. */
const OVERLAPS = `(() => {
  const boxes = [...document.querySelectorAll("[role=toolbar][aria-label=Moves] button")];
  const print = document.querySelector("section[aria-labelledby=frame-title]");
  const wrong = [];
  const all = [...boxes, print].map((e) => [e.textContent.slice(0, 24), e.getBoundingClientRect()]);
  all.forEach(([a, p], i) => all.slice(i + 1).forEach(([b, q]) => {
    if (p.left < q.right - 0.5 && q.left < p.right - 0.5 && p.top < q.bottom - 0.5 && q.top < p.bottom - 0.5)
      wrong.push(a + " over " + b);
  }));
  for (const e of boxes) if (e.scrollWidth > e.clientWidth + 1) wrong.push("cut: " + e.textContent);
  const sideways = document.documentElement.scrollWidth - innerWidth;
  if (sideways > 0) wrong.push("sideways " + sideways);
  return wrong;
})()`;

describe("moves round the print", () => {
  it("[MV16] eight are tried, each with pattern and change; one that is chosen is one undoable step, and announced", async () => {
    const page = await openDemo();
    expect(await ring(page).getByRole("button").count()).toBe(8);
    expect(await page.locator(".moves canvas:not(.picture)").count()).toBe(8);
    const left = move(page, /^camera 10° left/);
    expect(await left.textContent()).toMatch(/Rembrandt same\u00a0f.*light on the face unchanged/);
    await left.click();
    await page
      .getByRole("status")
      .getByText(/Taken: camera round 10° to the left/)
      .waitFor();
    const undo = page.getByRole("button", { name: "undo camera round 10° to the left" });
    await undo.waitFor();
    await numbers(page).getByRole("button", { name: "camera", exact: true }).click();
    const across = numbers(page).getByLabel(/^from left wall/);
    // 2.7 m from the head, at the sine of 10°; the field shows centimetres
    const there = 3.5 - 2.7 * Math.sin((10 * Math.PI) / 180);
    expect(Number.parseFloat(await across.inputValue())).toBeCloseTo(there, 2);
    await undo.click();
    await expect.poll(async () => Number.parseFloat(await across.inputValue())).toBe(3.5);
    expect(await page.getByRole("button", { name: /^undo/ }).isDisabled()).toBe(true);
  });

  it("[MV15] one stop for Tab, arrows by place, Enter takes", async () => {
    const page = await openDemo();
    const stops = await ring(page).locator("[tabindex='0']").count();
    expect(stops).toBe(1);
    const focused = () => page.evaluate("document.activeElement.textContent");
    await ring(page).getByRole("button").first().focus();
    await page.keyboard.press("ArrowDown");
    expect(await focused()).toMatch(/^camera 10° left/);
    await page.keyboard.press("ArrowRight");
    expect(await focused()).toMatch(/^camera 10° right/);
    await page.keyboard.press("ArrowRight");
    expect(await focused()).toMatch(/^camera 10° right/);
    await page.keyboard.press("End");
    await page.keyboard.press("ArrowLeft");
    await page.keyboard.press("Home");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    await page
      .getByRole("status")
      .getByText(/Taken: camera round 10° to the left/)
      .waitFor();
    expect(await focused()).toMatch(/^camera 10° left/);
    // the picture of the plan as it was stays until the new one is there
    expect(await page.locator(".moves canvas:not(.picture)").count()).toBe(8);
  });

  it("[MV8] what cannot be made is an empty frame with its reason, and does nothing", async () => {
    const { page, context } = await openAlone(browser, bare.url);
    await settled(page);
    const all = await ring(page).getByRole("button").all();
    expect(all).toHaveLength(8);
    for (const button of all) {
      expect(await button.textContent()).toContain("nobody is in the plan");
      expect(await button.getAttribute("aria-disabled")).toBe("true");
    }
    await all[0].click({ force: true });
    expect(await page.getByRole("button", { name: /^undo/ }).isDisabled()).toBe(true);
    expect(await page.evaluate(OVERLAPS)).toEqual([]);
    await context.close();
  });

  for (const [width, height] of [
    [1440, 900],
    [1024, 768],
    [390, 844],
  ] as const) {
    it(`[MV17] nothing overlaps or is cut at ${width} x ${height}`, async () => {
      const page = await openDemo();
      await page.setViewportSize({ width, height });
      await triedOnce(page);
      expect(await page.evaluate(OVERLAPS)).toEqual([]);
      await page.setViewportSize({ width: 1440, height: 900 });
    });
  }
});
