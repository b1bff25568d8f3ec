// npm run bench:app: drags the key of the demo plan in the built workbench and measures how quickly the screen follows.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { chromium } from "playwright-core";

const DRAG_MS = Number(process.env.DRAG_MS ?? 6000);
/** Ten times what a run takes: something that was waited for did not come. */
const GIVE_UP_MS = 300_000;
setTimeout(() => {
  console.error(`bench:app: not done after ${GIVE_UP_MS / 1000} s: the page never came to rest`);
  process.exit(1);
}, GIVE_UP_MS).unref();
// however this ends, the server that was begun for it ends as well
let server = null;
process.on("exit", () => server?.kill("SIGKILL"));
/** A screen's refresh: one move of the pointer to each. */
const EVERY_MS = 1000 / 60;

/** Runs in the page before anything of it: what came in, and when it was on the screen. The screen has it when the frame
 * that shows it has been laid out and painted, as far as the page can tell: the first task after the frame's own. */
function watch() {
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

const quantile = (list, share) => {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted.length === 0
    ? Number.NaN
    : sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
};

const { url, stop } = await serveDemo();
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"],
});
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.addInitScript(watch);
  const scripts = new Map();
  const count = (response) => {
    if (!/\.m?js$/.test(new URL(response.url()).pathname)) return;
    const size = response.body().then((body) => gzipSync(body, { level: 9 }).length);
    scripts.set(response.url(), size);
    // one that is never read to its end fails where it is summed up, or not at all
    size.catch(() => {});
  };
  page.on("response", count);
  await page.goto(url);
  const said = (test) => page.waitForFunction(test, null, { timeout: 60_000, polling: 50 });
  await said(() => globalThis.benchSeen.shown.some(({ detail }) => detail.reading > 0));
  page.off("response", count);
  const scriptBytes = (await Promise.all(scripts.values())).reduce((a, b) => a + b, 0);
  await said(() => globalThis.benchSeen.shown.at(-1)?.detail.busy === false);
  const first = await page.evaluate(() => globalThis.benchSeen);

  const key = page.getByRole("group", { name: /^Floor/ }).getByRole("button", { name: /^key/ });
  const box = await key.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  // off the 5 cm grid, so that every move is a change
  await page.keyboard.down("Alt");
  await page.evaluate(() => {
    globalThis.benchSeen.inputs.length = 0;
    globalThis.benchSeen.shown.length = 0;
    globalThis.benchSeen.longTasks.length = 0;
  });
  const began = performance.now();
  for (let k = 1; performance.now() - began < DRAG_MS; k++) {
    const a = (2 * Math.PI * k) / 180;
    await page.mouse.move(x + 70 * (1 - Math.cos(a)), y + 45 * Math.sin(a));
    await new Promise((resolve) =>
      setTimeout(resolve, Math.max(0, began + k * EVERY_MS - performance.now())),
    );
  }
  const letGo = await page.evaluate(() => performance.now());
  await page.keyboard.up("Alt");
  await page.mouse.up();
  await said(() => globalThis.benchSeen.shown.at(-1)?.detail.busy === false);
  const drag = await page.evaluate(() => globalThis.benchSeen);
  report(first, drag, letGo, scriptBytes);
} finally {
  await browser.close();
  await stop();
}

function report(first, drag, letGo, scriptBytes) {
  const after = (part) =>
    drag.inputs.flatMap(({ plan, at }) => {
      const there = drag.shown.find(({ detail }) => detail[part] >= plan);
      return there ? [there.at - at] : [];
    });
  const all = drag.inputs.flatMap(({ plan, at }) => {
    const there = drag.shown.find(({ detail: d }) => d.plan >= plan && d.reading >= plan && d.frame >= plan);
    return there ? [there.at - at] : [];
  });
  const rows = [];
  const row = (what, value, asked, unit) => rows.push({ what, value, asked, unit });
  for (const [name, times] of [
    ["Floor", after("plan")],
    ["reading", after("reading")],
    ["frame", after("frame")],
    ["all three", all],
  ]) {
    row(`${name}, median`, quantile(times, 0.5), 33, "ms");
    row(`${name}, 95th percentile`, quantile(times, 0.95), 60, "ms");
  }
  const widest = Math.max(...drag.shown.map(({ detail }) => detail.frameWidth));
  const last = drag.inputs.at(-1)?.plan ?? 0;
  const full = drag.shown.find(({ detail: d }) => d.frame >= last && d.frameWidth === widest);
  row("full frame after letting go", (full?.at ?? Number.NaN) - letGo, 4000, "ms");
  row("longest task of the window", Math.max(0, ...drag.longTasks.map((t) => t.duration)), 100, "ms");
  const reading = first.shown.find(({ detail }) => detail.reading > 0);
  row("scripts on first load, compressed", scriptBytes / 1000, 400, "kB");
  row(
    "first contentful paint",
    first.paints.find((p) => p.name === "first-contentful-paint")?.startTime,
    1000,
    "ms",
  );
  row("first reading and frame after load", reading?.at, 2000, "ms");
  row("longest task on load", Math.max(0, ...first.longTasks.map((t) => t.duration)), 100, "ms");

  console.log(`${cpus().length} cores, ${cpus()[0]?.model ?? "unknown"}, Chromium ${browser.version()}`);
  const seconds = (drag.inputs.at(-1).at - drag.inputs[0].at) / 1000;
  console.log(
    `${drag.inputs.length} changes in ${seconds.toFixed(1)} s, ${drag.shown.length} screens, picture ${widest} wide\n`,
  );
  for (const { what, value, asked, unit } of rows) {
    const reached = value <= asked ? "reached" : "NOT REACHED";
    console.log(
      `${what.padEnd(36)}${`${value.toFixed(0)} ${unit}`.padStart(9)}   asked ${`${asked} ${unit}`.padStart(7)}   ${reached}`,
    );
  }
}

/** The real command on the demo, with a home of its own so that nothing kept before is found. */
async function serveDemo() {
  const home = mkdtempSync(join(tmpdir(), "tapemark-bench-"));
  const child = spawn(
    process.execPath,
    ["bin/tapemark.js", "open", "examples/cellist.json", "--no-browser", "--port", "0"],
    {
      env: { ...process.env, HOME: home, XDG_DATA_HOME: home, XDG_CONFIG_HOME: home, TAPEMARK_DATA: home },
      stdio: ["ignore", "pipe", "inherit"],
    },
  );
  server = child;
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
