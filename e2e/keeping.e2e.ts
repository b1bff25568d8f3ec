/** Nothing is lost: reload, a server that is away, broken files, two windows. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { drawn, floor, launch, line, numbers, openPage, pattern, serve, settled, unlit } from "./start.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

async function give(page: Page, name: string, text: string): Promise<void> {
  const [chooser] = await Promise.all([
    page.waitForEvent("filechooser"),
    page.getByRole("button", { name: "open", exact: true }).click(),
  ]);
  await chooser.setFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
}

const kept = (page: Page) => expect.poll(() => page.getByText(/^kept/).count(), { timeout: 10_000 }).toBe(1);

const isoOf = (page: Page) => page.getByRole("textbox", { name: "ISO" }).inputValue();
async function setIso(page: Page, value: string): Promise<void> {
  const iso = page.getByRole("textbox", { name: "ISO" });
  await iso.fill(value);
  await iso.press("Enter");
}

describe("keeping", () => {
  test("[AP11] after a reload the plan stands as it was left, and undo goes back past it", async () => {
    const served = await serve("examples/cellist.json");
    const { page, context } = await openPage(browser, served.url, {}, unlit);
    await drawn(page);
    await floor(page)
      .getByRole("button", { name: /^camera/ })
      .focus();
    const across = numbers(page).getByLabel(/^from left wall/);
    await across.fill("3.2");
    await across.press("Enter");
    await across.fill("3.0");
    await across.press("Enter");
    await kept(page);
    await page.reload();
    await drawn(page);
    await floor(page)
      .getByRole("button", { name: /^camera/ })
      .focus();
    expect(await across.inputValue()).toBe("3.00 m");
    await page.getByRole("button", { name: /^undo/ }).click();
    expect(await across.inputValue()).toBe("3.20 m");
    await page.getByRole("button", { name: /^undo/ }).click();
    expect(await across.inputValue()).toBe("3.50 m");
    await context.close();
    await served.stop();
  });

  test("[AP9] a broken file lists every problem with its path; the plan on the table stays", async () => {
    const served = await serve("examples/cellist.json");
    const { page, context } = await openPage(browser, served.url, {}, unlit);
    await drawn(page);
    await give(
      page,
      "broken.json",
      JSON.stringify({ format: "tapemark/plan", version: 1, beem: 1, camera: { fNumber: "eight" } }),
    );
    const news = page.getByRole("alert");
    expect(await news.textContent()).toMatch(/broken\.json is not opened[\s\S]*beem[\s\S]*camera\.fNumber/);
    expect(await page.getByLabel("title of the job").inputValue()).toBe("Cellist, season poster");
    await page.getByRole("button", { name: "close", exact: true }).click();
    expect(await news.count()).toBe(0);
    await give(page, "torn.json", '{ "format": "tapemark/plan", ');
    expect(await news.textContent()).toContain("is not JSON");
    await context.close();
    await served.stop();
  });

  test("[AP9] an empty plan is a proper bench: it says what is missing, and a person and a light make it read", async () => {
    const served = await serve("examples/cellist.json");
    const { page, context, complaints } = await openPage(browser, served.url);
    await drawn(page);
    await give(page, "empty.json", JSON.stringify({ format: "tapemark/plan", version: 1 }));
    await page.getByText("Nobody stands in this plan yet").waitFor();
    await page.getByText("No light is on").waitFor();
    const adding = numbers(page).locator(".adding");
    await adding.getByRole("button", { name: "person" }).click();
    await adding.getByRole("button", { name: "light" }).click();
    await pattern(page).waitFor();
    await settled(page);
    expect(await pattern(page).textContent()).not.toBe("Dark");
    await page.getByRole("button", { name: "take away light" }).click();
    await settled(page);
    expect(await pattern(page).textContent()).toBe("Dark");
    expect(complaints).toEqual([]);
    await context.close();
    await served.stop();
  });

  test("[AP11] when the server goes away the page says so, keeps in the browser and goes on reading", async () => {
    const served = await serve("examples/cellist.json");
    const { page, context } = await openPage(browser, served.url);
    await settled(page);
    await served.stop();
    const chin = () => line(page, "at the chin").textContent();
    const before = await chin();
    const aperture = page.getByRole("textbox", { name: "ISO" });
    await aperture.fill("200");
    await aperture.press("Enter");
    await expect.poll(chin, { timeout: 10_000 }).not.toBe(before);
    await page.getByText(/in this browser; the server is away$/).waitFor();
    await context.close();
  });

  test("[WB15] [AP11] windows of one work show the same, in this browser and in another; undo goes through all", async () => {
    const served = await serve("examples/cellist.json");
    const one = await openPage(browser, served.url);
    await drawn(one.page);
    const beside = await one.context.newPage();
    await beside.goto(served.url);
    await drawn(beside);
    const other = await openPage(browser, served.url);
    await drawn(other.page);
    const pages = [one.page, beside, other.page];
    const all = (value: string) =>
      expect.poll(() => Promise.all(pages.map(isoOf)), { timeout: 10_000 }).toEqual([value, value, value]);
    await setIso(one.page, "200");
    await all("200");
    await setIso(other.page, "400");
    await all("400");
    await beside.getByRole("button", { name: /^undo/ }).click();
    await all("200");
    for (const page of pages) expect(await page.getByRole("alert").count()).toBe(0);
    expect([...one.complaints, ...other.complaints]).toEqual([]);
    await one.context.close();
    await other.context.close();
    await served.stop();
  });

  test("[AP11] two browsers that changed the same apart: the second one back is asked, and either way can be undone", async () => {
    const served = await serve("examples/cellist.json");
    const one = await openPage(browser, served.url, {}, unlit);
    const two = await openPage(browser, served.url, {}, unlit);
    await drawn(one.page);
    await drawn(two.page);
    await two.context.setOffline(true);
    await setIso(one.page, "200");
    await kept(one.page);
    await setIso(two.page, "400");
    await two.page.getByText(/the server is away$/).waitFor();
    await two.context.setOffline(false);
    await two.page.getByRole("button", { name: "take theirs" }).click();
    await kept(two.page);
    expect(await isoOf(two.page)).toBe("200");
    await two.page.getByRole("button", { name: /^undo/ }).click();
    await expect.poll(() => isoOf(one.page), { timeout: 10_000 }).toBe("400");
    await one.context.close();
    await two.context.close();
    await served.stop();
  });

  test("[AP9] without the part that computes the page says so, keeps the plan, and reads when asked again", async () => {
    const served = await serve("examples/cellist.json");
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    await page.route("**/worker-*.js", (route) => route.abort());
    await page.goto(served.url);
    const failure = page.getByRole("alert").filter({ hasText: "could not be worked out" });
    await failure.waitFor();
    expect(await pattern(page).count()).toBe(0);
    expect(await floor(page).getByRole("button", { name: /^key/ }).count()).toBe(1);
    await page.unroute("**/worker-*.js");
    await failure.getByRole("button", { name: "try again" }).click();
    await settled(page);
    expect(await pattern(page).count()).toBe(1);
    expect(await failure.count()).toBe(0);
    await context.close();
    await served.stop();
  });

  test("[AP9] [AP11] with nothing named the start page offers the examples; the next start finds what was kept", async () => {
    const served = await serve();
    const { page, context } = await openPage(browser, served.url);
    await page
      .getByRole("navigation", { name: "examples" })
      .getByRole("button", { name: /^The manual's starting position/ })
      .click();
    await settled(page);
    expect(await pattern(page).count()).toBe(1);
    const title = await page.getByLabel("title of the job").inputValue();
    await kept(page);
    await page.reload();
    await drawn(page);
    expect(await page.getByLabel("title of the job").inputValue()).toBe(title);
    await context.close();
    await served.stop();
  });
});
