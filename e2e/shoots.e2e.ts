/** The library of shoots as somebody works with it: found, opened, written, rated; the same server and one page. */
import { readFile } from "node:fs/promises";
import type { Browser, BrowserContext, Page, Route } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { FrameRow, ShootRows, ShootWhole } from "../src/shoots/index.ts";
import { drawn, launch, openPage, type Served, serve, violations } from "./start.ts";

let browser: Browser;
let served: Served;
let context: BrowserContext;
let page: Page;
let complaints: string[];

const MADE = 110;
/** with the one that the opened plan began by itself */
const SHOOTS = MADE + 1;
const day = (n: number) => new Date(Date.UTC(2026, 10, 20) - n * 86_400_000).toISOString().slice(0, 10);

async function api<T>(path: string, method = "GET", body?: unknown): Promise<T> {
  const answer = await fetch(new URL(path, served.url), {
    method,
    ...(body === undefined
      ? {}
      : { headers: { "content-type": "application/json" }, body: JSON.stringify(body) }),
  });
  if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
  const text = await answer.text();
  return (text === "" ? null : JSON.parse(text)) as T;
}

beforeAll(async () => {
  browser = await launch();
  served = await serve("examples/cellist.json");
  for (let n = 0; n < MADE; n++)
    await api("api/shoots", "POST", {
      title: n === 7 ? "Book jacket" : `Portrait ${n}`,
      date: day(n),
      client: n % 2 === 0 ? "City Players" : "Harbour Press",
    });
  ({ page, context, complaints } = await openPage(browser, served.url, { bypassCSP: true }));
  await drawn(page);
  await page.getByText(/^kept \d/).waitFor();
});
afterAll(async () => {
  await context.close();
  await browser.close();
  await served.stop();
});
beforeEach(async () => {
  await page.setViewportSize({ width: 1440, height: 900 });
});
/** A browser notes every refusal, also those that are part of the work. */
const REFUSED = /responded with a status of (409|422)/;
afterEach(() => expect(complaints.filter((text) => !REFUSED.test(text))).toEqual([]));

const list = () => page.getByRole("listbox", { name: /^Shoots/ });
const shown = () => list().getByRole("option").count();
const inHand = () => list().locator("[aria-selected=true]");

const found = () => page.getByRole("region", { name: /shoots?/ }).getByRole("heading", { level: 2 });
const title = () => page.getByLabel("title of the shoot");

async function open(name: string): Promise<void> {
  await page.getByLabel("look for").fill(name);
  await expect.poll(() => list().getByRole("option").first().textContent()).toContain(name);
  await list().getByRole("option").first().click();
  await expect.poll(() => title().inputValue()).toContain(name);
}

describe("the list", () => {
  test("[AP111] newest first, and only what is in view is drawn however many there are", async () => {
    await page.getByRole("button", { name: "Shoots", exact: true }).click();
    await list().getByRole("option").first().waitFor();
    const first = list().getByRole("option").first();
    await expect.poll(() => first.textContent()).toContain("Cellist");
    expect(await first.getAttribute("aria-setsize")).toBe(`${SHOOTS}`);
    expect(await shown()).toBeLessThan(30);
    const height = await first.evaluate((row) => row.getBoundingClientRect().height);
    const whole = await list().evaluate((element) => element.scrollHeight);
    expect(whole).toBe(height * SHOOTS);
  });

  test("[AP112] one Tab stop: keys walk to either end, Enter opens", async () => {
    await list().focus();
    await list().press("ArrowDown");
    await list().press("ArrowDown");
    await expect.poll(() => inHand().textContent()).toContain("Portrait 1");
    await list().press("End");
    await expect.poll(() => inHand().textContent()).toContain(`Portrait ${MADE - 1}`);
    expect(await inHand().getAttribute("aria-posinset")).toBe(`${SHOOTS}`);
    const active = await list().getAttribute("aria-activedescendant");
    expect(await inHand().getAttribute("id")).toBe(active);
    await list().press("Enter");
    await expect.poll(() => title().inputValue()).toBe(`Portrait ${MADE - 1}`);
    await page.getByRole("button", { name: "all shoots" }).click();
    // it stands where it was left, and has the keys
    await expect.poll(() => list().evaluate((element) => element.matches(":focus"))).toBe(true);
    await expect.poll(() => inHand().textContent()).toContain(`Portrait ${MADE - 1}`);
    await list().press("Home");
    await expect.poll(() => inHand().textContent()).toContain("Cellist");
  });

  test("[AP113] words and days narrow; nothing found leads back; the search waits for whoever comes back", async () => {
    const words = page.getByLabel("look for");
    await words.fill("book");
    await expect.poll(() => found().textContent()).toBe("1 shoot");
    await list().press("Enter");
    await expect.poll(() => title().inputValue()).toBe("Book jacket");
    await page.getByRole("button", { name: "all shoots" }).click();
    expect(await words.inputValue()).toBe("book");
    await expect.poll(() => inHand().textContent()).toContain("Book jacket");
    await words.fill("nobody at all");
    await page.getByText("No shoot has all of this: “nobody at all”.").waitFor();
    await page
      .getByRole("main")
      .getByRole("button", { name: /^clear/ })
      .last()
      .click();
    await expect.poll(() => found().textContent()).toBe(`${SHOOTS} shoots`);
    await page.getByLabel("from, day").fill(day(4));
    await page.getByLabel("to, day").fill(day(1));
    await expect.poll(() => found().textContent()).toBe("4 shoots");
    await page.getByRole("button", { name: /^clear/ }).click();
  });
});

