/** Two states of a plan side by side, and the same look planned again, as somebody does it in a shoot. */
import { readFile } from "node:fs/promises";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { launch, openPage, type Served, serve, violations } from "./start.ts";

let browser: Browser;
let served: Served;
let context: BrowserContext;
let page: Page;
let complaints: string[];

async function api(path: string, method: string, body: unknown): Promise<void> {
  const headers = { "content-type": "application/json" };
  const answer = await fetch(new URL(path, served.url), { method, headers, body: JSON.stringify(body) });
  if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
}

beforeAll(async () => {
  browser = await launch();
  served = await serve("examples/manual-start.json");
  const plan = JSON.parse(await readFile("examples/cellist.json", "utf8"));
  await api("api/work/season", "PUT", { plan, history: null, revision: 1 });
  await api("api/work/season/versions", "POST", { name: "before lunch" });
  plan.lights[0].output.stopsDown = 2.9;
  plan.lights[0].position[2] = 2.55;
  await api("api/work/season", "PUT", { plan, history: null, revision: 2 });
  ({ page, context, complaints } = await openPage(browser, served.url, { bypassCSP: true }));
  await page.getByRole("button", { name: "Shoots", exact: true }).click();
  await page.getByLabel("look for").fill("Cellist");
  await page
    .getByRole("listbox", { name: /^Shoots/ })
    .getByRole("option", { name: /Cellist/ })
    .first()
    .click();
  await page.getByRole("button", { name: /plan again elsewhere/ }).waitFor();
});
afterAll(async () => {
  await context.close();
  await browser.close();
  await served.stop();
});
afterEach(() => expect(complaints).toEqual([]));

async function holdsEverywhere(): Promise<void> {
  for (const [width, height] of [
    [390, 844],
    [1024, 768],
    [1440, 900],
  ] as const) {
    await page.setViewportSize({ width, height });
    const sideways = await page.evaluate("document.documentElement.scrollWidth - innerWidth");
    expect(sideways, `${width} px`).toBeLessThanOrEqual(0);
    expect(await violations(page)).toEqual([]);
  }
}

test("[AP125] two states side by side: floors at one scale, and what differs, direction and power apart", async () => {
  for (const box of await page.getByRole("checkbox", { name: /^compare/ }).all()) await box.check();
  await page.getByRole("button", { name: "put the two side by side" }).click();
  await page.getByRole("heading", { name: /changes$/ }).waitFor();
  const direction = page.getByRole("list", { name: "key, direction" });
  const power = page.getByRole("list", { name: "key, power" });
  expect(await direction.textContent()).toContain("height");
  expect(await direction.textContent()).toContain("10 cm higher");
  expect(await power.getByRole("listitem").textContent()).toMatch(
    /^powerbefore: −2\.2 of 400 Ws, after: −2\.9 of 400 Ws, 0\.7 stop down$/,
  );
  await page.getByRole("button", { name: "feet" }).click();
  await expect.poll(() => direction.textContent()).toContain("4″ higher");
  await page.getByRole("button", { name: "metres" }).click();
  await holdsEverywhere();
  await page.getByRole("button", { name: "back to the shoot" }).click();
});

test("[AP128] planned again by keyboard: what is kept, why it changed, and a new plan", async () => {
  await page.getByRole("button", { name: /plan again elsewhere/ }).click();
  const put = async (label: string, text: string) => {
    await page.getByLabel(`${label}, the other room`).fill(text);
    await page.keyboard.press("Enter");
  };
  await put("height", "0.2");
  expect(await page.getByRole("alert").textContent()).toContain("It must be a number from 0.5 to 50 m");
  await put("width", "6");
  await put("depth", "8");
  await put("height", "3.1");
  await page.getByRole("button", { name: "plan it again" }).focus();
  await page.keyboard.press("Enter");
  await page.getByRole("progressbar", { name: "the search" }).waitFor();
  const heading = page.getByRole("heading", { name: /^The set-up is moved over/ });
  await heading.waitFor({ timeout: 90_000 });
  await expect.poll(() => page.evaluate("document.activeElement.id")).toBe("replanned-title");
  const kept = page.getByRole("table", { name: "What is kept of the look" });
  expect(await kept.getByRole("row", { name: /^pattern/ }).textContent()).toBe(
    "patternRembrandtRembrandtkept",
  );
  await page.getByText(/the ceiling is 30 cm lower: key \d+ cm nearer, power \d\.\d stops? down/).waitFor();
  await holdsEverywhere();
  await page.getByRole("button", { name: "open as a new plan" }).click();
  await expect.poll(() => page.getByLabel("title of the job").inputValue()).toContain("planned again");
}, 120_000);
