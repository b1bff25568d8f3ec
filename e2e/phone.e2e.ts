/** From the switch in the workbench to a phone beside it and back, over the real listener. */
import { readdirSync, readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { drawn, floor, launch, numbers, openPage, type Served, serve, violations } from "./start.ts";

let browser: Browser;
let served: Served;
let bench: Page;
let phone: Page;
const complaints: string[] = [];

beforeAll(async () => {
  // this machine may be in no network: it shares with itself
  process.env.TAPEMARK_SHARE_ON = "127.0.0.1";
  browser = await launch();
  served = await serve("examples/cellist.json");
  const opened = await openPage(browser, served.url, { bypassCSP: true });
  bench = opened.page;
  bench.setDefaultTimeout(15_000);
  bench.on("pageerror", (error) => complaints.push(String(error)));
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    locale: "en-GB",
    bypassCSP: true,
  });
  phone = await context.newPage();
  phone.setDefaultTimeout(15_000);
  phone.on("pageerror", (error) => complaints.push(String(error)));
});
afterAll(async () => {
  delete process.env.TAPEMARK_SHARE_ON;
  await browser.close();
  await served.stop();
});

const panel = () => bench.getByRole("dialog", { name: "On a phone or tablet" });
const step = () => bench.getByRole("listitem").filter({ hasText: "3 place" });
const view = (name: string) =>
  phone.getByRole("navigation", { name: "What to look at" }).getByRole("button", { name });
const thing = (name: string) =>
  phone
    .getByRole("listitem")
    .filter({ has: phone.getByRole("heading", { name: new RegExp(`^\\d+ ?${name}`) }) });

async function typeCode(digits: string): Promise<void> {
  await phone.getByLabel("the six digits that the workbench shows").fill(digits);
  await phone.getByRole("button", { name: "look at the plan" }).click();
}

/** Whether a picture is one, and not a broken address. */
const isSeen = (each: unknown) => (each as { naturalWidth: number }).naturalWidth > 0;

/** What a thumb can touch, and is smaller than it should be. */
const SMALL = `[...document.querySelectorAll("button, a, summary, label, input:not([type=checkbox])")]
  .filter((each) => each.offsetParent !== null && each.getBoundingClientRect().height < 44)
  .map((each) => each.outerHTML.slice(0, 120))`;

async function isFit(page: Page, colorScheme: "light" | "dark"): Promise<void> {
  await page.emulateMedia({ colorScheme });
  expect(await violations(page)).toEqual([]);
  expect(await page.evaluate(SMALL)).toEqual([]);
  expect(await page.evaluate("document.documentElement.scrollWidth <= innerWidth")).toBe(true);
}

