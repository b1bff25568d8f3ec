/** Photographs over the wire, with a desk whose reader knows names and sizes only. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createDesk } from "../files/index.ts";
import { NO_GEAR, plainReader } from "../files/testing/plain-reader.ts";
import { freshLibrary } from "../library/testing/fresh-library.ts";
import type { DeskState, TestFrame } from "../workbench/index.ts";
import { type Running, startServer } from "./index.ts";

const folder = mkdtempSync(join(tmpdir(), "tapemark-photo-routes-"));
writeFileSync(join(folder, "index.html"), "<p>the workbench</p>");
const JPEG = Buffer.from([0xff, 0xd8, 0xff, 0xd9]);
let running: Running;

const start = () =>
  startServer({
    appFolder: folder,
    library: freshLibrary(),
    opened: null,
    port: 0,
    sheet: async () => new Uint8Array(),
    desk: (shelf) => createDesk({ reader: plainReader(), gear: NO_GEAR, now: () => new Date(), shelf }),
  });
const ask = (path: string, init?: RequestInit) => fetch(`${running.url}api/frames${path}`, init);
const hand = (name: string, body: Uint8Array | string) =>
  ask(`?name=${encodeURIComponent(name)}`, { method: "POST", body: Uint8Array.from(Buffer.from(body)) });
const news = async (after: number) => (await (await ask(`?after=${after}`)).json()) as DeskState;

beforeAll(async () => {
  running = await start();
});
afterAll(async () => {
  await running.stop();
  rmSync(folder, { recursive: true, force: true });
});

describe("[SV10] a photograph that is handed over lies on the desk until it is taken off", () => {
  it("read, listed, seen, forgotten", async () => {
    const frame = (await (await hand("IMG_1.jpg", JPEG)).json()) as TestFrame;
    expect(frame).toMatchObject({ name: "IMG_1.jpg", reading: { faces: [] } });
    expect((await news(0)).frames.map(({ id }) => id)).toEqual([frame.id]);
    const picture = await ask(`/${frame.id}/picture`);
    expect(picture.headers.get("content-type")).toBe("image/jpeg");
    expect(Buffer.from(await picture.arrayBuffer())).toEqual(JPEG);
    expect((await ask(`/${frame.id}`, { method: "DELETE" })).status).toBe(204);
    expect((await news(0)).frames).toEqual([]);
    expect((await ask(`/${frame.id}/picture`)).status).toBe(404);
    expect((await ask(`/${frame.id}`, { method: "DELETE" })).status).toBe(422);
  });
  it("what is no photograph is refused with a cure, and leaves nothing behind", async () => {
    const answer = await hand("letter.jpg", "bad");
    expect(answer.status).toBe(422);
    expect(await answer.json()).toEqual({
      problem: "letter.jpg is no photograph",
      cure: "hand over a JPEG",
    });
    expect(await news(0)).toMatchObject({ frames: [], pending: [] });
  });
  it("more than 256 MB is refused with the number, before any of it is taken in", async () => {
    const headers = { "content-length": 256 * 1024 * 1024 + 1 };
    const said = await new Promise<string>((resolve, reject) => {
      const asked = request(`${running.url}api/frames?name=x`, { method: "POST", headers }, (answer) => {
        answer.on("data", (chunk) => resolve(`${answer.statusCode} ${chunk}`));
      });
      asked.on("error", reject);
      asked.flushHeaders();
    });
    expect(said).toMatch(/^413 .*larger than 256 MB/);
  });
});

describe("[SV11] names from a browser are only names", () => {
  it.each([
    ["../../etc/passwd", "passwd"],
    ["C:\\shoot\\IMG 2.jpg", "IMG 2.jpg"],
    ["a\u0000\u202eb\n.jpg", "ab.jpg"],
    ["/", "photograph"],
    ["", "photograph"],
  ])("%j", async (name, expected) => {
    const frame = (await (await hand(name, JPEG)).json()) as TestFrame;
    expect(frame.name).toBe(expected);
    await ask(`/${frame.id}`, { method: "DELETE" });
  });
  it.each(["/..%2f..%2fpackage.json/picture", "/%2e%2e/picture", "/x%00/picture"])("%s: 404", async (path) =>
    expect((await ask(path)).status).toBe(404),
  );
});

describe("[SV12] a page that asks for news waits for it", () => {
  it("until something changes", async () => {
    const { version } = await news(0);
    const waited = news(version);
    await hand("IMG_3.jpg", JPEG);
    const heard = await waited;
    expect(heard.version).toBeGreaterThan(version);
    expect([...heard.frames, ...heard.pending].map(({ name }) => name)).toEqual(["IMG_3.jpg"]);
  });
  it("the server ends at once while pages wait", async () => {
    const other = await start();
    const { version } = (await (await fetch(`${other.url}api/frames`)).json()) as DeskState;
    const waiting = [1, 2, 3].map(() =>
      fetch(`${other.url}api/frames?after=${version}`).catch(() => "cut off"),
    );
    await new Promise((resolve) => setTimeout(resolve, 100));
    const began = performance.now();
    await other.stop();
    await Promise.all(waiting);
    // a page would wait 25 s
    expect(performance.now() - began).toBeLessThan(5000);
  });
});

describe("[SV13] a folder is watched when the page asks for it", () => {
  it("by its whole path; what is no folder is refused in words", async () => {
    const put = (body: string) => ask("/watch", { method: "PUT", body });
    expect((await put(JSON.stringify({ folder }))).status).toBe(204);
    expect((await news(0)).folder).toBe(folder);
    expect((await ask("/watch", { method: "DELETE" })).status).toBe(204);
    expect((await news(0)).folder).toBeNull();
    for (const [body, status] of [
      ["{}", 400],
      ["no JSON", 400],
      [JSON.stringify({ folder: join(folder, "nothing") }), 422],
      [JSON.stringify({ folder: join(folder, "index.html") }), 422],
      [JSON.stringify({ folder: "pictures" }), 422],
    ] as const) {
      const answer = await put(body);
      expect(answer.status, body).toBe(status);
      expect(await answer.json()).toEqual({ problem: expect.any(String), cure: expect.any(String) });
    }
    expect((await news(0)).folder).toBeNull();
  });
  it("not by another site's page", async () => {
    const answer = await ask("/watch", {
      method: "PUT",
      body: JSON.stringify({ folder }),
      headers: { origin: "https://evil.example" },
    });
    expect(answer.status).toBe(403);
  });
});
