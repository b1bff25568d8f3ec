/** The page "gear" as somebody works with it: the shelf, what it can do, what to pack, what it weighs; one server, one page. */
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { KeptShelf } from "../src/workbench/index.ts";
import { drawn, floor, launch, openPage, type Served, serve, unlit, violations } from "./start.ts";

let browser: Browser;
let served: Served;
let context: BrowserContext;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  browser = await launch();
  served = await serve("examples/cellist.json");
  ({ page, context, complaints } = await openPage(browser, served.url, { bypassCSP: true }, unlit));
  await drawn(page);
});
afterAll(async () => {
  await context.close();
  await browser.close();
  await served.stop();
});
beforeEach(async () => {
  await page.setViewportSize({ width: 1440, height: 900 });
});
afterEach(() => expect(complaints).toEqual([]));

const button = (name: string) => page.getByRole("button", { name, exact: true });
const field = (name: string) => page.getByLabel(name, { exact: true });
const part = (name: string) =>
  page.getByRole("group", { name: "what is looked at" }).getByRole("button", { name, exact: true }).click();
const article = (name: string) => page.getByRole("article", { name, exact: true });
async function type(name: string, typed: string): Promise<void> {
  await field(name).fill(typed);
  await field(name).press("Enter");
}

/** What sticks out, is cut, or is too small to be hit. */
const FAULTS = `(() => {
  const wide = document.documentElement.clientWidth;
  const out = document.documentElement.scrollWidth > wide ? ["sideways"] : [];
  for (const e of document.querySelectorAll("button, input, select, p, dt, dd, h1, h2, h3, td, th, summary, label")) {
    if (e.closest(".visually-hidden")) continue;
    const box = e.getBoundingClientRect();
    if (box.width === 0) continue;
    if (box.left < -0.5 || box.right > wide + 0.5) out.push("outside: " + e.textContent);
    if (e.matches("button, input:not([type=checkbox]), select, label.tick") && (box.height < 23.9 || box.width < 23.9)) out.push("small: " + e.outerHTML);
    if (e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline") out.push("cut: " + e.outerHTML.slice(0, 160));
  }
  return out;
})()`;

/** Both themes and all three sizes of the part that is on screen. */
async function holds(): Promise<void> {
  for (const theme of ["dim", "light"]) {
    await button(theme).click();
    expect(await violations(page)).toEqual([]);
  }
  for (const [width, height] of [
    [1024, 768],
    [390, 844],
  ] as const) {
    await page.setViewportSize({ width, height });
    expect(await page.evaluate(FAULTS)).toEqual([]);
  }
  await page.setViewportSize({ width: 1440, height: 900 });
  expect(await page.evaluate(FAULTS)).toEqual([]);
}

