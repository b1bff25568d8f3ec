import { type ChildProcess, spawn } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Page,
} from "playwright-core";

const ROOT = fileURLToPath(new URL("..", import.meta.url));

export interface Served {
  readonly url: string;
  stop(): Promise<void>;
}

/** The real command, as people run it, with a home of its own so that nothing kept before is found. */
export async function serve(...args: string[]): Promise<Served> {
  const home = await mkdtemp(join(tmpdir(), "tapemark-e2e-"));
  const child = spawn(process.execPath, ["bin/tapemark.js", "open", ...args, "--no-browser", "--port", "0"], {
    cwd: ROOT,
    env: {
      ...process.env,
      HOME: home,
      XDG_DATA_HOME: home,
      XDG_CONFIG_HOME: home,
      XDG_STATE_HOME: home,
      TAPEMARK_DATA: home,
    },
    stdio: ["ignore", "pipe", "pipe"],
  });
  const url = await urlFrom(child);
  return {
    url,
    async stop() {
      const ended = new Promise((resolve) => child.once("exit", resolve));
      child.kill("SIGTERM");
      await ended;
      await rm(home, { recursive: true, force: true });
    },
  };
}

function urlFrom(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = "";
    const listen = (chunk: Buffer) => {
      said += chunk.toString();
      const match = /https?:\/\/(?:127\.0\.0\.1|localhost|\[::1\]):\d+\S*/.exec(said);
      if (match) resolve(match[0]);
    };
    child.stdout?.on("data", listen);
    child.stderr?.on("data", listen);
    child.once("exit", (code) =>
      reject(new Error(`the server ended with ${code} before it named its address:\n${said}`)),
    );
  });
}

export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}

export interface Opened {
  readonly page: Page;
  readonly context: BrowserContext;
  /** what the page complained about: must stay empty */
  readonly complaints: string[];
  /** addresses that the page asked for */
  readonly asked: string[];
}

export async function openPage(
  browser: Browser,
  url: string,
  options: BrowserContextOptions = {},
  prepare: (context: BrowserContext) => Promise<unknown> = async () => {},
): Promise<Opened> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  await prepare(context);
  const page = await context.newPage();
  const complaints: string[] = [];
  const asked: string[] = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("console", (message) => {
    // reading the picture back is what the tests do, not the page
    if (message.text().startsWith("Canvas2D: Multiple readback")) return;
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("request", (request) => asked.push(request.url()));
  await page.goto(url);
  return { page, context, complaints, asked };
}

/** Workers that never answer. The two processors are for what a test asks about: handed to `openPage`, as what prepares it. */
const silent = (which: string) => (context: BrowserContext) =>
  context.addInitScript(`{
    const Answering = globalThis.Worker;
    class Silent extends EventTarget { postMessage() {} terminate() {} }
    globalThis.Worker = function (address, options) {
      return ${which} ? new Silent() : new Answering(address, options);
    };
  }`);
/** Nothing of the light is worked out. */
export const unlit = silent("true");
/** Reading, frame and maps are worked out, what is tried beside the plan (moves, eyes, hold zone) is not. */
export const untried = silent("options?.name === 'trials'");

let openings = 0;

/** The same, of a server that others of a file use too: here its plan goes under a name of its own, so that what one test
 * keeps is not what the next one finds. */
export async function openAlone(
  browser: Browser,
  url: string,
  options: BrowserContextOptions = {},
  prepare: (context: BrowserContext) => Promise<unknown> = async () => {},
): Promise<Opened> {
  const mine = ++openings;
  return openPage(browser, url, options, async (context) => {
    await prepare(context);
    await context.route("**/api/open", async (route) => {
      try {
        const response = await route.fetch();
        const named = (await response.json()) as { key: string };
        await route.fulfill({ response, json: { ...named, key: `${named.key}-${mine}` } });
      } catch (error) {
        // a page that was closed meanwhile asks for nothing more: it goes on asking whether the server is there
        if (!/closed|disposed/.test(String(error))) throw error;
      }
    });
  });
}

/** One page for many tests: opening it, and working out the same light again, costs more than most of them. Whoever changes
 * more than the plan puts that back. */
export class SharedPage {
  #opened: Opened | null = null;

  /** The page as it stands, or a new one where the last test left none. */
  async get(open: () => Promise<Opened>): Promise<Opened> {
    this.#opened ??= await open();
    return this.#opened;
  }

  /** Takes every step back and focus away, so that the next test finds the plan as it was opened; a page of a test that failed is closed.
   * Gives what the page complained about. */
  async putBack(passed: boolean): Promise<readonly string[]> {
    if (this.#opened === null) return [];
    const { page, context, complaints } = this.#opened;
    if (passed && complaints.length === 0) {
      const undo = page.getByRole("button", { name: /^undo/ });
      while (await undo.isEnabled()) await undo.click();
      // what has focus already is not taken hold of by focusing it
      await page.evaluate("document.activeElement.blur()");
    } else {
      this.#opened = null;
      await context.close();
    }
    return complaints;
  }
}

/** Waits until the plan on the table is drawn and can be worked with; nothing of its light need be known. */
export async function drawn(page: Page): Promise<void> {
  await floor(page)
    .getByRole("button", { name: /^camera/ })
    .waitFor();
}

/** Waits until the first reading of somebody and its picture are there; finer ones may come. */
export async function read(page: Page): Promise<void> {
  await pattern(page).waitFor({ timeout: 60_000 });
  await page.locator("canvas.picture").first().waitFor();
}

/** Waits until the fine reading, map and frame of what is on the table are there. */
export async function settled(page: Page): Promise<void> {
  await page
    .locator(".reading[aria-busy=true]")
    .waitFor({ state: "attached", timeout: 250 })
    .catch(() => {
      // it was quicker than the eye
    });
  await page.locator(".reading[aria-busy=false]").waitFor({ timeout: 90_000 });
}

export const floor = (page: Page) => page.getByRole("group", { name: /^Floor/ });
export const side = (page: Page) => page.getByRole("group", { name: /^Side/ });
/** The name of the light on the face. */
export const pattern = (page: Page) =>
  page.getByRole("region", { name: "Reading" }).getByRole("heading", { level: 3 });
/** A line that is read, by what it says of itself. */
export const line = (page: Page, text: string) => page.getByRole("definition").filter({ hasText: text });
export const numbers = (page: Page) => page.locator(".numbers");

/** The picture's own pixels: a checksum, which differs between two pictures, and how many levels they have. */
const PIXELS = `(() => {
  const canvas = document.querySelector("canvas.picture");
  const { width, height } = canvas;
  const { data } = canvas.getContext("2d").getImageData(0, 0, width, height);
  let sum = 2166136261;
  for (const value of data) sum = Math.imul(sum ^ value, 16777619);
  return { sum: width + "x" + height + ":" + (sum >>> 0).toString(16), levels: new Set(data).size };
})()`;

export function picture(page: Page): Promise<{ sum: string; levels: number }> {
  return page.evaluate(PIXELS);
}

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

let axe: Promise<string> | null = null;

/** What axe-core finds on the page, which must have been opened with bypassCSP. */
export async function violations(page: Page): Promise<string[]> {
  axe ??= readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
  await page.evaluate(await axe);
  const found = (await page.evaluate("axe.run().then((result) => result.violations)")) as Violation[];
  return found.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html} ${node.failureSummary}`));
}
