/** The small moves round the print, as somebody meets them. */

import { readFileSync } from "node:fs";
import { writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launch, openPage, type Served, serve, settled } from "./start.ts";

let browser: Browser;
let demo: Served;
let bare: Served;

beforeAll(async () => {
  browser = await launch();
  demo = await serve("examples/cellist.json");
  const plan = JSON.parse(readFileSync("examples/cellist.json", "utf8"));
  const file = join(tmpdir(), `nobody-${process.pid}.json`);
  const camera = { ...plan.camera, orientation: "landscape" };
  await writeFile(file, JSON.stringify({ ...plan, people: [], lights: [], meters: [], camera }));
  bare = await serve(file);
});
afterAll(async () => {
  await browser.close();
  await demo.stop();
  await bare.stop();
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
    const { page, context, complaints } = await openPage(browser, demo.url);
    await triedOnce(page);
    expect(await ring(page).getByRole("button").count()).toBe(8);
    expect(await page.locator(".moves canvas:not(.picture)").count()).toBe(8);
    const left = move(page, /^camera 10° left/);
    expect(await left.textContent()).toMatch(/Rembrandt same\u00a0f.*light on the face unchanged/);
    const x = page.getByLabel("x", { exact: true }).first();
    await left.click();
    await page
      .getByRole("status")
      .getByText(/Taken: camera round 10° to the left/)
      .waitFor();
    await page.getByRole("button", { name: /undo/ }).waitFor();
    await settled(page);
    await page.getByRole("button", { name: "camera", exact: true }).first().click();
    const moved = Number.parseFloat(await x.inputValue());
    // 2.7 m from the head at sin 10°
    expect(moved).toBeCloseTo(3.5 - 2.7 * Math.sin((10 * Math.PI) / 180), 1);
    await page.getByRole("button", { name: /^undo/ }).click();
    await expect.poll(async () => Number.parseFloat(await x.inputValue())).toBe(3.5);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it("[MV15] one stop for Tab, arrows by place, Enter takes", async () => {
    const { page, context } = await openPage(browser, demo.url);
    await triedOnce(page);
    const stops = await ring(page)
      .getByRole("button")
      .evaluateAll((all) => all.filter((b) => (b as HTMLElement).tabIndex === 0).length);
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
    await context.close();
  });

  it("[MV8] what cannot be made is an empty frame with its reason, and does nothing", async () => {
    const { page, context } = await openPage(browser, bare.url);
    await settled(page);
    const all = await ring(page).getByRole("button").all();
    expect(all).toHaveLength(8);
    for (const button of all) {
      expect(await button.textContent()).toContain("nobody is in the plan");
      expect(await button.getAttribute("aria-disabled")).toBe("true");
    }
    await all[0].click();
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
      const { page, context } = await openPage(browser, demo.url, { viewport: { width, height } });
      await triedOnce(page);
      expect(await page.evaluate(OVERLAPS)).toEqual([]);
      await context.close();
    });
  }
});
