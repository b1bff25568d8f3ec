// Takes the pictures of the workbench in docs/pictures, in both themes at three sizes: node e2e/screens.mjs
// Needs the build and a Chromium; looks at the demo with the key taken hold of.
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
for (const [name, colorScheme] of [
  ["light", "light"],
  ["dim", "dark"],
]) {
  for (const [width, height] of SIZES) {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme });
    const page = await context.newPage();
    await page.goto(url);
    await page
      .getByRole("group", { name: /^Floor/ })
      .getByRole("button", { name: /^key/ })
      .focus();
    await page.locator(".reading[aria-busy=false]").waitFor({ timeout: 120_000 });
    await page.screenshot({
      path: join(root, "docs", "pictures", `workbench-${width}x${height}-${name}.png`),
      fullPage: width < 1200,
      animations: "disabled",
    });
    await context.close();
  }
}
await browser.close();
server.kill("SIGTERM");
rmSync(home, { recursive: true, force: true });
