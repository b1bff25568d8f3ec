/** Opening with and without a server, the start page, steps, a page that dies, parts on the clipboard. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createWorks, openLibrary } from "../src/library/index.ts";
import { drawn, floor, launch, numbers, openPage, pattern, read, serve, settled, unlit } from "./start.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

/** A server that can be stopped and started again at the same address with the same works. */
async function lastingServer(...args: string[]) {
  const home = mkdtempSync(join(tmpdir(), "tapemark-e2e-"));
  const port = await freePort();
  let child: ChildProcess | null = null;
  const start = async () => {
    child = spawn(
      process.execPath,
      ["bin/tapemark.js", "open", ...args, "--no-browser", "--port", String(port)],
      { env: { ...process.env, TAPEMARK_DATA: home }, stdio: ["ignore", "pipe", "inherit"] },
    );
    await new Promise<void>((resolve) => child?.stdout?.once("data", () => resolve()));
  };
  const stop = async () => {
    const ended = new Promise((resolve) => child?.once("exit", resolve));
    child?.kill("SIGTERM");
    await ended;
  };
  await start();
  return {
    url: `http://127.0.0.1:${port}/`,
    home,
    start,
    stop,
    async end() {
      await stop();
      rmSync(home, { recursive: true, force: true });
    },
  };
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, "127.0.0.1", () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === "object" && address !== null ? address.port : 0));
    });
  });
}

/** One more work, whose text is spoilt on the disk. */
async function keepTorn(path: string): Promise<void> {
  const around = { now: () => new Date(), newId: () => "torn" };
  const library = openLibrary(path, around);
  await createWorks(library, around).save("torn", { revision: 1, plan: { title: "torn" }, history: null });
  library.write((db) => db.exec(`UPDATE works SET plan = '{"plan":' WHERE key = 'torn'`));
  library.close();
}

async function give(page: Page, text: string, button = "open"): Promise<void> {
  const [chooser] = await Promise.all([
    page.waitForEvent("filechooser"),
    page.getByRole("button", { name: button, exact: true }).click(),
  ]);
  await chooser.setFiles({ name: "given.json", mimeType: "application/json", buffer: Buffer.from(text) });
}

const kept = (page: Page) => expect.poll(() => page.getByText(/^kept/).count(), { timeout: 10_000 }).toBe(1);
const iso = (page: Page) => page.getByRole("textbox", { name: "ISO" });
async function setIso(page: Page, value: string): Promise<void> {
  await iso(page).fill(value);
  await iso(page).press("Enter");
}
async function setTitle(page: Page, value: string): Promise<void> {
  await page.getByLabel("title of the job").fill(value);
  await page.getByLabel("title of the job").press("Enter");
}
const title = (page: Page) => page.getByLabel("title of the job").inputValue();
const worksOf = async (url: string) =>
  (await (await fetch(`${url}api/works`)).json()) as { key: string; title: string }[];
/** The page itself is kept, too: a reload needs nobody. */
const pageIsKept = (page: Page) =>
  expect
    .poll(() => page.evaluate("navigator.serviceWorker.controller !== null"), { timeout: 20_000 })
    .toBe(true);
const pick = (page: Page, name: RegExp) => floor(page).getByRole("button", { name }).focus();

