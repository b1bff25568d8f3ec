import { spawn } from "node:child_process";
import fs from "node:fs";
import { homedir, tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import { dataFolder } from "../files/index.ts";
import type { SavedWork } from "../workbench/index.ts";
import { createFileStore } from "./file-store.ts";

const fresh = () => fs.mkdtempSync(join(tmpdir(), "tapemark-keep-"));
const work = (revision: number, size = 10): SavedWork => ({
  revision,
  plan: { title: `r${revision}` },
  history: `${revision} `.repeat(size),
});

describe("[SV5] works lie where the platform keeps a user's data", () => {
  it.each([
    [{ TAPEMARK_DATA: "/own" }, "linux", "/own"],
    [{ XDG_DATA_HOME: "/xdg" }, "linux", "/xdg/tapemark"],
    [{ XDG_DATA_HOME: "" }, "linux", join(homedir(), ".local/share/tapemark")],
    [{ XDG_DATA_HOME: "not/absolute" }, "linux", join(homedir(), ".local/share/tapemark")],
    [{}, "darwin", join(homedir(), "Library/Application Support/Tapemark")],
    [{ APPDATA: "/roaming" }, "win32", "/roaming/Tapemark"],
  ] as const)("%j on %s", (env, platform, expected) => {
    expect(dataFolder(env, platform)).toBe(expected);
  });
});

describe("[SV6] one process at a time writes a work", () => {
  it("while another one writes, nothing is overwritten; what a killed one left does not stand in the way", async () => {
    const folder = fresh();
    const store = createFileStore(folder, () => new Date());
    await store.save("w", work(1));
    const left = join(folder, "works", ".w.tmp");
    fs.writeFileSync(left, "half");
    await expect(store.save("w", work(2))).rejects.toThrow(/another window is saving/);
    expect((await store.load("w"))?.revision).toBe(1);
    const minuteAgo = Date.now() / 1000 - 60;
    fs.utimesSync(left, minuteAgo, minuteAgo);
    await store.save("w", work(2));
    expect((await store.load("w"))?.revision).toBe(2);
    expect(fs.readdirSync(join(folder, "works"))).toEqual(["w.json"]);
  });

  it("a work that cannot be read is told by name and does not hide the others", async () => {
    const folder = fresh();
    const store = createFileStore(folder, () => new Date());
    await store.save("good", work(1));
    fs.writeFileSync(join(folder, "works", "bad.json"), '{"plan":');
    await expect(store.load("bad")).rejects.toThrow(/bad\.json is damaged/);
    const rows = (await store.list()).map((row) => `${row.title} ${row.isDamaged ?? false}`);
    expect(rows.sort()).toEqual(["bad true", "r1 false"]);
  });

  it.skipIf(process.getuid?.() === 0)("a folder that may not be written is named with the cure", async () => {
    // root may write anywhere, so this runs for other users only
    const folder = fresh();
    fs.chmodSync(folder, 0o500);
    const store = createFileStore(folder, () => new Date());
    await expect(store.save("w", work(1))).rejects.toThrow(/permission is denied; choose a place/);
    fs.chmodSync(folder, 0o700);
  });
});

/** Known-answer generator of Park and Miller: x <- 48271 x mod (2^31 - 1). */
function parkMiller(seed: number): () => number {
  let x = seed;
  return () => {
    x = (x * 48271) % 2147483647;
    return x / 2147483647;
  };
}

describe("[SV7] killed at any moment, what was acknowledged is there and whole", () => {
  const KILLS = amount(100);
  const SEED = 20261125;
  it(`${KILLS} kills, seed ${SEED}`, async () => {
    const folder = fresh();
    const store = createFileStore(folder, () => new Date());
    const random = parkMiller(SEED);
    for (let kill = 0; kill < KILLS; kill++) {
      // what an earlier kill left is older than any save by the time somebody starts again
      const left = join(folder, "works", ".w.tmp");
      if (fs.existsSync(left)) fs.utimesSync(left, 0, 0);
      const kept = (await store.load("w"))?.revision ?? 0;
      const acknowledged = await saveUntilKilled(folder, kept, 150 * random());
      const after = (await store.load("w")) as SavedWork;
      // the last save may have been done and its answer lost
      expect([acknowledged, acknowledged + 1]).toContain(after?.revision ?? 0);
      if (after) expect(after).toMatchObject(work(after.revision, SIZE));
    }
    // the moments are worth something only if saves went on until then
    expect((await store.load("w"))?.revision).toBeGreaterThan(KILLS);
  }, 300_000);
});

const SIZE = 30_000;

/** Starts the real command, saves as fast as it answers, kills it some time after the first save; the last revision it confirmed. */
async function saveUntilKilled(data: string, from: number, after_ms: number): Promise<number> {
  const child = spawn(process.execPath, ["bin/tapemark.js", "open", "--no-browser", "--port", "0"], {
    env: { ...process.env, TAPEMARK_DATA: data },
    stdio: ["ignore", "pipe", "ignore"],
  });
  const ended = new Promise((resolve) => child.on("exit", resolve));
  const url = await new Promise<string>((resolve, reject) => {
    child.on("exit", () => reject(new Error("ended before it was open")));
    child.stdout.on("data", (chunk) => {
      const match = /http:\S+/.exec(String(chunk));
      if (match) resolve(match[0]);
    });
  });
  let revision = from;
  try {
    for (;;) {
      const body = JSON.stringify(work(revision + 1, SIZE));
      const answer = await fetch(`${url}api/work/w`, { method: "PUT", body });
      const said = await answer.text();
      if (!answer.ok) throw new Error(`refused: ${said}`);
      // the clock runs from the first save on: every kill falls among saves
      if (revision++ === from) setTimeout(() => child.kill("SIGKILL"), after_ms);
    }
  } catch (error) {
    child.kill("SIGKILL");
    if (error instanceof Error && error.message.startsWith("refused")) throw error;
  }
  await ended;
  return revision;
}