describe("the shelf", () => {
  test("[AP140] [AP141] [AP142] [AP144] [AP175] begins typical; a thing is added, named, taken back by key, and kept", async () => {
    await button("gear").click();
    const heads = page.getByRole("region", { name: "Heads" });
    await heads.getByText("400 Ws, in stops").first().waitFor();
    expect(await page.evaluate("document.activeElement.textContent")).toBe("Gear");
    expect(await heads.getByRole("listitem").first().textContent()).toContain("typical");
    expect(await page.getByRole("status").filter({ hasText: "Kept by the program" }).count()).toBe(1);
    await button("add a head").click();
    await expect.poll(() => page.evaluate("document.activeElement.value")).toBe("head");
    await page.keyboard.type("the old lamp");
    await page.keyboard.press("Enter");
    await type("weighs, the old lamp", "heavy");
    expect(await heads.getByRole("alert").textContent()).toMatch(/no weight.*Kept not known/);
    await type("weighs, the old lamp", "4,2 kg");
    expect(await heads.getByRole("listitem").last().textContent()).toContain("4.2 kg");
    await page.getByRole("heading", { name: "Heads" }).click();
    await page.keyboard.press("Control+z");
    expect(await heads.getByRole("listitem").last().textContent()).toContain("not weighed");
    await button("redo").click();
    await expect
      .poll(async () => (await fetch(new URL("api/shelf", served.url))).text())
      .toMatch(/"name":"the old lamp","count":1,"mass":4\.2/);
    // another window of the program puts a weight on it
    const shelfAt = new URL("api/shelf", served.url);
    const { shelf, revision } = (await (await fetch(shelfAt)).json()) as KeptShelf;
    const heavier = shelf.heads.map((head) => (head.name === "the old lamp" ? { ...head, mass: 6.5 } : head));
    const body = JSON.stringify({ shelf: { ...shelf, heads: heavier }, revision });
    await fetch(shelfAt, { method: "PUT", body });
    await heads.getByText("6.5 kg").waitFor({ timeout: 5000 });
    await button("take away the old lamp").click();
    expect(await heads.getByText("the old lamp").count()).toBe(0);
    await button("undo").click();
    expect(await heads.getByText("the old lamp", { exact: true }).first().isVisible()).toBe(true);
    await holds();
  });

  test("[AP146] full power by guide number is told before it is taken", async () => {
    await page.getByText("the old lamp", { exact: true }).first().click();
    await page.getByText("by guide number or a reading").first().click();
    await type("guide number, the old lamp", "40");
    const told = page.getByText(/lm·s at full power/);
    const [, lumens = ""] = /(\d+) lm·s/.exec((await told.textContent()) ?? "") ?? [];
    // I = GN² C / S = 40² × 250 / 100 = 4000 cd·s (section 4); its own reflector's lobe cos³: 2π / 4 of that leaves
    expect(Number(lumens)).toBeCloseTo(4000 * ((2 * Math.PI) / 4), -1);
    await button("take it").click();
    expect(await field("tube gives, the old lamp").inputValue()).toBe(
      `${Number((Number(lumens) / 400).toFixed(1))} lm/W`,
    );
  });

  test("[AP149] it becomes the gear on hand, and leads to the search", async () => {
    await button("search with what is here").click();
    await page.getByRole("heading", { name: "Find a set-up" }).waitFor();
    const onHand = page.getByRole("form", { name: "Brief" }).getByRole("group", { name: "on hand" });
    expect(await onHand.textContent()).toContain("the old lamp");
    await button("undo").click();
    expect(await onHand.textContent()).not.toContain("the old lamp");
    await button("gear shelf").click();
    await page.getByRole("heading", { name: "Heads" }).waitFor();
  });
});

