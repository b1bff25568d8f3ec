/** A wish, what reaches it, and every small step, as somebody meets them. */
import { rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launch, numbers, openAlone, type Served, serve, settled } from "./start.ts";

/** Nothing bounces and nothing stands behind: quickly read. Names as long as they come. */
const PLAN = {
  format: "tapemark/plan",
  version: 1,
  lights: [
    {
      name: "key with the large octagonal front on a boom",
      position: [4.6, 3, 2.4],
      direction: { at: [3.5, 4.5, 1.58] },
      face: { shape: "disc", width: 0.3 },
      output: { wattSeconds: 400, stopsDown: 3 },
      pinned: true,
    },
  ],
  people: [{ name: "cellist", position: [3.5, 4.6], stature: 1.72, pinned: true }],
  camera: { position: [3.5, 1.9, 1.5], direction: { at: [3.5, 4.6, 1.5] }, focalLength: 135, pinned: true },
};
const FILE = join(tmpdir(), `asks-${process.pid}.json`);

let browser: Browser;
let served: Served;
beforeAll(async () => {
  await writeFile(FILE, JSON.stringify(PLAN));
  [browser, served] = [await launch(), await serve(FILE)];
});
afterAll(async () => {
  await browser.close();
  await served.stop();
  await rm(FILE, { force: true });
});

const asks = (page: Page) => page.getByRole("region", { name: "What to change" });
const seek = (page: Page) => asks(page).getByRole("button", { name: "find the smallest changes" });
const SIDEWAYS = "document.documentElement.scrollWidth - innerWidth";

describe("what to change", () => {
  it("[MV35] [MV37] a wish is typed, answered by rank, taken as one step and taken back", async () => {
    const { page, context, complaints } = await openAlone(browser, served.url);
    await settled(page);
    await expect.poll(() => seek(page).count()).toBe(0);
    // by keyboard alone: the summary opens, the wish is chosen and typed, Enter asks
    await asks(page).locator("summary").first().focus();
    await page.keyboard.press("Enter");
    await asks(page).getByLabel("wish", { exact: true }).selectOption({ label: "the face changes by" });
    const stops = asks(page).getByRole("textbox", { name: /^stops/ });
    await stops.fill("0");
    await stops.press("Enter");
    await asks(page).getByText("That is no change").waitFor();
    await stops.fill("-0.5");
    await stops.press("Enter");
    expect(await stops.inputValue()).toBe("−0.5 stop");
    await seek(page).focus();
    await page.keyboard.press("Enter");
    const list = asks(page).getByRole("list", { name: /the face changes by −0.5 stop, easiest first/ });
    await list.waitFor({ timeout: 60_000 });
    const found = await list.getByRole("listitem").allInnerTexts();
    // everything is pinned: lens and power are left
    expect(found).toHaveLength(2);
    expect(found[0]).toMatch(/lens closed 0\.5 stop, to f\/8 \+ 0\.5.*by the camera/s);
    expect(found[1]).toMatch(/power down 0\.5 stop, to −3\.5.*by power/s);
    expect(found[1]).toMatch(/headroom \+0\.5/);
    await list.getByRole("button", { name: /^take ?: key/ }).click();
    await asks(page)
      .getByText(/^Taken: key .* power down 0\.5 stop, to −3\.5\.$/)
      .waitFor();
    expect(await seek(page).evaluate((button) => button.matches(":focus"))).toBe(true);
    await page.getByRole("button", { name: /^undo/ }).first().click();
    await page.getByRole("button", { name: /^redo.*power down 0\.5 stop/ }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  it("[MV36] what is pinned is no remedy, and what is so already is said", async () => {
    const { page, context, complaints } = await openAlone(browser, served.url);
    await settled(page);
    await asks(page).locator("summary").first().click();
    await asks(page).getByLabel("pattern", { exact: true }).selectOption({ label: "Loop" });
    await seek(page).click();
    await asks(page).getByText("It is so already: the pattern becomes loop.").waitFor();
    // no room, no backdrop: there is no background
    await asks(page).getByLabel("wish", { exact: true }).selectOption({ label: "the background changes by" });
    await seek(page).click();
    await asks(page)
      .getByText(/^Nothing within reach does it/)
      .waitFor({ timeout: 60_000 });
    expect(complaints).toEqual([]);
    await context.close();
  });

  it("[MV38] [MV39] every small step in a table on a phone, taken with one button; pinned ones say so", async () => {
    const { page, context, complaints } = await openAlone(browser, served.url, {
      viewport: { width: 390, height: 844 },
    });
    await settled(page);
    await asks(page).locator("summary").first().click();
    await asks(page).getByText("every small step").click();
    const table = asks(page).getByRole("table");
    await table.waitFor({ timeout: 60_000 });
    const row = (name: RegExp) => table.getByRole("row", { name });
    expect(await row(/^round 10° left the camera is pinned/).count()).toBe(1);
    const power = row(/^power up 0\.3 stop, to −2\.7/).getByRole("cell");
    // rows stand there before all of them have been tried
    await expect
      .poll(() => power.allInnerTexts(), { timeout: 60_000 })
      .toEqual(["loop", "+0.3", "0.0", "–", "−0.3"]);
    expect(await page.evaluate(SIDEWAYS)).toBe(0);
    const cut = await table.evaluate((e) => e.scrollWidth > (e.parentElement?.clientWidth ?? 0) + 1);
    expect(cut).toBe(false);
    await row(/^chin up 5°/)
      .getByRole("button")
      .click();
    await page.getByRole("button", { name: /^undo.*chin up 5°/ }).waitFor();
    await expect.poll(() => numbers(page).count()).toBe(1);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
