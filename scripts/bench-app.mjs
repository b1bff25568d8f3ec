// npm run bench:app: drags the key of the demo plan in the built workbench and measures how quickly the screen follows.
import { cpus } from "node:os";
import { gzipSync } from "node:zlib";
import { dragKey, findKey, launch, letGo, quantile, serveDemo, watch } from "./bench-page.mjs";
import { makeShoots, scrollShoots } from "./bench-shoots.mjs";

const DRAG_MS = Number(process.env.DRAG_MS ?? 6000);
/** Ten times what a run takes: something that was waited for did not come. */
const GIVE_UP_MS = 300_000;
setTimeout(() => {
  console.error(`bench:app: not done after ${GIVE_UP_MS / 1000} s: the page never came to rest`);
  process.exit(1);
}, GIVE_UP_MS).unref();

const { url, stop } = await serveDemo({ TAPEMARK_LIBRARY: await makeShoots() });
const browser = await launch();
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

  await dragKey(page, await findKey(page), DRAG_MS, () =>
    page.evaluate(() => {
      globalThis.benchSeen.inputs.length = 0;
      globalThis.benchSeen.shown.length = 0;
      globalThis.benchSeen.longTasks.length = 0;
    }),
  );
  const released = await page.evaluate(() => performance.now());
  await letGo(page);
  await said(() => globalThis.benchSeen.shown.at(-1)?.detail.busy === false);
  const drag = await page.evaluate(() => globalThis.benchSeen);
  report(first, drag, released, scriptBytes, await scrollShoots(page));
} finally {
  await browser.close();
  await stop();
}

function report(first, drag, released, scriptBytes, shoots) {
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
  row("full frame after letting go", (full?.at ?? Number.NaN) - released, 4000, "ms");
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

  row(`longest task as ${shoots.atEnd} shoots scroll`, shoots.longest, 50, "ms");
  row("rows of them in the page at most", shoots.most, 60, "");

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
