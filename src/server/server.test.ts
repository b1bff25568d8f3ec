import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { createDesk } from "../files/index.ts";
import { NO_GEAR, plainReader } from "../files/testing/plain-reader.ts";
import {
  copyHere,
  createGearShelf,
  createHand,
  createShelfStore,
  createShoots,
  createWorks,
  writeSidecars,
} from "../library/index.ts";
import { freshLibrary, plainAround } from "../library/testing/fresh-library.ts";
import { createNewsDesk, toldStore } from "./news.ts";
import { createRoutes } from "./routes.ts";

const PORT = 4999;
const library = freshLibrary();
const news = createNewsDesk();
const store = toldStore(createWorks(library, plainAround()), news);
const page = join(mkdtempSync(join(tmpdir(), "tapemark-page-")), "index.html");
writeFileSync(page, "<p>the workbench</p>");
const routes = createRoutes({
  port: () => PORT,
  files: new Map([
    ["/index.html", page],
    ["/assets/built-anew.js", `${page}.gone`],
  ]),
  store,
  news,
  archives: {
    ...plainAround(),
    ...{ library, news },
    copies: { trouble: () => null, now: () => copyHere(library.path, new Date(0)), stop: () => {} },
  },
  hand: createHand(library, news),
  desk: createDesk({ reader: plainReader(), gear: NO_GEAR, now: () => new Date(0) }),
  shoots: createShoots(library, { ...plainAround(), news, writeSidecars }),
  thumbnail: () => null,
  gear: createGearShelf(library, plainAround()),
  shelf: createShelfStore(library, plainAround()),
  opened: null,
  sheet: async () => new Uint8Array([37, 80, 68, 70]),
});

function ask(path: string, headers: Record<string, string> = {}, init: RequestInit = {}) {
  return routes.request(`http://127.0.0.1:${PORT}${path}`, {
    ...init,
    headers: { host: `127.0.0.1:${PORT}`, ...headers },
  });
}

const work = (revision: number) =>
  JSON.stringify({ revision, plan: { format: "tapemark/plan", version: 1, title: "x" }, history: null });
const put = (key: string, body: string) => ask(`/api/work/${key}`, {}, { method: "PUT", body });

describe("[SV1] only this machine's own page is answered", () => {
  it("its own page", async () => expect((await ask("/")).status).toBe(200));
  it.each([
    ["another host (DNS rebinding)", { host: "evil.example:4999" }],
    ["the right name on another port", { host: "127.0.0.1:80" }],
    ["another site's page", { origin: "https://evil.example" }],
    ["a page from a file", { origin: "null" }],
    ["a cross-site request", { "sec-fetch-site": "cross-site" }],
  ])("%s is refused with the reason", async (_, headers) => {
    const answer = await ask("/api/works", headers as Record<string, string>);
    expect(answer.status).toBe(403);
    expect(await answer.json()).toMatchObject({ problem: expect.any(String), cure: expect.any(String) });
  });
  it("every answer carries the strict policy", async () => {
    for (const answer of [await ask("/"), await ask("/nothing"), await ask("/", { host: "x" })]) {
      const policy = answer.headers.get("content-security-policy");
      for (const what of ["default-src", "worker-src", "manifest-src"])
        expect(policy).toContain(`${what} 'self'`);
      expect(answer.headers.get("x-content-type-options")).toBe("nosniff");
      expect(answer.headers.get("cross-origin-opener-policy")).toBe("same-origin");
    }
  });
});

describe("[SV2] addresses name only the workbench's files", () => {
  it("one that has gone since is not there", async () =>
    expect((await ask("/assets/built-anew.js")).status).toBe(404));
  it.each(["/../package.json", "/%2e%2e/package.json", "/..%2fpackage.json", "/etc/passwd", "//etc/passwd"])(
    "%s",
    async (path) => expect((await ask(path)).status).toBe(404),
  );
});

describe("[SV3] works are kept, one revision after the other", () => {
  it("saved, loaded, listed", async () => {
    expect((await put("a-work", work(1))).status).toBe(200);
    expect(await (await ask("/api/work/a-work")).json()).toMatchObject({ revision: 1 });
    expect(await (await ask("/api/works")).json()).toMatchObject([{ key: "a-work", title: "x" }]);
  });
  it("a revision that is not the next one is refused and overwrites nothing", async () => {
    expect((await put("a-work", work(1))).status).toBe(409);
    expect((await put("a-work", work(5))).status).toBe(409);
    expect((await put("a-work", work(2))).status).toBe(200);
  });
  it("the same save sent again is kept already; another of that number is refused", async () => {
    const mine = JSON.stringify({ ...JSON.parse(work(3)), by: "window 3" });
    expect((await put("a-work", mine)).status).toBe(200);
    expect((await put("a-work", mine)).status).toBe(200);
    expect((await put("a-work", mine.replace("window 3", "another 3"))).status).toBe(409);
  });
  it("bad keys and bad bodies are refused in words", async () => {
    expect((await put("..%2f..%2fx", work(1))).status).toBe(422);
    expect((await put("b", "not json")).status).toBe(400);
    expect((await put("b", "{}")).status).toBe(400);
    expect((await put("b", "x".repeat(33 * 1024 * 1024))).status).toBe(413);
  });
});
