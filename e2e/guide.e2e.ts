/** The guide on screen, and the next sitter from a person's numbers. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { drawn, floor, launch, numbers, openAlone, type Served, serve, unlit, violations } from "./start.ts";

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

const button = (page: Page, name: string | RegExp) =>
  page.getByRole("button", typeof name === "string" ? { name, exact: true } : { name });
const title = (page: Page, name: string | RegExp) => page.getByRole("heading", { level: 1, name });
const open = async (size = { width: 1440, height: 900 }) => {
  const opened = await openAlone(browser, served.url, { bypassCSP: true, viewport: size }, unlit);
  await drawn(opened.page);
  return opened;
};

describe("the guide", () => {
  test("[AP170] opens from a screen at its own page, by link and by F1, and leads back; [AP174] Escape leads back to the plan", async () => {
    const { page, context, complaints } = await open();
    await button(page, "guide").click();
    await title(page, "Plan").waitFor();
    await page.keyboard.press("Escape");
    await drawn(page);
    await button(page, "find a set-up").click();
    await button(page, "guide").click();
    await title(page, "Brief").waitFor();
    await button(page, "back").click();
    await title(page, "Find a set-up").waitFor();
    await page.getByLabel("ratio, brief", { exact: true }).press("Escape");
    await title(page, "Find a set-up").press("Escape");
    await drawn(page);
    await button(page, "meter readings").click();
    await title(page, "Shoot").waitFor();
    await page.keyboard.press("F1");
    await page.locator("main.guide").waitFor();
    await title(page, "Shoot").waitFor();
    expect(await page.evaluate("document.activeElement.tagName")).toBe("H1");
    await page.keyboard.press("Escape");
    await page.locator("main.guide").waitFor({ state: "detached" });
    await title(page, "Shoot").waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  test("[AP171] [AP172] links lead on, also to headings; pictures come from the program itself", async () => {
    const { page, context, complaints, asked } = await open();
    await page.keyboard.press("F1");
    const list = page.getByRole("navigation", { name: "Guide" });
    await list.getByRole("button", { name: "Fix" }).focus();
    await page.keyboard.press("Enter");
    await title(page, "Fix").waitFor();
    expect(await list.locator("[aria-current=page]").textContent()).toBe("Fix");
    const picture = page.locator(".guide-text img").first();
    const width = () => picture.evaluate((img) => (img as unknown as { naturalWidth: number }).naturalWidth);
    await expect.poll(width).toBeGreaterThan(200);
    await page.getByRole("article").getByRole("button", { name: "power", exact: true }).click();
    await title(page, "Power and direction").waitFor();
    await expect.poll(() => page.evaluate("document.activeElement.textContent")).toBe("What distance does");
    await button(page, /^on to: Gear/).click();
    await title(page, "Gear and weights").waitFor();
    const { origin } = new URL(served.url);
    expect(asked.filter((address) => !address.startsWith(origin) && !address.startsWith("data:"))).toEqual(
      [],
    );
    expect(complaints).toEqual([]);
    await context.close();
  });

  test("[AP173] nothing is cut or goes sideways at three sizes, and axe-core finds nothing", async () => {
    const { page, context, complaints } = await open();
    await page.keyboard.press("F1");
    for (const name of ["What the numbers mean", "Shoot"]) {
      await page.getByRole("navigation", { name: "Guide" }).getByRole("button", { name }).click();
      await title(page, name).waitFor();
      for (const [width, height] of [
        [1440, 900],
        [1024, 768],
        [390, 844],
      ] as const) {
        await page.setViewportSize({ width, height });
        expect(await page.evaluate("document.documentElement.scrollWidth - innerWidth")).toBeLessThanOrEqual(
          0,
        );
      }
    }
    expect(await violations(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: "dark" });
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe("the next sitter", () => {
  test("[GD16] is brought in by stature or by the eyes, says what went along, and is one step back", async () => {
    const { page, context, complaints } = await open();
    await floor(page)
      .getByRole("button", { name: /^cellist/ })
      .focus();
    const fold = numbers(page).locator("details").filter({ hasText: "next sitter" });
    await fold.locator("summary").click();
    await fold.getByRole("textbox", { name: "name" }).fill("violist");
    const stature = fold.getByRole("textbox", { name: /^stature/ });
    await stature.fill("9 m");
    await stature.press("Enter");
    await fold.getByRole("alert").waitFor();
    await stature.fill("1.58");
    await stature.press("Enter");
    await fold.getByText(/^0\.13 m down: key, camera, chin, dome, paper\.$/).waitFor();
    await numbers(page).getByRole("heading", { name: "violist" }).waitFor();
    await fold.getByRole("button", { name: "heights for a day of sitters" }).click();
    expect(await fold.getByRole("row").count()).toBe(11);
    const undo = page.getByRole("button", { name: /^undo.*next sitter: violist, 1\.48 m to the eyes/ });
    await undo.click();
    await numbers(page).getByRole("heading", { name: "cellist" }).waitFor();
    expect(await page.getByRole("button", { name: /^undo/ }).isDisabled()).toBe(true);
    const eyes = fold.getByRole("textbox", { name: /^or the eyes/ });
    await eyes.fill("1.62");
    await eyes.press("Enter");
    await page.getByRole("button", { name: /^undo.*1\.62 m to the eyes/ }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });
});
