/** The server over the wire: what it is bound to, what raw requests get, ports that are taken. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { createServer } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDesk, type FrameShelf } from "../files/index.ts";
import { NO_GEAR, plainReader } from "../files/testing/plain-reader.ts";
import { freshLibrary } from "../library/testing/fresh-library.ts";
import { type Running, startServer } from "./index.ts";

const folder = mkdtempSync(join(tmpdir(), "tapemark-serve-"));
writeFileSync(join(folder, "index.html"), "<p>the workbench</p>");
const library = freshLibrary();
const options = {
  library,
  appFolder: folder,
  desk: (shelf: FrameShelf) =>
    createDesk({ reader: plainReader(), gear: NO_GEAR, now: () => new Date(), shelf }),
  opened: null,
  port: 0,
  sheet: async () => new Uint8Array(),
};
let running: Running;
let port: number;

beforeAll(async () => {
  running = await startServer(options);
  port = Number(new URL(running.url).port);
});
afterAll(async () => {
  await running.stop();
  library.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Node's own client sends path and Host as they are; fetch would tidy both. */
function raw(path: string, headers: Record<string, string> = {}): Promise<{ code: number; body: string }> {
  return new Promise((resolve, reject) => {
    const asked = request({ host: "127.0.0.1", port, path, headers }, (answer) => {
      let body = "";
      answer.on("data", (chunk) => {
        body += chunk;
      });
      answer.on("end", () => resolve({ code: answer.statusCode ?? 0, body }));
    });
    asked.on("error", reject);
    asked.end();
  });
}

describe("[SV1] over the wire", () => {
  it("its own page, by any of the three loopback names", async () => {
    for (const host of ["127.0.0.1", "localhost", "[::1]"])
      expect(await raw("/", { host: `${host}:${port}` })).toEqual({
        code: 200,
        body: "<p>the workbench</p>",
      });
  });
  it("a foreign Host or Origin gets a plain message and nothing else", async () => {
    for (const headers of [{ host: `evil.example:${port}` }, { origin: "http://localhost:1" }]) {
      const { code, body } = await raw("/", headers);
      expect(code).toBe(403);
      expect(Object.keys(JSON.parse(body))).toEqual(["problem", "cure"]);
    }
  });
  const outside = Object.values(networkInterfaces())
    .flat()
    .find((address) => address && !address.internal && address.family === "IPv4")?.address;
  it.runIf(outside)("nobody answers at this machine's outside address", async () => {
    await expect(fetch(`http://${outside}:${port}/`)).rejects.toThrow();
  });
});

describe("[SV2] over the wire", () => {
  it.each([
    "/../package.json",
    "/assets/../../package.json",
    "/..\\package.json",
    "/%2e%2e/%2e%2e/package.json",
    "/index.html%00.png",
  ])("%s", async (path) => {
    const { code, body } = await raw(path);
    expect(code).toBeGreaterThanOrEqual(400);
    expect(body).not.toMatch(/workbench<|"name"/);
  });
});

describe("[SV4] ports and folders that cannot be used are told with the cure", () => {
  it("one that was asked for and is busy", async () => {
    await expect(startServer({ ...options, port })).rejects.toThrow(
      `port ${port} is busy; name another with --port, or leave --port away`,
    );
  });
  it("the usual one busy: a free one, and a note", async () => {
    const blocker = createServer();
    // when something else has the port already, it is as busy as it needs to be
    await new Promise<void>((resolve) => {
      blocker.once("error", () => resolve());
      blocker.listen(7284, "127.0.0.1", resolve);
    });
    const second = await startServer({ ...options, port: null });
    expect(new URL(second.url).port).not.toBe("7284");
    expect(second.note).toMatch(/usual port 7284 is busy/);
    await second.stop();
    blocker.close();
  });
  it("a workbench that was not built", async () => {
    await expect(startServer({ ...options, appFolder: join(folder, "nothing") })).rejects.toThrow(
      /npm run build/,
    );
  });
});
