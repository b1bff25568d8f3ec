// What the benches of the page share: the demo served, a browser, the key light dragged, and what was seen meanwhile.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";

/** A screen's refresh: one move of the pointer to each. */
const EVERY_MS = 1000 / 60;

/** Runs in the page before anything of it: what came in, and when it was on the screen. The screen has it when the frame
 * that shows it has been laid out and painted, as far as the page can tell: the first task after the frame's own. */
export function watch() {
  const seen = { inputs: [], shown: [], longTasks: [], paints: [] };
  globalThis.benchSeen = seen;
  let input = 0;
  addEventListener("pointermove", (event) => (input = event.timeStamp), { capture: true });
  let plan = 0;
  let waiting = null;
  document.addEventListener("tapemark-shown", ({ detail }) => {
    if (detail.plan !== plan) {
      plan = detail.plan;
      if (input > 0) seen.inputs.push({ plan, at: input });
    }
    if (waiting !== null) {
      waiting.detail = detail;
      return;
    }
    const entry = { detail, at: 0 };
    waiting = entry;
    requestAnimationFrame(() => {
      waiting = null;
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => {
        entry.at = performance.now();
        seen.shown.push(entry);
        port1.close();
      };
      port2.postMessage(null);
    });
  });
  const observe = (type, list) =>
    new PerformanceObserver((entries) => {
      for (const { name, startTime, duration } of entries.getEntries())
        list.push({ name, startTime, duration });
    }).observe({ type, buffered: true });
  observe("longtask", seen.longTasks);
  observe("paint", seen.paints);
}

export const quantile = (list, share) => {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted.length === 0
    ? Number.NaN
    : sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
};

export function launch() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"],
  });
}

/** The middle of the key light on the floor plan. */
export async function findKey(page) {
  const key = page.getByRole("group", { name: /^Floor/ }).getByRole("button", { name: /^key/ });
  const box = await key.boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** Takes the key there and moves it round for so long; the button stays down. Off the 5 cm grid, so that every move is a
 * change. */
export async function dragKey(page, [x, y], duration_ms, onBegin) {
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.keyboard.down("Alt");
  await onBegin();
  const began = performance.now();
  for (let k = 1; performance.now() - began < duration_ms; k++) {
    const a = (2 * Math.PI * k) / 180;
    await page.mouse.move(x + 70 * (1 - Math.cos(a)), y + 45 * Math.sin(a));
    await new Promise((resolve) =>
      setTimeout(resolve, Math.max(0, began + k * EVERY_MS - performance.now())),
    );
  }
}

export async function letGo(page) {
  await page.keyboard.up("Alt");
  await page.mouse.up();
}

/** The real command on the demo, with a home of its own so that nothing kept before is found. */
export async function serveDemo(more = {}) {
  const home = mkdtempSync(join(tmpdir(), "tapemark-bench-"));
  const child = spawn(
    process.execPath,
    ["bin/tapemark.js", "open", "examples/cellist.json", "--no-browser", "--port", "0"],
    {
      env: {
        ...process.env,
        HOME: home,
        XDG_DATA_HOME: home,
        XDG_CONFIG_HOME: home,
        TAPEMARK_DATA: home,
        ...more,
      },
      stdio: ["ignore", "pipe", "inherit"],
    },
  );
  // however this ends, the server ends as well
  process.once("exit", () => child.kill("SIGKILL"));
  const ended = new Promise((resolve) => child.once("exit", resolve));
  const url = await new Promise((resolve, reject) => {
    let said = "";
    child.stdout.on("data", (chunk) => {
      said += chunk;
      const match = /http:\/\/127\.0\.0\.1:\d+\S*/.exec(said);
      if (match) resolve(match[0]);
    });
    child.once("exit", (code) => reject(new Error(`the server ended with ${code}:\n${said}`)));
  });
  const stop = async () => {
    child.kill("SIGTERM");
    await ended;
    rmSync(home, { recursive: true, force: true });
  };
  return { url, stop };
}