describe("without the server", () => {
  test("[AP60] [AP61] after one visit the page opens and reads; edits wait and go to the server when it runs", async () => {
    const server = await lastingServer("examples/cellist.json");
    const { page, context } = await openPage(browser, server.url);
    await read(page);
    await pageIsKept(page);
    await server.stop();
    await page.reload();
    await settled(page);
    expect(await title(page)).toBe("Cellist, season poster");
    expect(await pattern(page).textContent()).not.toBe("");
    await setTitle(page, "Cellist, without the server");
    await page.getByText(/in this browser; the server is away$/).waitFor();
    expect(await page.getByRole("alert").count()).toBe(0);
    // closed and opened again: still there, still without the server
    await page.close();
    const again = await context.newPage();
    await again.goto(server.url);
    await read(again);
    expect(await title(again)).toBe("Cellist, without the server");
    await server.start();
    await expect
      .poll(async () => (await worksOf(server.url))[0]?.title, { timeout: 40_000 })
      .toBe("Cellist, without the server");
    await expect.poll(() => again.getByText(/server is away/).count(), { timeout: 10_000 }).toBe(0);
    await context.close();
    await server.end();
  });

  test("[AP60] nothing that the server answers is kept, and an answer of the page is what was built", async () => {
    const server = await lastingServer();
    const { page, context } = await openPage(browser, server.url, {}, unlit);
    await pageIsKept(page);
    const addresses = (await page.evaluate(
      `(async () => { const out = []; for (const name of await caches.keys())
        for (const request of await (await caches.open(name)).keys()) out.push(new URL(request.url).pathname);
        return out; })()`,
    )) as string[];
    const built = readdirSync("dist/app/assets").filter((name) => !name.endsWith(".woff"));
    expect(addresses.filter((path) => path.startsWith("/assets/")).sort()).toEqual(
      built.map((name) => `/assets/${name}`).sort(),
    );
    expect(addresses).toContain("/");
    expect(addresses.filter((path) => path.includes("api"))).toEqual([]);
    await context.close();
    await server.end();
  });

  test("[AP61] changed in two places: other fields meet by themselves, the same one is asked about", async () => {
    const server = await lastingServer("examples/cellist.json");
    const one = await openPage(browser, server.url, {}, unlit);
    const two = await openPage(browser, server.url, {}, unlit);
    await drawn(one.page);
    await drawn(two.page);
    await one.context.route("**/api/**", (route) => route.abort());
    await setTitle(one.page, "mine");
    await one.page.getByText(/server is away$/).waitFor();
    await setIso(two.page, "400");
    await kept(two.page);
    await expect.poll(async () => (await worksOf(server.url)).length).toBe(1);
    await one.context.unroute("**/api/**");
    await expect.poll(() => iso(one.page).inputValue(), { timeout: 40_000 }).toBe("400");
    expect(await title(one.page)).toBe("mine");
    await expect.poll(async () => (await worksOf(server.url))[0]?.title).toBe("mine");

    await expect.poll(() => title(two.page), { timeout: 10_000 }).toBe("mine");
    await one.context.route("**/api/**", (route) => route.abort());
    await setIso(one.page, "200");
    await one.page.getByText(/server is away$/).waitFor();
    await setIso(two.page, "800");
    await kept(two.page);
    await one.context.unroute("**/api/**");
    await one.page.getByText("camera: ISO 200 here, ISO 800 there").waitFor({ timeout: 40_000 });
    await one.page.getByRole("button", { name: "keep mine" }).click();
    await kept(one.page);
    expect(await iso(one.page).inputValue()).toBe("200");
    await one.context.close();
    await two.context.close();
    await server.end();
  });
});

describe("the start page", () => {
  test("[AP62] with nothing kept it comes first; a room typed in feet and inches is begun, kept, and found again", async () => {
    const served = await serve();
    const { page, context, complaints } = await openPage(browser, served.url);
    await page.getByRole("heading", { name: "Tapemark" }).waitFor();
    expect(await page.getByRole("heading", { name: /last plan/ }).count()).toBe(0);
    await page.getByRole("button", { name: "feet" }).click();
    const width = page.getByLabel(/^width/);
    await width.fill("12'6\"");
    await width.press("Enter");
    await page.getByRole("button", { name: "metres" }).click();
    expect(await width.inputValue()).toBe("3.81 m");
    await width.fill("900");
    await width.press("Enter");
    expect(await page.getByRole("alert").textContent()).toMatch(/from 0\.5 to 100 m.*Kept 3\.81 m/);
    await page.getByLabel("with somebody, one light and a meter").check();
    await page.getByRole("button", { name: "begin in this room" }).click();
    await settled(page);
    expect(
      await numbers(page)
        .getByLabel(/^width/)
        .inputValue(),
    ).toBe("3.81 m");
    expect(await pattern(page).textContent()).not.toBe("Dark");
    await kept(page);
    await setTitle(page, "Her own room");
    await kept(page);
    await page.reload();
    await drawn(page);
    expect(await title(page)).toBe("Her own room");
    await page.getByRole("button", { name: "all plans" }).click();
    await page.getByRole("button", { name: /^Split, from the manual/ }).click();
    await drawn(page);
    await kept(page);
    await page.getByRole("button", { name: "all plans" }).click();
    const other = page
      .getByRole("region", { name: "other plans that are kept" })
      .getByRole("button", { name: /^Her own room.*today.*1 light, 1 person/ });
    await other.click();
    await drawn(page);
    await expect.poll(() => title(page)).toBe("Her own room");
    expect(complaints).toEqual([]);
    await context.close();
    await served.stop();
  });

  test("[AP62] an empty room has nobody in it and says what is missing", async () => {
    const served = await serve();
    const { page, context } = await openPage(browser, served.url);
    await page.getByLabel("empty but for the camera").check();
    await page.getByRole("button", { name: "begin in this room" }).click();
    await page.getByText("Nobody stands in this plan yet").waitFor();
    await context.close();
    await served.stop();
  });

  test("[AP68] a reload goes on with what was on the table, not with what the command line had named", async () => {
    const served = await serve("examples/cellist.json");
    const { page, context } = await openPage(browser, served.url, {}, unlit);
    await drawn(page);
    await page.getByRole("button", { name: "all plans" }).click();
    await page.getByRole("button", { name: /^Quartet/ }).click();
    await expect.poll(() => title(page)).toMatch(/^Quartet/);
    await kept(page);
    await page.reload();
    await drawn(page);
    expect(await title(page)).toMatch(/^Quartet/);
    await context.close();
    await served.stop();
  });

  test("[AP66] newer, older and broken plans each say what to do; a damaged work does not hide the others", async () => {
    const server = await lastingServer();
    const { page, context } = await openPage(browser, server.url, {}, unlit);
    const file = (version: number) => JSON.stringify({ format: "tapemark/plan", version });
    const news = page.getByRole("alert");
    await give(page, file(99), "open a file");
    expect(await news.textContent()).toMatch(/given\.json is not opened.*newer Tapemark.*update Tapemark/);
    await give(page, file(0), "open another file");
    // the news of the first file stands there until the second has been read
    await expect.poll(() => news.textContent()).toMatch(/no plan of that version can be brought forward/);
    await news.getByRole("button", { name: "close" }).click();
    await page.getByRole("button", { name: /^Rim, from the manual/ }).click();
    await drawn(page);
    await give(page, '{"format": "tapemark/plan", "version": 1, "lights": 3}');
    expect(await news.textContent()).toMatch(/lights.*must be a list/);
    await kept(page);
    await keepTorn(join(server.home, "library.tapemark"));
    await news.getByRole("button", { name: "all plans" }).click();
    await page.getByRole("button", { name: /^torn.*damaged/ }).click();
    expect(await news.textContent()).toMatch(
      /“torn” is not opened.*"torn" in .*library\.tapemark is damaged; the others are untouched/,
    );
    await page
      .getByRole("button", { name: /^Rim, from the manual/ })
      .first()
      .click();
    await drawn(page);
    await context.close();
    await server.end();
  });
});