describe("the plan's lights", () => {
  test("[AP140] [AP147] [AP148] whoever comes from a light is led to it; too bright is told with ways out; another head is put on", async () => {
    await button("back to the plan").click();
    await floor(page).getByRole("button", { name: /^key/ }).focus();
    await button("weights on key").click();
    await article("light key").waitFor();
    expect(await page.evaluate("document.activeElement.textContent")).toBe("key light");
    await button("back to the plan").click();
    await drawn(page);
    await floor(page).getByRole("button", { name: /^key/ }).focus();
    await button("can it do that? key").click();
    const key = article("key");
    await key.waitFor();
    expect(await page.evaluate("document.activeElement.textContent")).toMatch(/^key/);
    expect(await key.textContent()).toContain("Within its dial");
    await type("wanted, every light", "f/2");
    expect(await key.textContent()).toMatch(/Too bright at its least.*grey filter.*grid/);
    await type("wanted, every light", "f/32");
    expect(await key.textContent()).toMatch(/Too weak at full.*ISO.*on its own line/);
    await field("head, key").selectOption("battery head 600 Ws");
    await field("with, key").selectOption("octa 120");
    expect(await key.textContent()).toMatch(/Power 1\/.*the face/);
    await button("put it on key").click();
    expect(await key.getByRole("heading").textContent()).toBe("key battery head 600 Ws, octa 120");
    await holds();
    await button("undo").click();
    expect(await key.getByRole("heading").textContent()).toBe("key ");
  });

  test("[AP150] [AP151] [AP152] weights and circuits are fields of the plan with the sums beside", async () => {
    await part("weights and mains");
    const sums = page.getByRole("region", { name: "sums: key" });
    const over = sums.getByRole("row").filter({ hasText: "turns it over" });
    expect(await over.first().textContent()).toMatch(/load off, without the bag.*against/);
    await type("bag on the legs, key", "0");
    expect(await sums.textContent()).not.toContain("without the bag");
    await button("undo").click();
    await type("circuit, wall left", "by the window");
    expect(await field("plugged into, key").inputValue()).toBe("by the window");
    await button("take away circuit by the window").click();
    expect(await page.getByText("none given: no sum of watts is made").count()).toBe(1);
    await button("undo").click();
    await button("undo").click();
    expect(await field("plugged into, key").inputValue()).toBe("wall left");
    await type("it carries, V-flat, black", "6 kg");
    expect(await page.getByRole("region", { name: "sums: V-flat, black" }).count()).toBe(1);
    await field("stand, V-flat, black").selectOption("low stand");
    expect(await field("column to leg tip, V-flat, black").inputValue()).toBe("0.40 m");
    await type("stand weighs, V-flat, black", "1.8");
    expect(await field("stand, V-flat, black").inputValue()).toBe("");
    await button("feet").click();
    expect(await field("it carries, V-flat, black").inputValue()).toBe("13.2 lb");
    await type("bag on the legs, key", "20");
    expect(await field("bag on the legs, key").inputValue()).toBe("20 lb");
    expect(await sums.textContent()).toMatch(/20\.0\slb on it.*lbf·ft \(\d+\.\d\slbf × /);
    await button("undo").click();
    await button("metres").click();
    expect(await field("bag on the legs, key").inputValue()).toBe("10 kg");
    await type("it carries, V-flat, black", "");
    expect(await page.getByRole("region", { name: "sums: V-flat, black" }).count()).toBe(0);
    await page.getByLabel("the room has sprinklers, room").check();
    await type("ceiling to their plates, sprinklers", "15 cm");
    expect(await page.getByRole("region", { name: "sums: Ceiling" }).textContent()).toMatch(/sprinkler/i);
    expect(await page.getByRole("region", { name: "Cautions" }).textContent()).toMatch(/Estimates only/);
    await holds();
  });
});

describe("the packing list", () => {
  test("[AP153] weights add up, what is not weighed makes it at least; ticks stay for the plan; paper has the list alone", async () => {
    await part("packing list");
    const list = page.getByRole("region", { name: "Heads" }).getByRole("checkbox");
    await list.first().check();
    expect(await page.getByText(/^Together/).textContent()).toMatch(/\d kg.*; 1 of \d+ lines packed/);
    await holds();
    await page.emulateMedia({ media: "print" });
    expect(await button("print it").isVisible()).toBe(false);
    expect(await button("back to the plan").isVisible()).toBe(false);
    expect(await page.getByRole("heading", { name: "Packing list" }).isVisible()).toBe(true);
    await page.emulateMedia({ media: "screen" });
    await part("shelf");
    await part("packing list");
    expect(await list.first().isChecked()).toBe(true);
    await button("clear the ticks").click();
    expect(await list.first().isChecked()).toBe(false);
  });
});

test("[AP144] without a program behind the page the shelf is this browser's, and says so", async () => {
  const alone = await openPage(browser, served.url, { serviceWorkers: "block" }, async (each) => {
    await unlit(each);
    await each.route("**/api/**", (route) =>
      route.fulfill({ status: 200, contentType: "text/html", body: "" }),
    );
  });
  const inIt = (name: string) => alone.page.getByRole("button", { name, exact: true });
  await inIt("begin in this room").click();
  await drawn(alone.page);
  await inIt("gear").click();
  await inIt("add a stand").click();
  await alone.page.keyboard.type("the tall one");
  await alone.page.keyboard.press("Enter");
  expect(await alone.page.getByText("Kept in this browser").count()).toBe(1);
  expect(await alone.page.evaluate("localStorage.getItem('tapemark.shelf')")).toContain("the tall one");
  await alone.context.close();
});