describe("a shoot", () => {
  test("[AP114] it is written where it stands and kept by itself; the same field written twice is asked about", async () => {
    await open("Portrait 77");
    await page.getByLabel("place", { exact: true }).fill("Mill Hall");
    await page.getByLabel("notes").fill("black velvet");
    const id = (await api<ShootRows>("api/shoots?text=Portrait%2077&limit=1")).rows[0]?.id ?? "";
    const kept = async () => (await api<ShootWhole>(`api/shoots/${id}`)).shoot;
    await expect.poll(kept).toMatchObject({ place: "Mill Hall", notes: "black velvet" });
    // between what is typed here and its being kept, another window is quicker
    await page.route(
      `**/api/shoots/${id}`,
      async (route) => {
        const { revision } = await kept();
        await api(`api/shoots/${id}`, "PATCH", {
          revision,
          fields: { place: "Gallery", client: "Anna Lind" },
        });
        await route.continue();
      },
      { times: 1 },
    );
    await page.getByLabel("place", { exact: true }).fill("Mill Hall, upstairs");
    const asked = page.getByRole("alert").filter({ hasText: "Another window wrote here" });
    await asked.waitFor();
    expect(await asked.textContent()).toContain("there: “Gallery”");
    expect((await kept()).place).toBe("Gallery");
    await asked.getByRole("button", { name: "keep mine" }).click();
    await expect.poll(kept).toMatchObject({ place: "Mill Hall, upstairs", client: "Anna Lind" });
    expect(await page.getByLabel("client").inputValue()).toBe("Anna Lind");
  });

  test("[AP119] it goes out as one archive; it is put away and brought back, and nothing of it is lost", async () => {
    const [archive] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "save as one archive" }).click(),
    ]);
    expect(archive.suggestedFilename()).toMatch(/\.zip$/);
    await page.getByText(`${archive.suggestedFilename()} is packed and handed to the browser.`).waitFor();
    expect((await readFile(await archive.path())).subarray(0, 2).toString()).toBe("PK");
    await page.getByRole("button", { name: "put away" }).click();
    await page.getByText("it is out of the list; nothing of it is gone").waitFor();
    await page.getByRole("button", { name: "all shoots" }).click();
    await page.getByText("No shoot has all of this: “Portrait 77”.").waitFor();
    await page.getByLabel("those put away").check();
    await expect.poll(() => list().getByRole("option").first().textContent()).toContain("put away");
    await list().getByRole("option").first().click();
    await page.getByRole("button", { name: "bring back" }).click();
    await page.getByText("out of the list until it is asked for").waitFor();
    expect(await page.getByLabel("notes").inputValue()).toBe("black velvet");
    await page.getByRole("button", { name: "all shoots" }).click();
    await page
      .getByRole("button", { name: /^clear/ })
      .first()
      .click();
  });

  test("[AP120] step 6 keeps versions under names and leads to the plan's shoot", async () => {
    await page.getByRole("button", { name: "back to the plan" }).click();
    const record = page.getByRole("listitem").filter({ hasText: "6 record" });
    for (const name of ["before lunch", "after lunch"]) {
      await record.getByRole("button", { name: "keep a version" }).click();
      await page.keyboard.type(name);
      await page.keyboard.press("Enter");
      await record.getByText(/versions? kept/).waitFor();
    }
    await record.getByText("2 versions kept").waitFor();
    await record.getByRole("button", { name: "its shoot" }).click();
    await expect.poll(() => title().inputValue()).toContain("Cellist");
    const states = page.getByRole("list", { name: /^States of/ }).getByRole("listitem");
    expect((await states.allTextContents()).map((text) => /^\S+ \S+ \S+/.exec(text)?.[0])).toEqual([
      "as it is",
      "2 after lunch",
      "1 before lunch",
    ]);
  });

  test("[AP115] a version is named anew, two states stand side by side, and a plan moves to another shoot", async () => {
    await page.getByRole("button", { name: "rename 1 before lunch" }).click();
    await page.getByLabel(/^name of version 1/).fill("morning");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "rename 1 morning" }).waitFor();
    await page.getByLabel("compare 1 morning").check();
    await page.getByLabel(/^compare .* as it is now$/).check();
    await page.getByRole("button", { name: "put the two side by side" }).click();
    await page.getByRole("heading", { name: "The two are the same" }).waitFor();
    await page.getByRole("button", { name: "back to the shoot" }).click();
    await page.getByRole("button", { name: /^move\b/ }).click();
    await page.keyboard.type("book");
    await page.getByRole("button", { name: "Book jacket" }).click();
    await page.getByText("None yet. Move one here").waitFor();
    await page.getByRole("button", { name: "all shoots" }).click();
    await open("Book jacket");
    await page
      .getByRole("article", { name: /^Cellist/ })
      .getByText("2 versions")
      .waitFor();
    await page
      .getByRole("article")
      .getByRole("button", { name: /^open Cellist/ })
      .click();
    await drawn(page);
  });
});