describe("steps", () => {
  test("[AP63] the list of steps goes anywhere and back, also after a reload", async () => {
    const served = await serve("examples/cellist.json");
    const { page, context } = await openPage(browser, served.url, {}, unlit);
    await drawn(page);
    for (const value of ["200", "400", "800"]) await setIso(page, value);
    const steps = page.getByRole("dialog", { name: "Steps" });
    const all = () => steps.getByRole("listitem").allTextContents();
    await page.getByRole("button", { name: "steps" }).click();
    expect((await all()).length).toBe(4);
    expect(await steps.locator("[aria-current=step]").textContent()).toContain("ISO");
    await steps.getByRole("button", { name: "opened" }).click();
    expect(await iso(page).inputValue()).toBe("100");
    expect((await all())[0]).toMatch(/undone$/);
    await page.keyboard.press("Escape");
    await kept(page);
    await page.reload();
    await drawn(page);
    await page.getByRole("button", { name: "steps" }).click();
    await steps.getByRole("listitem").first().getByRole("button").click();
    expect(await iso(page).inputValue()).toBe("800");
    await context.close();
    await served.stop();
  });

  test("[AP64] a page that dies in the middle of a drag has lost at most the last second", async () => {
    const served = await serve("examples/cellist.json");
    const { page, context } = await openPage(browser, served.url);
    await settled(page);
    const key = floor(page).getByRole("button", { name: /^key/ });
    const box = await key.boundingBox();
    if (box === null) throw new Error("the key is not on screen");
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    const seen: { at: number; across: string }[] = [];
    const began = Date.now();
    for (let i = 1; Date.now() - began < 2500 || i < 8; i++) {
      await page.mouse.move(x - 6 * i, y);
      seen.push({
        at: Date.now(),
        across: await numbers(page)
          .getByLabel(/^from left wall/)
          .inputValue(),
      });
    }
    // what came of the last move is on screen as well
    await page.evaluate("new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(r)))");
    seen.push({
      at: Date.now(),
      across: await numbers(page)
        .getByLabel(/^from left wall/)
        .inputValue(),
    });
    const died = Date.now();
    const session = await context.newCDPSession(page);
    void session.send("Page.crash").catch(() => undefined);
    await page.waitForEvent("crash");
    const next = await context.newPage();
    await next.goto(served.url);
    await drawn(next);
    await pick(next, /^key/);
    const back = await numbers(next)
      .getByLabel(/^from left wall/)
      .inputValue();
    // to the left of what was kept, it was seen later: what stood there between two looks counts as seen at the one before
    const last = seen.findLast((each) => Number.parseFloat(each.across) >= Number.parseFloat(back));
    expect(last, `${back} is ahead of all that was on screen`).toBeDefined();
    expect(died - (last?.at ?? 0)).toBeLessThan(1000);
    // the drag moved on in that time: this would fail if the drag had stood still
    expect(new Set(seen.map((each) => each.across)).size).toBeGreaterThan(3);
    await context.close();
    await served.stop();
  });
});

