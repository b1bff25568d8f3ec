/** The real command, shared: what is worked out beside it, and that nothing of it is left. */
import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { constants, getPriority, tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import type { LivePlan, ShareState } from "../workbench/index.ts";
import { look, once, SHARED_PLAN } from "./testing/shared.ts";

/** Processes that another one has started; empty where the system does not say. */
function startedBy(parent: number): number[] {
  return readdirSync("/proc")
    .filter((name) => /^\d+$/.test(name) && parentOf(name) === parent)
    .map(Number);
}

function parentOf(id: string): number | null {
  try {
    return Number(/\) \w (\d+)/.exec(readFileSync(`/proc/${id}/stat`, "utf8"))?.[1]);
  } catch {
    return null; // it has ended meanwhile
  }
}

it.runIf(process.platform === "linux")(
  "[SR22] meters are worked out by a process of the lowest priority, which ends with the server",
  async () => {
    const folder = mkdtempSync(join(tmpdir(), "tapemark-open-share-"));
    const child = spawn(process.execPath, ["bin/tapemark.js", "open", "--no-browser", "--port", "0"], {
      env: { ...process.env, TAPEMARK_DATA: folder, TAPEMARK_SHARE_ON: "127.0.0.1" },
      stdio: ["ignore", "pipe", "pipe"],
    });
    let complaints = "";
    child.stderr.on("data", (chunk) => {
      complaints += chunk;
    });
    const ended = new Promise<number | null>((resolve) => child.on("exit", (code) => resolve(code)));
    try {
      const url = await new Promise<string>((resolve) =>
        child.stdout.on("data", (chunk) => {
          const found = /http:\S+/.exec(String(chunk))?.[0];
          if (found) resolve(found);
        }),
      );
      const tell = async (path: string, method: string, body: unknown) =>
        (await fetch(`${url}api/${path}`, { method, body: JSON.stringify(body) })).text();
      await tell("work/a-work", "PUT", { plan: SHARED_PLAN, history: null, revision: 1 });
      await tell("hand", "PUT", { key: "a-work" });
      const { addresses, code } = JSON.parse(await tell("share", "PUT", { on: true })) as ShareState;
      const { host } = new URL(addresses[0]);
      const paired = await once(host, "/pair", {
        method: "POST",
        body: JSON.stringify({ code: code?.digits, name: "phone" }),
      });
      const cookie = (paired.headers["set-cookie"]?.[0] ?? "").split(";")[0];
      const page = await look(host, cookie, "");
      const { plan } = (await page.until(
        ({ kind, plan: shown }) => kind === "plan" && (shown as LivePlan).readOf === 1,
      )) as { plan: LivePlan };
      expect(plan.readings[0].should).toMatch(/^f\/\d+(\.\d)? \+ 0\.\d$/);
      const beside = startedBy(child.pid ?? 0);
      expect(beside.map((id) => getPriority(id))).toEqual([constants.priority.PRIORITY_LOW]);
      const sheet = await once(host, "/api/sheet", { cookie });
      expect([sheet.code, sheet.body.slice(0, 5)]).toEqual([200, "%PDF-"]);
      child.kill("SIGTERM");
      expect(await ended).toBe(0);
      await page.closed;
      expect(page.events.at(-1)).toMatchObject({ kind: "ended" });
      for (const id of beside) expect(parentOf(String(id))).toBeNull();
      expect(complaints).toBe("");
    } finally {
      child.kill("SIGKILL");
      rmSync(folder, { recursive: true, force: true });
    }
  },
);