/** Frames as the library lists them, known to the last digit. The photograph of the fourth has moved away. */
class KnownFrames {
  readonly #picks = new Map<number, object>();
  readonly asked: string[] = [];

  row(n: number): FrameRow {
    return {
      id: `f${n}`,
      shoot: "s",
      key: null,
      version: null,
      name: `IMG_${1000 + n}.JPG`,
      path: `/photographs/IMG_${1000 + n}.JPG`,
      takenAt: `2026-11-26T10:${String(n % 60).padStart(2, "0")}:00`,
      arrivedAt: "2026-11-26T10:00:00.000Z",
      width: 4000,
      height: 6000,
      pattern: "loop",
      ratioStops: 2,
      clippedSkin: n === 1 ? 0.02 : 0,
      stars: 0,
      isSelect: false,
      hasThumbnail: true,
      ...this.#picks.get(n),
    };
  }

  async answer(route: Route): Promise<void> {
    const { pathname, searchParams } = new URL(route.request().url());
    this.asked.push(pathname);
    const n = Number(/\/f(\d+)/.exec(pathname)?.[1]);
    if (pathname.endsWith("/thumbnail")) return route.fulfill({ body: PIXEL, contentType: "image/png" });
    if (pathname.endsWith("/picture")) {
      // the small one stands in where the photograph is not
      if (n === 3) return route.fulfill({ body: PIXEL, contentType: "image/png" });
      return route.fulfill({ body: LARGE, contentType: "image/svg+xml" });
    }
    if (route.request().method() === "PATCH") {
      this.#picks.set(n, { ...this.#picks.get(n), ...route.request().postDataJSON() });
      return route.fulfill({ json: this.row(n) });
    }
    const offset = Number(searchParams.get("offset"));
    const many = Math.min(Number(searchParams.get("limit")), 300 - offset);
    const rows = Array.from({ length: many }, (_, i) => this.row(offset + i));
    return route.fulfill({ json: { total: 300, rows } });
  }
}

/** One pixel: what stands in for a picture where only its place matters. */
const PIXEL = Buffer.from(
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==",
  "base64",
);

const LARGE = '<svg xmlns="http://www.w3.org/2000/svg" width="640" height="960"/>';