describe("parts on the clipboard", () => {
  const press = (page: Page, key: string) => page.keyboard.press(`ControlOrMeta+${key}`);
  async function hold(context: BrowserContext, url: string): Promise<Page> {
    const page = await context.newPage();
    await page.goto(url);
    await drawn(page);
    return page;
  }

  test("[AP65] a light goes by keys into another plan in another window; one undo takes it back", async () => {
    const [one, two] = [await serve("examples/cellist.json"), await serve("examples/manual-rim.json")];
    const context = await browser.newContext({
      viewport: { width: 1440, height: 900 },
      permissions: ["clipboard-read", "clipboard-write"],
    });
    await unlit(context);
    const from = await hold(context, one.url);
    await pick(from, /^key/);
    await press(from, "c");
    const text = (await from.evaluate("navigator.clipboard.readText()")) as string;
    expect(JSON.parse(text)).toMatchObject({
      format: "tapemark/parts",
      version: 1,
      lights: [{ name: "key" }],
    });
    const to = await hold(context, two.url);
    await to.bringToFront();
    const lights = () =>
      floor(to)
        .getByRole("button", { name: /, light,/ })
        .count();
    const before = await lights();
    const keys = async () =>
      floor(to)
        .getByRole("button", { name: /^key( \d+)?,/ })
        .count();
    const had = await keys();
    await press(to, "v");
    await expect.poll(lights).toBe(before + 1);
    expect(await keys()).toBe(had + 1);
    await press(to, "z");
    await expect.poll(lights).toBe(before);
    await context.close();
    await one.stop();
    await two.stop();
  });

  test("[AP65] by buttons, without leave to read the clipboard: cut, and paste under a free name", async () => {
    const served = await serve("examples/cellist.json");
    const { page, context } = await openPage(browser, served.url, {}, unlit);
    await drawn(page);
    await pick(page, /^V-flat/);
    await page.getByRole("button", { name: "copy V-flat, black" }).click();
    await page.getByRole("button", { name: "paste" }).click();
    const flats = () =>
      floor(page)
        .getByRole("button", { name: /^V-flat, black/ })
        .count();
    await expect.poll(flats).toBe(2);
    expect(
      await floor(page)
        .getByRole("button", { name: /^V-flat, black 2/ })
        .count(),
    ).toBe(1);
    await page.getByRole("button", { name: "cut V-flat, black 2" }).click();
    await expect.poll(flats).toBe(1);
    await page.getByRole("button", { name: /^undo cut V-flat, black 2/ }).click();
    await expect.poll(flats).toBe(2);
    await context.close();
    await served.stop();
  });

  test("[AP65] what is typed in a field stays the field's; what is torn is refused with its reason", async () => {
    const served = await serve("examples/cellist.json");
    const context = await browser.newContext({
      viewport: { width: 1440, height: 900 },
      permissions: ["clipboard-read", "clipboard-write"],
    });
    await unlit(context);
    const page = await hold(context, served.url);
    await page.evaluate('navigator.clipboard.writeText(\'{ "format": "tapemark/parts", "lights": [\')');
    await pick(page, /^key/);
    await press(page, "v");
    expect(await page.getByRole("alert").textContent()).toMatch(/Nothing was pasted.*torn/);
    await page.evaluate('navigator.clipboard.writeText("1600")');
    await iso(page).fill("");
    await iso(page).focus();
    await press(page, "v");
    await iso(page).press("Enter");
    expect(await iso(page).inputValue()).toBe("1600");
    await context.close();
    await served.stop();
  });
});

describe("installing", () => {
  test("[AP67] the manifest names the page and icons of the sizes that they have", async () => {
    const served = await serve();
    const { page, context, complaints } = await openPage(browser, served.url, {}, unlit);
    const session = await context.newCDPSession(page);
    const { errors, data } = await session.send("Page.getAppManifest");
    expect(errors).toEqual([]);
    const manifest = JSON.parse(data ?? "{}") as { icons: { src: string; sizes: string; purpose: string }[] };
    const sizes = await Promise.all(
      manifest.icons.map(({ src }) =>
        page.evaluate(
          `createImageBitmapOf(${JSON.stringify(src)})`.replace(
            "createImageBitmapOf",
            "((src) => new Promise((done, fail) => { const i = new Image(); i.onload = () => done(i.naturalWidth + 'x' + i.naturalHeight); i.onerror = fail; i.src = src; }))",
          ),
        ),
      ),
    );
    manifest.icons.forEach((icon, i) => {
      if (icon.sizes !== "any") expect(sizes[i]).toBe(icon.sizes);
    });
    expect(manifest.icons.map(({ purpose }) => purpose)).toContain("maskable");
    const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
    // a context of a test is a private window, in which nothing can be installed
    const hindrances = installabilityErrors
      .map(({ errorId }) => errorId)
      .filter((id) => id !== "in-incognito");
    expect(hindrances).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
    await served.stop();
  });
});
