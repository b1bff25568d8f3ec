/** News over the wire, at a real port. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Hono } from "hono";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { createDesk } from "../files/index.ts";
import { NO_GEAR, plainReader } from "../files/testing/plain-reader.ts";
import { EMPTY_SHELF } from "../gear/index.ts";
import { createWorks, openLibrary } from "../library/index.ts";
import { freshLibrary, plainAround } from "../library/testing/fresh-library.ts";
import type { News } from "../workbench/index.ts";
import { type Running, startServer } from "./index.ts";
import { createNewsDesk } from "./news.ts";
import { addNewsRoutes } from "./news-routes.ts";

const folder = mkdtempSync(join(tmpdir(), "tapemark-news-"));
writeFileSync(join(folder, "index.html"), "<p>the workbench</p>");
const library = freshLibrary();
const start = () =>
  startServer({
    appFolder: folder,
    library,
    opened: null,
    port: 0,
    sheet: async () => new Uint8Array(),
    desk: (shelf) => createDesk({ reader: plainReader(), gear: NO_GEAR, now: () => new Date(), shelf }),
  });
let running: Running;
beforeAll(async () => {
  running = await start();
});
afterAll(async () => {
  await running.stop();
  rmSync(folder, { recursive: true, force: true });
});

const work = (revision: number, by?: string) =>
  JSON.stringify({ revision, plan: { title: "x" }, history: null, ...(by && { by }) });
const send = (path: string, method: string, body: string, at = running) =>
  fetch(`${at.url}api/${path}`, { method, body });

/** A page that follows the news: what it has heard, and a wait for the next of it. */
async function follow(at = running) {
  const leave = new AbortController();
  const answer = await fetch(`${at.url}api/news`, { signal: leave.signal });
  const reader = answer.body?.pipeThrough(new TextDecoderStream()).getReader();
  let heard = "";
  const next = async (): Promise<News | { kind: "hello" }> => {
    for (;;) {
      const end = heard.indexOf("\n\n");
      if (end >= 0) {
        const data = /^data: (.*)$/m.exec(heard.slice(0, end))?.[1];
        heard = heard.slice(end + 2);
        if (data !== undefined) return JSON.parse(data);
        continue;
      }
      const { value, done } = (await reader?.read()) ?? { value: undefined, done: true };
      if (done) throw new Error("the stream ended");
      heard += value;
    }
  };
  return { answer, next, leave: () => leave.abort() };
}

describe("[SV30] pages follow the news", () => {
  it("a greeting, then every save with who saved it, and what is in hand", async () => {
    const page = await follow();
    expect(page.answer.headers.get("content-type")).toBe("text/event-stream");
    expect(page.answer.headers.get("content-security-policy")).toContain("connect-src 'self'");
    expect(await page.next()).toEqual({ kind: "hello" });
    expect((await send("work/cellist", "PUT", work(1, "window 1"))).status).toBe(200);
    const heard = [await page.next(), await page.next()];
    expect(heard).toContainEqual({ kind: "work", key: "cellist", revision: 1, by: "window 1" });
    expect(heard).toContainEqual({ kind: "shoots", shoot: expect.any(String) });
    expect((await send("hand", "PUT", '{"key":"cellist"}')).status).toBe(204);
    expect(await page.next()).toEqual({ kind: "hand", key: "cellist" });
    await send("shelf", "PUT", JSON.stringify({ shelf: EMPTY_SHELF, revision: 0 }));
    expect(await page.next()).toEqual({ kind: "shelf" });
    await send("gear", "PUT", '{"bodies":{},"lights":{}}');
    expect(await page.next()).toEqual({ kind: "gear" });
    page.leave();
  });
  it("what another process keeps in the library", async () => {
    const page = await follow();
    await page.next();
    const other = openLibrary(library.path, plainAround());
    await createWorks(other, plainAround()).save("from-the-shell", { revision: 1, plan: {}, history: null });
    const heard = [await page.next(), await page.next()];
    expect(heard).toContainEqual({ kind: "work", key: "from-the-shell", revision: 1, by: null });
    other.close();
    page.leave();
  });
  it("a save that is refused is no news; a hand that names nothing is refused in words", async () => {
    const page = await follow();
    await page.next();
    expect((await send("work/cellist", "PUT", work(9))).status).toBe(409);
    expect((await send("hand", "PUT", '{"key":7}')).status).toBe(400);
    expect((await send("hand", "PUT", '{"key":"../x"}')).status).toBe(422);
    await send("hand", "PUT", '{"key":null}');
    expect(await page.next()).toEqual({ kind: "hand", key: null });
    page.leave();
  });
  it.each([
    ["another site's page", { "sec-fetch-site": "cross-site" }],
    ["another origin", { origin: "https://evil.example" }],
  ])("%s hears nothing", async (_, headers) => {
    expect((await fetch(`${running.url}api/news`, { headers })).status).toBe(403);
  });
});

describe("[SV31] whoever follows takes nothing from others", () => {
  const desk = createNewsDesk();
  const hand = { key: () => null, set: () => undefined };
  const app = new Hono();
  let following = 0;
  const counted = {
    ...desk,
    subscribe(listener: (news: News) => void) {
      following++;
      const end = desk.subscribe(listener);
      return () => {
        following--;
        return end();
      };
    },
  };
  addNewsRoutes(app, { news: counted, hand });

  it("a page that went away is told nothing more; one that only asks for the head follows nothing", async () => {
    const answer = await app.request("/api/news");
    expect(following).toBe(1);
    await answer.body?.cancel();
    expect(following).toBe(0);
    await app.request("/api/news", { method: "HEAD" });
    expect(following).toBe(0);
  });
  it("one that does not fetch what it is told is let go after 256", async () => {
    const answer = await app.request("/api/news");
    for (let i = 0; i < 1000; i++) desk.tell({ kind: "share" });
    expect(following).toBe(0);
    const text = await answer.text();
    expect(text.split("\n\n").length).toBeLessThan(260);
  });
  it("more than 64 are refused, until one leaves", async () => {
    const answers = await Promise.all(Array.from({ length: 65 }, () => app.request("/api/news")));
    expect(answers.map(({ status }) => status).filter((status) => status !== 200)).toEqual([429]);
    for (const answer of answers) await answer.body?.cancel();
    const next = await app.request("/api/news");
    expect(next.status).toBe(200);
    await next.body?.cancel();
  });
  it("a line every 15 seconds shows that the connection holds", async () => {
    vi.useFakeTimers();
    try {
      const reader = (await app.request("/api/news")).body?.getReader();
      await reader?.read();
      vi.advanceTimersByTime(15_000);
      expect(new TextDecoder().decode((await reader?.read())?.value)).toBe(": still here\n\n");
      await reader?.cancel();
    } finally {
      vi.useRealTimers();
    }
  });
});

it("[SV32] a server that is ended does not wait for pages that follow the news", async () => {
  const second = await start();
  const page = await follow(second);
  await page.next();
  await second.stop();
  await expect(page.next()).rejects.toThrow();
});