describe.sequential("a phone beside the workbench", () => {
  test("[AP130] the switch shows where to go and what to type there", async () => {
    await drawn(bench);
    await bench.getByRole("button", { name: "show on a phone" }).click();
    await panel()
      .getByRole("checkbox", { name: /^let a phone or tablet look/ })
      .check();
    await panel().getByRole("status", { name: "code" }).waitFor();
    expect(await panel().getByRole("status", { name: "code" }).textContent()).toMatch(/^\d{3} \d{3}$/);
    expect(
      await panel()
        .getByText(/for one device, [45]:\d\d left/)
        .count(),
    ).toBe(1);
    const picture = panel().getByRole("img", { name: /^QR code of http:\/\/127/ });
    await expect.poll(() => picture.evaluate(isSeen)).toBe(true);
    expect(await violations(bench)).toEqual([]);
  });

  test("[PN1] a wrong code is refused with the cure, the right one lets in", async () => {
    await phone.goto((await panel().locator(".share-address").textContent()) ?? "");
    const digits = (await panel().getByRole("status", { name: "code" }).textContent()) ?? "";
    await typeCode(digits === "111 111" ? "222 222" : "111 111");
    await phone.getByRole("alert").filter({ hasText: "Type the one that the workbench shows now" }).waitFor();
    await isFit(phone, "light");
    await phone.getByLabel("this device is called").fill("Ana's phone");
    // an address waits a second after a wrong try: nobody types faster than that, but this does
    await phone.waitForTimeout(1100);
    await typeCode(digits);
    await phone.getByRole("heading", { level: 1, name: "Cellist, season poster" }).waitFor();
    await phone.getByText("live", { exact: true }).waitFor();
    await panel().getByText("looking now").waitFor();
    expect(await panel().getByRole("button", { name: "revoke Ana's phone" }).count()).toBe(1);
    expect(await panel().getByText("The last code is used up or too old.").count()).toBe(1);
    await panel().getByRole("button", { name: "close" }).click();
  });

  test("[PN13] [PN14] one step a screen: next, back, what is said aloud, and all of them", async () => {
    const name = (is: string) => phone.getByRole("heading", { level: 3, name: is, exact: true });
    const turn = (way: string) => phone.getByRole("button", { name: way, exact: true });
    await name("cellist").waitFor();
    expect(await turn("back").isDisabled()).toBe(true);
    await turn("next").click();
    await name("paper").waitFor();
    expect(await name("paper").evaluate("document.activeElement.textContent")).toBe("paper");
    for (const next of ["camera", "key"]) {
      await turn("next").click();
      await name(next).waitFor();
    }
    // however long the step is, the way on is on the screen
    const box = await turn("next").boundingBox();
    expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThan(844 - 64);
    await phone.getByText(/^say key: /).waitFor();
    await phone.getByText(/^4 soles heel to toe/).waitFor();
    await isFit(phone, "light");
    await view("plan").click();
    await view("place").click();
    await name("key").waitFor();
    await turn("next").click();
    await turn("next").click();
    await name("all lights on").waitFor();
    expect(await turn("next").isDisabled()).toBe(true);
    await phone.getByRole("button", { name: "all steps" }).click();
    await thing("camera").waitFor();
  });

  test("[PN8] [AP134] [BY8] an edit in the workbench is on the phone, and so is what the body makes of it", async () => {
    await floor(bench).getByRole("button", { name: /^key/ }).focus();
    const height = numbers(bench)
      .getByLabel(/^height/)
      .first();
    await height.fill("2.31");
    await height.press("Enter");
    await thing("key").getByText("2.31 m", { exact: true }).waitFor({ timeout: 5000 });
    const tapeless = numbers(bench).getByText(/^without a tape 4 soles heel to toe/);
    await tapeless.click();
    await numbers(bench)
      .getByText(/^Within ±6\scm for two in three people of that stature/)
      .waitFor();
    await thing("key")
      .getByText(/^4 soles heel to toe.*; ±6\scm/)
      .waitFor({ timeout: 5000 });
    await view("plan").click();
    const drawing = phone.getByRole("img", { name: /^the set from above/ });
    await expect.poll(() => drawing.evaluate(isSeen)).toBe(true);
    await isFit(phone, "dark");
    await view("place").click();
  });

  test("[PN6] [AP131] a tick on the phone shows in the workbench", async () => {
    expect(await step().getByText("none of 5 things stands yet").count()).toBe(1);
    await thing("camera").getByRole("checkbox", { name: "camera stands" }).check();
    await thing("camera")
      .getByText(/\d\d:\d\d, Ana's phone/)
      .waitFor();
    await step().getByText("1 of 5 stands").waitFor({ timeout: 5000 });
    expect(await thing("camera").getByRole("button").getAttribute("aria-expanded")).toBe("false");
    await isFit(phone, "light");
  });

  test("[PN12] what the plan changes afterwards is told where it was ticked", async () => {
    await thing("key").getByRole("checkbox", { name: "key stands" }).check();
    await step().getByText("2 of 5 stand").waitFor({ timeout: 5000 });
    const height = numbers(bench)
      .getByLabel(/^height/)
      .first();
    await height.fill("2.4");
    await height.press("Enter");
    await thing("key")
      .getByText(/^The plan has changed it since Ana's phone ticked it/)
      .waitFor({ timeout: 5000 });
    await thing("key").getByRole("checkbox", { name: "key stands" }).check();
    await thing("key")
      .getByText(/^The plan has changed it/)
      .waitFor({ state: "hidden", timeout: 5000 });
  });

  test("[PN7] [AP134] a reading made on the phone is in the plan, and how far it lies off was said before", async () => {
    await view("read").click();
    const alone = phone
      .getByRole("region", { name: "meter chin" })
      .getByRole("listitem")
      .filter({ hasText: "key alone" });
    // what it should read is worked out by a process of its own, once the plan is still
    await alone.getByText(/^f\//).waitFor({ timeout: 60_000 });
    await alone.getByRole("button").first().click();
    await alone.getByRole("button", { name: "f/4", exact: true }).click();
    await alone.getByRole("button", { name: "3 tenths" }).click();
    await alone.getByText(/^\d\.\d stops? under$/).waitFor();
    await isFit(phone, "dark");
    await alone.getByRole("button", { name: "put it into the plan" }).click();
    await alone.locator(".made").getByText("f/4 + 0.3").waitFor({ timeout: 5000 });
    await bench.getByRole("button", { name: "meter readings" }).click();
    await bench.getByRole("list", { name: "Readings" }).getByText("f/4 + 0.3").waitFor({ timeout: 5000 });
    await bench.getByRole("button", { name: "back to the plan" }).click();
  });

  test("[PN16] [CK5] [CK7] the workbench's own checklist: its ticks are the phone's", async () => {
    await bench.getByRole("button", { name: "checklist", exact: true }).click();
    const step = bench.getByRole("region", { name: "one step at a time" });
    // key and camera stand: it begins with the first that does not
    await step.getByRole("heading", { name: "cellist" }).waitFor();
    await step.getByRole("checkbox", { name: "cellist stands" }).check();
    await bench
      .getByRole("navigation", { name: "All steps" })
      .getByRole("button", { name: /cellist stands/ })
      .waitFor();
    expect(await step.getByRole("heading", { name: "cellist" }).count()).toBe(1);
    await view("place").click();
    await thing("cellist")
      .getByText(/\d\d:\d\d, workbench/)
      .waitFor({ timeout: 5000 });
    await step.getByRole("button", { name: "next" }).click();
    await step.getByRole("heading", { name: "paper" }).waitFor();
    await bench.getByRole("navigation", { name: "All steps" }).getByRole("button", { name: /key/ }).click();
    await step.getByText(/^say key: f\//).waitFor();
    for (const size of [
      { width: 1024, height: 768 },
      { width: 390, height: 844 },
    ]) {
      await bench.setViewportSize(size);
      expect(await bench.evaluate("document.documentElement.scrollWidth <= innerWidth")).toBe(true);
      const box = await step.getByRole("button", { name: "next" }).boundingBox();
      expect((box?.y ?? size.height) + (box?.height ?? 0)).toBeLessThanOrEqual(size.height);
    }
    for (const theme of ["light", "dim"]) {
      await bench.getByRole("button", { name: theme, exact: true }).click();
      expect(await violations(bench)).toEqual([]);
    }
    await bench.setViewportSize({ width: 1440, height: 900 });
    await bench.getByRole("button", { name: "back to the plan" }).click();
  });

  test("[PN11] less than 60 kB of script go over the air", () => {
    const folder = new URL("../dist/phone/assets/", import.meta.url);
    const scripts = readdirSync(folder).filter((name) => name.endsWith(".js"));
    const sent = scripts.map((name) => gzipSync(readFileSync(new URL(name, folder))).length);
    expect(scripts.length).toBeGreaterThan(0);
    expect(sent.reduce((sum, bytes) => sum + bytes, 0)).toBeLessThan(60_000);
  });

  test("[PN4] a phone that is taken off the list says so", async () => {
    await bench.getByRole("button", { name: "show on a phone" }).click();
    await panel().getByRole("button", { name: "revoke Ana's phone" }).click();
    await phone.getByRole("alert").filter({ hasText: "Ended by the workbench." }).waitFor({ timeout: 5000 });
    await panel().getByRole("button", { name: "revoke Ana's phone" }).waitFor({ state: "hidden" });
    expect(complaints).toEqual([]);
  });
});
