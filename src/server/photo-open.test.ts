/** The real command, with everything that could keep it from ending. */
import { spawn } from "node:child_process";
import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import type { DeskState, TestFrame } from "../workbench/index.ts";

const EXAMPLE = "examples/test-frame.jpg";

it("[SV14] photographs are read beside the server, and it ends within a second whatever waits", async () => {
  const folder = mkdtempSync(join(tmpdir(), "tapemark-open-frames-"));
  const child = spawn(process.execPath, ["bin/tapemark.js", "open", "--no-browser", "--port", "0"], {
    env: { ...process.env, TAPEMARK_DATA: join(folder, "data") },
    stdio: ["ignore", "pipe", "pipe"],
  });
  let said = "";
  child.stderr.on("data", (chunk) => {
    said += chunk;
  });
  const ended = new Promise<number | null>((resolve) => child.on("exit", (code) => resolve(code)));
  try {
    const url = await new Promise<string>((resolve) =>
      child.stdout.on("data", (chunk) => {
        const found = /http:\S+/.exec(String(chunk))?.[0];
        if (found) resolve(`${found}api/frames`);
      }),
    );
    const news = async (after = 0) => (await (await fetch(`${url}?after=${after}`)).json()) as DeskState;
    const body = readFileSync(EXAMPLE);
    const handed = await fetch(`${url}?name=handed.jpg`, { method: "POST", body });
    const frame = (await handed.json()) as TestFrame;
    expect(frame.reading.faces).toHaveLength(1);
    const picture = Buffer.from(await (await fetch(`${url}/${frame.id}/picture`)).arrayBuffer());
    expect(picture.subarray(0, 3).toString("hex")).toBe("ffd8ff");
    const watched = await fetch(`${url}/watch`, { method: "PUT", body: JSON.stringify({ folder }) });
    expect(watched.status).toBe(204);
    copyFileSync(EXAMPLE, join(folder, "seen.jpg"));
    let state = await news();
    while (state.pending.length === 0 && state.frames.length < 2) state = await news(state.version);
    const waiting = [1, 2].map(() => news(state.version).catch(() => null));
    const began = performance.now();
    child.kill("SIGTERM");
    expect(await ended).toBe(0);
    // a page would wait 25 s
    expect(performance.now() - began).toBeLessThan(5000);
    expect(said).toBe("");
    await Promise.all(waiting);
    expect(existsSync(join(folder, "seen.jpg"))).toBe(true);
  } finally {
    child.kill("SIGKILL");
    rmSync(folder, { recursive: true, force: true });
  }
});
