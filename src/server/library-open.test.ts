/** The real command and the library that it is started with. */
import { type ChildProcess, spawn } from "node:child_process";
import fs from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { amount } from "../../properties/amount.ts";
import { createWorks, openLibrary } from "../library/index.ts";
import { plainAround } from "../library/testing/fresh-library.ts";
import { faultsOf } from "../library/testing/old-library.ts";
import { savedWork } from "../library/testing/saved-work.ts";

const folder = fs.mkdtempSync(join(tmpdir(), "tapemark-library-open-"));
const running: ChildProcess[] = [];
afterAll(() => {
  for (const child of running) child.kill("SIGKILL");
  fs.rmSync(folder, { recursive: true, force: true });
});

interface Opened {
  readonly child: ChildProcess;
  /** null where it ended instead */
  readonly url: string | null;
  readonly ended: Promise<number | null>;
  readonly said: () => string;
}

async function open(words: readonly string[], env: Readonly<Record<string, string>> = {}): Promise<Opened> {
  const child = spawn(
    process.execPath,
    ["bin/tapemark.js", "open", "--no-browser", "--port", "0", ...words],
    {
      env: { ...process.env, TAPEMARK_DATA: join(folder, "data"), ...env },
      stdio: ["ignore", "pipe", "pipe"],
    },
  );
  running.push(child);
  let said = "";
  child.stderr.on("data", (chunk) => {
    said += chunk;
  });
  const ended = new Promise<number | null>((resolve) => child.once("close", (code) => resolve(code)));
  const url = await new Promise<string | null>((resolve) => {
    child.once("close", () => resolve(null));
    child.stdout.on("data", (chunk) => {
      const found = /http:\S+/.exec(String(chunk))?.[0];
      if (found) resolve(found);
    });
  });
  return { child, url, ended, said: () => said };
}

describe("[LB17] the library is one file of the user's data folder, or the one that is named", () => {
  it("one that cannot be opened: 3, with the cure", async () => {
    const text = join(folder, "letter.txt");
    fs.writeFileSync(text, "Dear cellist,");
    const says = `tapemark: ${text} is no library of Tapemark: it is another kind of file; name another library with --library\n`;
    const { url, ended, said } = await open([], { TAPEMARK_LIBRARY: text });
    expect([url, await ended, said()]).toEqual([null, 3, says]);
  });
  it("what earlier versions kept comes into the user's own, and not into one that is named by hand", async () => {
    const data = join(folder, "old data");
    fs.mkdirSync(join(data, "works"), { recursive: true });
    fs.writeFileSync(join(data, "works", "bad.json"), "half of i");
    const old = { ...savedWork("old", 3), savedAt: "2026-10-03T09:30:00.000Z" };
    fs.writeFileSync(join(data, "works", "old.json"), JSON.stringify(old));
    const env = { TAPEMARK_DATA: data };
    const listed = async (words: readonly string[]) => {
      const { child, url, ended, said } = await open(words, env);
      const works = (await (await fetch(`${url}api/works`)).json()) as { key: string }[];
      child.kill("SIGINT");
      expect(await ended).toBe(0);
      return [works.map(({ key }) => key), said()];
    };
    expect(await listed(["--library", join(folder, "other.tapemark")])).toEqual([[], ""]);
    expect(await listed([])).toEqual([
      ["old"],
      expect.stringMatching(/^tapemark: .*bad\.json is damaged and was left/),
    ]);
    // ended as it should be: all of it is in the one file
    expect(
      fs
        .readdirSync(data)
        .filter((name) => fs.statSync(join(data, name)).size > 0)
        .sort(),
    ).toEqual(
      ["library.tapemark", "library.tapemark-shm", "works"].filter((name) => fs.existsSync(join(data, name))),
    );
  });
});

describe("[SV7] the real command, killed at any moment: what it acknowledged is there and whole", {
  timeout: 300_000,
}, () => {
  const KILLS = amount(10);
  it(`${KILLS} kills among saves`, async () => {
    const path = join(folder, "killed.tapemark");
    let revision = 0;
    for (let kill = 0; kill < KILLS; kill++) {
      revision = await saveUntilKilled(path, revision, 20 + ((kill * 61) % 150));
      const library = openLibrary(path, plainAround());
      const kept = await createWorks(library, plainAround()).load("w");
      expect(library.read(faultsOf)).toEqual([]);
      library.close();
      // the last save may have been done and its answer lost
      expect([revision, revision + 1]).toContain(kept?.revision);
      revision = kept?.revision ?? 0;
      expect(kept).toEqual(savedWork("w", revision));
    }
    expect(revision).toBeGreaterThanOrEqual(KILLS);
  });
});

/** Saves as fast as it answers, and kills it some time after the first save; the last revision that it confirmed. */
async function saveUntilKilled(path: string, from: number, after_ms: number): Promise<number> {
  const { child, url, ended } = await open(["--library", path]);
  let revision = from;
  try {
    for (;;) {
      const body = JSON.stringify(savedWork("w", revision + 1));
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
