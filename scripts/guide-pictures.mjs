// Takes the pictures of docs/guide from the program itself: npm run guide (which builds first; needs a Chromium).
// node scripts/guide-pictures.mjs NAME … takes those alone.
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import sharp from "sharp";
import { DRAWN, SCREENS } from "./guide-scenes.mjs";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const folder = join(root, "docs", "guide", "pictures");
const work = mkdtempSync(join(tmpdir(), "tapemark-guide-"));
/** A page of the guide is read in a dim room too, and kept whole by every browser that opens the workbench. */
const MOST_BYTES = 60_000;
const QUALITIES = [82, 70, 58, 46, 36, 28];

async function keep(name, png, width) {
  const { width: taken } = await sharp(png).metadata();
  for (const quality of QUALITIES) {
    const bytes = await sharp(png)
      .resize({ width: Math.min(width, taken) })
      .webp({ quality, effort: 6 })
      .toBuffer();
    if (bytes.length > MOST_BYTES) continue;
    writeFileSync(join(folder, `${name}.webp`), bytes);
    console.log(`${name}.webp ${Math.round(bytes.length / 1000)} kB at ${quality}`);
    return;
  }
  throw new Error(`${name}: over ${MOST_BYTES} bytes even at the least quality; take less of the screen`);
}

function tapemark(...args) {
  execFileSync(process.execPath, ["bin/tapemark.js", ...args], {
    cwd: root,
    stdio: ["ignore", "ignore", "inherit"],
  });
}

/** The real command on a plan, with a home of its own. */
async function serve(plan) {
  const server = spawn(process.execPath, ["bin/tapemark.js", "open", plan, "--no-browser", "--port", "0"], {
    cwd: root,
    env: { ...process.env, TAPEMARK_DATA: mkdtempSync(join(work, "home-")) },
    stdio: ["ignore", "pipe", "inherit"],
  });
  const url = await new Promise((resolve, reject) => {
    server.stdout.on("data", (chunk) => {
      const match = /http:\/\/\S+/.exec(String(chunk));
      if (match) resolve(match[0]);
    });
    server.once("exit", (code) => reject(new Error(`the server for ${plan} ended with ${code}`)));
  });
  return { url, stop: () => server.kill("SIGTERM") };
}

const asked = process.argv.slice(2);
const isAsked = ({ name }) => asked.length === 0 || asked.includes(name);
mkdirSync(folder, { recursive: true });
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync"],
});
try {
  for (const {
    name,
    size = [1440, 900],
    plan = "examples/cellist.json",
    width,
    lead,
    crop,
  } of SCREENS.filter(isAsked)) {
    const { url, stop } = await serve(plan);
    const context = await browser.newContext({
      viewport: { width: size[0], height: size[1] },
      colorScheme: "light",
      serviceWorkers: "block",
    });
    try {
      const page = await context.newPage();
      await page.goto(url);
      await page.locator(".reading[aria-busy=false]").waitFor({ timeout: 180_000 });
      await lead(page, root);
      const of = crop(page);
      const png = await (of.locator === undefined ? page.screenshot(of) : of.locator.screenshot(of));
      await keep(name, png, width);
    } finally {
      await context.close();
      stop();
    }
  }
  for (const { name, width, make } of DRAWN.filter(isAsked)) {
    const page = await browser.newPage({ viewport: { width, height: 400 }, deviceScaleFactor: 1 });
    await page.setContent(make({ root, work, tapemark, read: (path) => readFileSync(path) }));
    await page.waitForTimeout(1500);
    await keep(name, await page.locator("body").screenshot(), width);
    await page.close();
  }
} finally {
  await browser.close();
  rmSync(work, { recursive: true, force: true });
}
