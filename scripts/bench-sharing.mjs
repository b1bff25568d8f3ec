// npm run bench:sharing: 20 paired devices look on while the key of the demo plan is dragged. Spells with and without them
// take turns in one run, so that what else the machine does falls on both.
import { fork } from "node:child_process";
import { cpus } from "node:os";
import { dragKey, findKey, launch, letGo, quantile, serveDemo, watch } from "./bench-page.mjs";

const VIEWERS = 20;
/** Dragging with, and as long again without them. */
const SECONDS = Number(process.env.BENCH_SECONDS ?? 120);
const SPELL_S = Math.min(10, SECONDS);
/** Both kinds of spell, first one first and then the other. */
const TURNS = Math.max(1, Math.round(SECONDS / SPELL_S));
const MOST_SLOWER = 1.1;
const MOST_BEHIND_MS = 2000;

const { url, stop } = await serveDemo({ TAPEMARK_SHARE_ON: "127.0.0.1" });
const browser = await launch();
const viewers = fork(new URL("bench-viewers.mjs", import.meta.url).pathname);
const kept = [];
viewers.on("message", (told) => told.kept && kept.push(told.kept));
try {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.addInitScript(watch);
  await page.addInitScript(() => {
    globalThis.benchFrames = [];
    const each = (at) => {
      globalThis.benchFrames.push(at);
      requestAnimationFrame(each);
    };
    requestAnimationFrame(each);
  });
  await page.goto(url);
  const settled = () =>
    page.waitForFunction(() => globalThis.benchSeen.shown.at(-1)?.detail.busy === false, null, {
      timeout: 60_000,
      polling: 100,
    });
  await settled();
  const { addresses } = await ask("share", "PUT", { on: true });
  if (addresses.length === 0) throw new Error("sharing is not on");
  const cookies = [];
  for (let i = 0; i < VIEWERS; i++) cookies.push(await pair(addresses[0], `device ${i + 1}`));
  viewers.send({ workbench: { url } });

  const spells = { with: [], without: [] };
  const behind = [];
  const at = await findKey(page);
  await spell(page, at, 3, settled); // what is loaded when it is first needed falls on neither
  for (let turn = 0; turn < TURNS; turn++)
    for (const kind of turn % 2 === 0 ? ["without", "with"] : ["with", "without"]) {
      if (kind === "with") viewers.send({ look: { url: addresses[0], cookies } });
      kept.length = 0;
      spells[kind].push(await spell(page, at, SPELL_S, settled));
      if (kind === "without") continue;
      const done = new Promise((resolve) =>
        viewers.on("message", function hear(told) {
          if (!told.seen) return;
          viewers.off("message", hear);
          resolve(told.seen);
        }),
      );
      // the last of them is on its way
      await new Promise((resolve) => setTimeout(resolve, MOST_BEHIND_MS));
      viewers.send({ leave: true });
      behind.push(...lags(await done, [...kept]));
    }
  process.exitCode = report(spells, behind) ? 0 : 1;
} finally {
  viewers.disconnect();
  await browser.close();
  await stop();
}

async function ask(path, method = "GET", body) {
  const answer = await fetch(`${url}api/${path}`, {
    method,
    ...(body && { body: JSON.stringify(body), headers: { "content-type": "application/json" } }),
  });
  if (!answer.ok) throw new Error(`${method} ${path} was answered ${answer.status} ${await answer.text()}`);
  return answer.status === 204 ? null : answer.json();
}

async function pair(address, name) {
  const { code } = await ask("share/code", "POST");
  const answer = await fetch(`${address}pair`, {
    method: "POST",
    headers: { "content-type": "application/json", origin: new URL(address).origin },
    body: JSON.stringify({ code: code.digits, name }),
  });
  if (answer.status !== 204) throw new Error(`pairing was answered ${answer.status}`);
  return answer.headers.get("set-cookie").split(";")[0];
}

/** Frame times while it is dragged, and how long each move took to be on the screen as plan, reading and frame. */
async function spell(page, at, seconds, settled) {
  await dragKey(page, at, seconds * 1000, () =>
    page.evaluate(() => {
      globalThis.benchSeen.inputs.length = globalThis.benchSeen.shown.length = 0;
      globalThis.benchFrames.length = 0;
    }),
  );
  const { frames, seen } = await page.evaluate(() => ({
    frames: [...globalThis.benchFrames],
    seen: { inputs: [...globalThis.benchSeen.inputs], shown: [...globalThis.benchSeen.shown] },
  }));
  // back where it was: the next spell begins there
  await page.mouse.move(...at);
  await letGo(page);
  await settled();
  const follows = seen.inputs.flatMap(({ plan, at: input }) => {
    const there = seen.shown.find(({ detail: d }) => d.plan >= plan && d.reading >= plan && d.frame >= plan);
    return there ? [there.at - input] : [];
  });
  return { frames: frames.slice(1).map((frame, i) => frame - frames[i]), follows };
}

/** For each device and each save that was acknowledged: how much later the device had it, or one after it. */
function lags(seen, saves) {
  return seen.flatMap((revisions) =>
    saves.map(([revision, at]) => {
      const had = revisions.find(([shown]) => shown >= revision);
      return had === undefined ? Number.POSITIVE_INFINITY : Math.max(0, had[1] - at);
    }),
  );
}

/** Spell by spell beside the one next to it, because the machine is not the same from one minute to the next. */
function report(spells, behind) {
  const mean = (list) => list.reduce((a, b) => a + b, 0) / list.length;
  console.log(`${cpus().length} cores, ${cpus()[0]?.model ?? "unknown"}, Chromium ${browser.version()}`);
  console.log(
    `${VIEWERS} devices, ${TURNS} spells of ${SPELL_S} s each way, ${behind.length} plans awaited\n`,
  );
  let isReached = true;
  const verdict = (ok) => {
    isReached &&= ok;
    return ok ? "reached" : "NOT REACHED";
  };
  for (const [name, what, of] of [
    ["frame time, mean", "frames", mean],
    ["frame time, median", "frames", (list) => quantile(list, 0.5)],
    ["frame time, 95th percentile", "frames", (list) => quantile(list, 0.95)],
    ["move to screen, median", "follows", (list) => quantile(list, 0.5)],
    ["move to screen, 95th percentile", "follows", (list) => quantile(list, 0.95)],
  ]) {
    const each = (kind) => spells[kind].map((spell) => of(spell[what]));
    const [without, held] = [each("without"), each("with")];
    const ratios = held.map((value, i) => value / without[i]);
    const ratio = quantile(ratios, 0.5);
    const asked = what === "frames" ? `   asked ${MOST_SLOWER}   ${verdict(ratio <= MOST_SLOWER)}` : "";
    console.log(
      `${name.padEnd(34)}${mean(without).toFixed(1).padStart(7)} ms alone ${mean(held).toFixed(1).padStart(7)} ms looked at, ratio ${ratio.toFixed(3)} (${Math.min(...ratios).toFixed(2)} to ${Math.max(...ratios).toFixed(2)})${asked}`,
    );
  }
  const worst = Math.max(...behind);
  const row = (name, value) =>
    `${`behind the kept plan, ${name}`.padEnd(34)}${value.toFixed(0).padStart(7)} ms`;
  console.log(row("median", quantile(behind, 0.5)));
  console.log(row("95th percentile", quantile(behind, 0.95)));
  console.log(
    `${row("most", worst)}   asked ${MOST_BEHIND_MS}   ${verdict(behind.length > 0 && worst <= MOST_BEHIND_MS)}`,
  );
  return isReached;
}
