/** What is taken from outside at most, at a real port. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import type { Server } from "node:http";
import { type AddressInfo, connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Hono } from "hono";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { createDesk } from "../files/index.ts";
import { NO_GEAR, plainReader } from "../files/testing/plain-reader.ts";
import { freshLibrary } from "../library/testing/fresh-library.ts";
import { tellFault } from "./fault.ts";
import { type Running, startServer } from "./index.ts";
import { createPatientServer } from "./limits.ts";

const folder = mkdtempSync(join(tmpdir(), "tapemark-limits-"));
writeFileSync(join(folder, "index.html"), "<p>the workbench</p>");
let running: Running;
const sheet = vi.fn(async (_text: string) => new Uint8Array());

beforeAll(async () => {
  running = await startServer({
    appFolder: folder,
    library: freshLibrary(),
    opened: null,
    port: 0,
    sheet,
    desk: (shelf) => createDesk({ reader: plainReader(), gear: NO_GEAR, now: () => new Date(), shelf }),
  });
});
afterAll(async () => {
  await running.stop();
  rmSync(folder, { recursive: true, force: true });
});

const ask = (path: string, method = "GET", body?: string) =>
  fetch(`${running.url}${path}`, { method, ...(body !== undefined && { body }) });
const told = async (answer: Response) => Object.keys((await answer.json()) as object);

/** What a socket is sent, until the other side ends it. */
function raw(port: number, text: string): Promise<string> {
  return new Promise((resolve) => {
    let heard = "";
    const socket = connect(port, "127.0.0.1", () => socket.write(text));
    socket.on("data", (chunk) => {
      heard += chunk;
    });
    socket.on("error", () => undefined);
    socket.on("close", () => resolve(heard));
  });
}

describe("[SV33] what is sent is bounded", () => {
  it("more than a few fields where a few fields are meant", async () => {
    const answer = await ask("api/hand", "PUT", JSON.stringify({ key: "x".repeat(300_000) }));
    expect([answer.status, await told(answer)]).toEqual([413, ["problem", "cure"]]);
  });
  it("the same without a length, in pieces", async () => {
    const piece = new TextEncoder().encode("x".repeat(100_000));
    let pieces = 0;
    const body = new ReadableStream({
      pull: (controller) => (++pieces > 5 ? controller.close() : controller.enqueue(piece)),
    });
    const request: RequestInit & { duplex: "half" } = { method: "PUT", body, duplex: "half" };
    expect((await fetch(`${running.url}api/hand`, request)).status).toBe(413);
  });
  it("brackets within brackets, by the thousand; as many of them in a text are a text", async () => {
    const deep = `{"revision":1,"history":null,"plan":${"[".repeat(100_000)}${"]".repeat(100_000)}}`;
    expect((await ask("api/work/deep", "PUT", deep)).status).toBe(400);
    const text = JSON.stringify({ revision: 1, history: null, plan: { title: `"\\${"[".repeat(1000)}` } });
    expect((await ask("api/work/deep", "PUT", text)).status).toBe(200);
  });
});

describe("[SV34] each address knows its methods", () => {
  it.each([
    ["DELETE", "api/works", "GET, HEAD"],
    ["GET", "api/hand", "PUT"],
    ["POST", "api/work/cellist", "GET, HEAD, PUT"],
    ["PUT", "index.html", "GET, HEAD"],
    ["OPTIONS", "api/sheet", "POST"],
  ])("%s %s is told which", async (method, path, allowed) => {
    const answer = await ask(path, method);
    expect([answer.status, answer.headers.get("allow")]).toEqual([405, allowed]);
    expect(await told(answer)).toEqual(["problem", "cure"]);
  });
  it("what is no address at all is none for any method", async () => {
    for (const method of ["GET", "PUT", "DELETE"])
      expect((await ask("api/nothing", method, undefined)).status).toBe(404);
  });
});

describe("[SV35] nobody who sends drop by drop is waited for", () => {
  let server: Server;
  let port: number;
  beforeAll(async () => {
    const app = new Hono();
    app.post("/", async (c) => c.text(await c.req.text().catch(() => "")));
    server = createPatientServer(app.fetch, { headers_ms: 60, request_ms: 5000, idle_ms: 150, look_ms: 20 });
    await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
    port = (server.address() as AddressInfo).port;
  });
  afterAll(() => new Promise((resolve) => server.close(resolve)));
  it("headers that never end", async () => {
    expect(await raw(port, "GET / HTTP/1.1\r\nHost: x\r\n")).toMatch(/^HTTP\/1.1 408/);
  });
  it("a body that never comes", async () => {
    const said = await raw(port, "POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 10\r\n\r\nabc");
    expect(said).toMatch(/^(HTTP\/1.1 408[\s\S]*)?$/);
  });
  it("headers beyond 16 KiB", async () => {
    const said = await raw(port, `GET / HTTP/1.1\r\nHost: x\r\nA: ${"x".repeat(20_000)}\r\n\r\n`);
    expect(said).toMatch(/^HTTP\/1.1 431/);
  });
});

describe("[SV36] what fails inside is logged with its cause in one line, and nothing of what was sent", () => {
  const logged = async (act: () => unknown): Promise<string[]> => {
    const log = vi.spyOn(console, "error").mockImplementation(() => undefined);
    try {
      await act();
      return log.mock.calls.map(([line]) => String(line));
    } finally {
      log.mockRestore();
    }
  };
  it("a part of the server that throws", async () => {
    sheet.mockImplementationOnce(async (text) => {
      throw new RangeError(`cannot print "${text}"\nat all`);
    });
    const lines = await logged(async () => {
      const answer = await ask("api/sheet", "POST", "the secret plan");
      expect([answer.status, await told(answer)]).toEqual([500, ["problem", "cure"]]);
    });
    expect(lines).toEqual([
      expect.stringMatching(
        /^tapemark: POST \/api\/sheet failed: RangeError cannot print … at all at limits\.test\.ts:\d+$/,
      ),
    ]);
  });
  it("what was thrown and is no error", async () => {
    expect(await logged(() => tellFault("a request", "the secret plan"))).toEqual([
      "tapemark: a request failed: no reason was given",
    ]);
  });
});