describe("test frames of a shoot", () => {
  const frames = new KnownFrames();
  const grid = () => page.getByRole("listbox", { name: /^Test frames/ });
  const inGrid = () => grid().locator("[aria-selected=true]");
  const hand = () => page.getByRole("region", { name: /^Frame in hand/ });

  test("[AP117] keys and buttons rate and select; only what is in view is drawn; selects stand alone", async () => {
    await context.route(/\/api\/(shoots\/[^/]+\/frames|frames\/f)/, (route) => frames.answer(route));
    await page.getByRole("button", { name: "Shoots", exact: true }).click();
    await open("Portrait 12");
    await page.getByRole("heading", { name: "300 test frames" }).waitFor();
    expect(await grid().getByRole("option").count()).toBeLessThan(60);
    await grid().focus();
    await grid().press("4");
    await grid().press("ArrowRight");
    await grid().press("s");
    await expect.poll(() => inGrid().textContent()).toContain("IMG_1001.JPG");
    expect(await inGrid().textContent()).toContain("2.0 % of the skin clips");
    await grid().press("End");
    await expect.poll(() => hand().textContent()).toContain("IMG_1299.JPG");
    await hand().getByRole("button", { name: "3 stars" }).click();
    await expect
      .poll(() => [0, 1, 299].map((n) => frames.row(n)))
      .toMatchObject([
        { stars: 4, isSelect: false },
        { stars: 0, isSelect: true },
        { stars: 3, isSelect: false },
      ]);
    await page.getByRole("button", { name: "selects", exact: true }).click();
    await expect.poll(() => grid().getByRole("option").allTextContents()).toHaveLength(1);
    expect(await inGrid().textContent()).toContain("IMG_1001.JPG");
    await page.getByRole("button", { name: "all", exact: true }).click();
  });

  test("[AP118] a photograph that has moved away says so with its cure, and its small picture stays", async () => {
    await grid().focus();
    await grid().press("Home");
    for (let n = 0; n < 3; n++) await grid().press("ArrowRight");
    await hand().getByText("the photograph does not lie in /photographs any more").waitFor();
    expect(await hand().getByRole("img", { name: "IMG_1003.JPG" }).isVisible()).toBe(true);
    await grid().press("ArrowLeft");
    await expect.poll(() => hand().getByRole("status").count()).toBe(0);
  });

  test("[AP123] axe finds nothing, on any screen in either theme", async () => {
    const looked: string[] = [];
    for (const [width, height, colorScheme] of [
      [1440, 900, "dark"],
      [390, 844, "light"],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      looked.push(...(await violations(page)));
    }
    await page.getByRole("button", { name: "all shoots" }).click();
    await list().getByRole("option").first().waitFor();
    for (const [width, height, colorScheme] of [
      [390, 844, "dark"],
      [1024, 768, "light"],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      looked.push(...(await violations(page)));
      const wide = await page.evaluate("document.documentElement.scrollWidth > innerWidth");
      expect(wide).toBe(false);
    }
    expect(looked).toEqual([]);
  });
});

test("[AP110] without a server the page says how shoots come to be; [AP122] a part that does not come is asked for again", async () => {
  let isAway = true;
  const other = await openPage(browser, served.url, { serviceWorkers: "block" }, async (bare) => {
    await bare.route("**/api/open", (route) =>
      route.fulfill({ contentType: "text/html", body: "plain files" }),
    );
    await bare.route("**/shoots-page-*.js", (route) => (isAway ? route.abort() : route.continue()));
  });
  await other.page.getByRole("button", { name: "Shoots", exact: true }).click();
  const missing = other.page.getByRole("alert", { name: "This part of Tapemark could not be loaded" });
  await missing.waitFor();
  await missing.getByRole("button", { name: "back to the plan" }).click();
  await other.page.getByRole("button", { name: "Shoots", exact: true }).click();
  await missing.waitFor();
  isAway = false;
  await missing.getByRole("button", { name: "try again" }).click();
  await other.page.getByText("Shoots are kept by the program on your own machine.").waitFor();
  await other.page.getByRole("button", { name: "first page" }).click();
  await other.page.getByRole("heading", { name: "a new room" }).waitFor();
  await other.context.close();
});
