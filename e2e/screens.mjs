// Takes the pictures of the workbench in docs/pictures: node e2e/screens.mjs
// The table in both themes at three sizes with the key taken hold of, then every other screen once. Needs the build and a
// Chromium.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const home = mkdtempSync(join(tmpdir(), "tapemark-screens-"));
const server = spawn(
  process.execPath,
  ["bin/tapemark.js", "open", "examples/cellist.json", "--no-browser", "--port", "0"],
  { cwd: root, env: { ...process.env, TAPEMARK_DATA: home }, stdio: ["ignore", "pipe", "inherit"] },
);
const url = await new Promise((resolve) => {
  server.stdout.on("data", (chunk) => {
    const match = /http:\/\/\S+/.exec(String(chunk));
    if (match) resolve(match[0]);
  });
});
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync"],
});

const SIZES = [
  [1440, 900],
  [1024, 768],
  [390, 844],
];
const THEMES = { light: "light", dim: "dark" };

async function open(width, height, theme) {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: THEMES[theme],
    serviceWorkers: "block",
  });
  const page = await context.newPage();
  await page.goto(url);
  await page.locator(".reading[aria-busy=false]").waitFor({ timeout: 120_000 });
  return page;
}

async function take(page, name, width, height, theme) {
  await page.screenshot({
    path: join(root, "docs", "pictures", `${name}-${width}x${height}-${theme}.png`),
    fullPage: width < 1200,
    animations: "disabled",
  });
}

const button = (page, name) => page.getByRole("button", { name, exact: true });
const settled = (page) => page.locator(".reading[aria-busy=false]").waitFor({ timeout: 120_000 });

for (const theme of Object.keys(THEMES)) {
  for (const [width, height] of SIZES) {
    const page = await open(width, height, theme);
    await page
      .getByRole("group", { name: /^Floor/ })
      .getByRole("button", { name: /^key/ })
      .focus();
    await settled(page);
    await page
      .getByRole("toolbar", { name: "Moves" })
      .and(page.locator("[aria-busy=false]"))
      .waitFor({ timeout: 120_000 });
    await take(page, "workbench", width, height, theme);
    await page.context().close();
  }
}

/** The example's frame, read and beside its plan. */
async function shoot(page) {
  await button(page, "test frames").click();
  await page
    .getByLabel("photographs", { exact: true })
    .setInputFiles(join(root, "examples", "test-frame.jpg"));
  await page.getByRole("table", { name: "plan and frame" }).waitFor({ timeout: 120_000 });
}

/** Each screen by the way that leads there. */
const SCREENS = [
  ["start", "light", (page) => button(page, "all plans").click()],
  ["zones", "light", (page) => button(page, "zones").click()],
  ["guess", "light", (page) => button(page, "guess").click()],
  ["direction", "light", (page) => button(page, "direction").click()],
  ["power", "dim", (page) => page.getByRole("button", { name: /explained$/ }).click()],
  ["gear", "light", (page) => button(page, "gear").click()],
  ["shoot", "light", shoot],
  ["shoot", "dim", shoot],
  ["large-numbers", "dim", (page) => button(page, "large numbers").click()],
];
for (const [name, theme, lead] of SCREENS) {
  const page = await open(1440, 900, theme);
  await lead(page);
  // long enough for the small pictures of a lesson
  await page.waitForTimeout(4000);
  await take(page, name, 1440, 900, theme);
  await page.context().close();
}
await browser.close();
server.kill("SIGTERM");
rmSync(home, { recursive: true, force: true });
