/** Each threat to what is shared, and what stands against it. docs/security.md says the same in words: the last test holds
 * the two together. */
import { readFileSync } from "node:fs";
import { connect } from "node:net";
import { DOMParser } from "@xmldom/xmldom";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { LivePlan } from "../workbench/index.ts";
import { createRoutes, type RouteParts } from "./routes.ts";
import { keptPlan, SHARED_PLAN, type Shared, share } from "./testing/shared.ts";

let shared: Shared;
afterEach(async () => {
  vi.restoreAllMocks();
  await shared.stop();
});

const NOTHING = {
  problem: "there is nothing at this address",
  cure: "open the address that the workbench shows",
};
const isNothing = ({ code, body }: { code: number; body: string }) =>
  expect([code, body]).toEqual([404, JSON.stringify(NOTHING)]);
/** Also where it is no request at all, so that nothing of ours has seen it. */
const isRefused = (answer: { code: number; body: string }) =>
  answer.code === 400 ? expect(answer.body).toBe("") : isNothing(answer);
const tick = JSON.stringify({ thing: "lights/key", isPlaced: true });
const wrong = (digits = "000000") => digits.replace(/\d$/, (last) => String((Number(last) + 1) % 10));
const tryCode = (digits: string | undefined, name = "phone") =>
  shared.ask("/pair", { method: "POST", body: JSON.stringify({ code: digits, name }) });
const shownCode = async () => (await shared.sharing.state()).code?.digits;

/** Bytes as they are, and what comes back until the other side has had enough. */
async function rawBytes(text: string): Promise<string> {
  const { hostname, port } = new URL(`http://${await shared.host()}`);
  return new Promise((resolve) => {
    let back = "";
    const socket = connect(Number(port), hostname, () => socket.write(text));
    socket.on("data", (chunk) => {
      back += chunk;
    });
    socket.on("error", () => {}); // cut off is an answer too
    socket.on("close", () => resolve(back));
  });
}

const THREATS: readonly [string, () => Promise<void>][] = [
  [
    "[SR12] a page under a name that was pointed at this machine (DNS rebinding)",
    async () => {
      const cookie = await shared.pair("phone");
      const host = await shared.host();
      for (const name of [
        "evil.example",
        host.replace("127.0.0.1", "localhost"),
        "127.0.0.1",
        `${host}.evil.example`,
        "127.0.0.1:80",
      ])
        for (const path of ["/", "/api/live", "/api/sheet"])
          isRefused(await shared.ask(path, { headers: { host: name }, cookie }));
      expect(await rawBytes("GET / HTTP/1.0\r\n\r\n")).toMatch(/^HTTP\/1\.1 4\d\d /);
      expect((await shared.ask("/")).body).toBe("<p>the page of a device</p>");
    },
  ],
  [
    "[SR12] a request that another site makes the browser send",
    async () => {
      const cookie = await shared.pair("phone");
      const host = await shared.host();
      const put = (headers: Record<string, string>) =>
        shared.ask("/api/placed", { method: "PUT", body: tick, cookie, headers });
      for (const origin of [
        "https://evil.example",
        "null",
        "",
        `https://${host}`,
        "http://127.0.0.1",
        `http://${host}/`,
      ])
        isNothing(await put({ origin }));
      for (const site of ["cross-site", "same-site", "none"])
        isNothing(await put({ "sec-fetch-site": site }));
      // what a form can send without being asked
      for (const type of ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data"])
        isNothing(await put({ "content-type": type }));
      const silent = await rawBytes(
        `PUT /api/placed HTTP/1.1\r\nHost: ${host}\r\nCookie: ${cookie}\r\nContent-Type: application/json\r\nContent-Length: ${tick.length}\r\nConnection: close\r\n\r\n${tick}`,
      );
      expect(silent).toMatch(/^HTTP\/1\.1 404 /);
      expect(shared.placed).toEqual([]);
      expect((await put({})).code).toBe(204);
      expect((await shared.ask("/", { headers: { "sec-fetch-site": "none" } })).code).toBe(200);
      const preflight = await shared.ask("/api/placed", { method: "OPTIONS" });
      expect(Object.keys(preflight.headers).filter((name) => name.startsWith("access-control"))).toEqual([]);
    },
  ],
  [
    "[SR5] somebody in the network tries one code after the other",
    async () => {
      const digits = await shownCode();
      for (let i = 0; i < 5; i++) {
        expect((await tryCode(wrong(digits))).code).toBe(403);
        shared.time.elapsed_ms += 20_000;
      }
      expect((await tryCode(digits)).code).toBe(403);
      expect((await shared.sharing.state()).code).toBeNull();
    },
  ],
  [
    "[SR8] codes are tried faster than a person types, many at once",
    async () => {
      const digits = await shownCode();
      const codes = await Promise.all(Array.from({ length: 20 }, () => tryCode(wrong(digits))));
      expect(codes.map(({ code }) => code).sort()).toEqual([403, ...Array(19).fill(429)]);
      const right = await tryCode(digits);
      expect([right.code, right.headers["retry-after"]]).toEqual([429, "1"]);
      shared.time.elapsed_ms += 1000;
      expect((await tryCode(digits)).code).toBe(204);
    },
  ],
  [
    "[SR5] a code that was seen over a shoulder is used a second time",
    async () => {
      const digits = await shownCode();
      expect((await tryCode(digits, "mine")).code).toBe(204);
      expect((await tryCode(digits, "theirs")).code).toBe(403);
      expect((await shared.sharing.state()).devices.map(({ name }) => name)).toEqual(["mine"]);
    },
  ],
  [
    "[SR6] a code is kept for later, and the clock is set back",
    async () => {
      const digits = await shownCode();
      shared.time.elapsed_ms += 5 * 60_000;
      shared.time.now_ms -= 24 * 3_600_000;
      expect((await tryCode(digits)).code).toBe(403);
      // a machine that sleeps: only the clock on the wall went on
      const { code } = await shared.sharing.newCode();
      shared.time.elapsed_ms += 60_000;
      shared.time.now_ms += 5 * 60_000;
      expect((await tryCode(code?.digits)).code).toBe(403);
    },
  ],
  [
    "[SR7] the answer, or how long it takes, says how much of a code is right",
    async () => {
      const digits = await shownCode();
      const near = await tryCode(wrong(digits));
      shared.time.elapsed_ms += 1000;
      const far = await tryCode("x");
      const right = await tryCode(digits);
      expect([near.code, near.body]).toEqual([far.code, far.body]);
      expect(right.code).toBe(429);
      // how it is compared is in pairing.test.ts; nothing here compares a code in another way
      for (const file of ["pairing-code.ts", "phone-routes.ts", "share.ts"]) {
        const text = readFileSync(new URL(file, import.meta.url), "utf8");
        expect(text).not.toMatch(/digits\s*[=!]==|[=!]==\s*\S*digits/);
      }
    },
  ],
  [
    "[SR9] a script in the page, or another site, takes the token",
    async () => {
      const answer = await tryCode(await shownCode());
      const [cookie, ...more] = answer.headers["set-cookie"] ?? [];
      expect(more).toEqual([]);
      expect(cookie).toMatch(/^tapemark-device=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict$/);
      expect(answer.body).toBe("");
    },
  ],
  [
    "[SR9] a token is made up, or an old one of the same page goes on counting",
    async () => {
      for (const cookie of [
        "tapemark-device=",
        "tapemark-device=__proto__",
        `tapemark-device=${"A".repeat(43)}`,
        "x=y",
      ])
        expect((await shared.ask("/api/sheet", { cookie })).code).toBe(401);
      const before = await shared.pair("phone");
      const { code } = await shared.sharing.newCode();
      const body = JSON.stringify({ code: code?.digits, name: "phone" });
      expect((await shared.ask("/pair", { method: "POST", body, cookie: before })).code).toBe(204);
      expect((await shared.ask("/api/sheet", { cookie: before })).code).toBe(401);
      expect((await shared.sharing.state()).devices).toHaveLength(1);
    },
  ],
  [
    "[SR11] a device that was taken off the list, or that was let in before, goes on",
    async () => {
      const cookie = await shared.pair("phone");
      const page = await shared.look(cookie);
      await shared.sharing.revoke((await shared.sharing.state()).devices[0].id);
      await page.closed;
      const put = () => shared.ask("/api/placed", { method: "PUT", body: tick, cookie });
      expect((await put()).code).toBe(401);
      const again = await shared.pair("phone");
      await shared.sharing.turn(false);
      await shared.sharing.turn(true);
      expect((await shared.ask("/api/sheet", { cookie: again })).code).toBe(401);
      expect(shared.placed).toEqual([]);
    },
  ],
  [
    "[SR15] an address climbs out of the folder of the page",
    async () => {
      const cookie = await shared.pair("phone");
      for (const path of [
        "/../package.json",
        "/..%2f..%2fpackage.json",
        "/%2e%2e/%2e%2e/etc/passwd",
        "/%252e%252e%252fetc/passwd",
        "/..\\..\\package.json",
        "/..%5c..%5cpackage.json",
        "/index.html%00.png",
        "/%00",
        "//etc/passwd",
        "/etc/passwd",
        "/index.html/",
        "/INDEX.HTML",
        "/.git/config",
        "/%",
        "/%ff%fe",
        `/${"a/".repeat(2000)}`,
      ])
        isRefused(await shared.ask(path, { cookie }));
      const host = await shared.host();
      for (const target of [
        "http://evil.example/",
        `http://${host}/../etc/passwd`,
        "file:///etc/passwd",
        "*",
      ]) {
        const back = await rawBytes(`GET ${target} HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n\r\n`);
        expect(back).toMatch(/^HTTP\/1\.1 4\d\d /);
        expect(back).not.toMatch(/root:|the page of a device/);
      }
    },
  ],
  [
    "[SR15] the workbench's own routes are asked for at the sharing port",
    async () => {
      const cookie = await shared.pair("phone");
      // nothing of it is called: what counts is which addresses there are
      const anything: object = new Proxy(() => {}, { get: () => anything });
      const workbench = createRoutes(anything as RouteParts);
      const routes = workbench.routes.filter(({ method, path }) => method !== "ALL" && !path.endsWith("*"));
      expect(routes.length).toBeGreaterThan(14);
      for (const { method, path } of routes) {
        const asked = { method, ...(method === "GET" ? {} : { body: "{}" }) };
        const named = path.replace(":key", "a-work").replace(/:\w+/g, "x");
        isNothing(await shared.ask(named, asked));
        isNothing(await shared.ask(named, { ...asked, cookie }));
      }
      expect((await keptPlan(shared)).revision).toBe(1);
    },
  ],
  [
    "[SR13] a body without end, or larger than anything that is sent",
    async () => {
      const cookie = await shared.pair("phone");
      const host = await shared.host();
      const send = (bytes: number, path = "/api/readings") =>
        shared.ask(path, { method: "POST", body: JSON.stringify({ note: "x".repeat(bytes) }), cookie });
      expect((await send(5000)).code).toBe(413);
      expect((await send(5000, "/pair")).code).toBe(413);
      expect((await send(3000)).code).toBe(400);
      const chunk = `1000\r\n${"x".repeat(4096)}\r\n`;
      const endless = await rawBytes(
        `POST /pair HTTP/1.1\r\nHost: ${host}\r\nOrigin: http://${host}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n${chunk.repeat(8)}`,
      );
      expect(endless).toMatch(/^HTTP\/1\.1 413 /);
      const headers = { "x-long": "x".repeat(9000) };
      expect((await shared.ask("/", { headers })).code).toBe(431);
    },
  ],
  [
    "[SR13] a request that is sent a letter at a time, or begun and never ended",
    async () => {
      const host = await shared.host();
      expect(await rawBytes(`GET / HTTP/1.1\r\nHost: ${host}\r\nX-More`)).toMatch(/^HTTP\/1\.1 408 /);
      const half = `POST /pair HTTP/1.1\r\nHost: ${host}\r\nOrigin: http://${host}\r\nContent-Type: application/json\r\nContent-Length: 99\r\n\r\n{`;
      expect(await rawBytes(half)).not.toMatch(/^HTTP\/1\.1 2/);
    },
  ],
  [
    "[SR13] more connections, pages and devices than there is room for",
    async () => {
      const cookie = await shared.pair("phone");
      const pages = await Promise.all(Array.from({ length: 6 }, () => shared.look(cookie)));
      await Promise.all(pages.slice(0, 3).map(({ closed }) => closed));
      expect((await shared.sharing.state()).devices).toMatchObject([{ isLooking: true }]);
      const { hostname, port } = new URL(`http://${await shared.host()}`);
      const sockets = Array.from({ length: 40 }, () => connect(Number(port), hostname));
      const closed = sockets.map(
        (socket) =>
          new Promise((resolve) => {
            socket.on("error", () => {});
            socket.on("close", resolve);
          }),
      );
      // three pages are open: so many find no place
      await Promise.all([...closed].slice(24));
      for (const socket of sockets) socket.destroy();
      for (const page of pages) page.leave();
      await vi.waitFor(async () =>
        expect((await shared.sharing.state()).devices).toMatchObject([{ isLooking: false }]),
      );
    },
  ],
  [
    "[SR13] a device that writes without pause",
    async () => {
      const cookie = await shared.pair("phone");
      const answers: number[] = [];
      for (let i = 0; i < 40; i++)
        answers.push((await shared.ask("/api/placed", { method: "PUT", body: tick, cookie })).code);
      expect(answers.filter((code) => code === 204)).toHaveLength(30);
      expect(new Set(answers.slice(30))).toEqual(new Set([429]));
      shared.time.elapsed_ms += 1000;
      const later = [1, 2].map(() => shared.ask("/api/placed", { method: "PUT", body: tick, cookie }));
      expect((await Promise.all(later)).map(({ code }) => code).sort()).toEqual([204, 429]);
    },
  ],
  [
    "[SR14] the page is framed, fed with scripts from elsewhere, or kept in a cache",
    async () => {
      const cookie = await shared.pair("phone");
      const answers = [
        await shared.ask("/"),
        await shared.ask("/nothing"),
        await shared.ask("/", { headers: { host: "evil.example" } }),
        await shared.ask("/api/sheet"),
        await shared.ask("/api/sheet", { cookie }),
        await shared.ask("/api/placed", { method: "PUT", body: tick, cookie }),
        await shared.ask("/pair", { method: "POST", body: "x".repeat(9000) }),
        await tryCode("no"),
      ];
      for (const { headers } of answers) {
        expect(headers["content-security-policy"]).toMatch(/^default-src 'none';.*frame-ancestors 'none'$/);
        expect(headers["content-security-policy"]).not.toMatch(/unsafe|\*|https?:/);
        expect(headers).toMatchObject({
          "cache-control": "no-store",
          "cross-origin-opener-policy": "same-origin",
          "cross-origin-resource-policy": "same-origin",
          "referrer-policy": "no-referrer",
          "x-content-type-options": "nosniff",
          "x-frame-options": "DENY",
        });
        expect(headers).not.toHaveProperty("access-control-allow-origin");
      }
    },
  ],
  [
    "[SR16] codes and tokens stand in logs, addresses or answers",
    async () => {
      const said: string[] = [];
      const keep = (...words: unknown[]) => {
        said.push(words.map(String).join(" "));
        return true;
      };
      for (const stream of [process.stdout, process.stderr])
        vi.spyOn(stream, "write").mockImplementation(keep as never);
      for (const method of ["log", "info", "warn", "error", "debug"] as const)
        vi.spyOn(console, method).mockImplementation(keep);
      const digits = (await shownCode()) ?? "";
      await tryCode(wrong(digits));
      shared.time.elapsed_ms += 1000;
      const paired = await tryCode(digits);
      const cookie = (paired.headers["set-cookie"]?.[0] ?? "").split(";")[0];
      const token = cookie.split("=")[1];
      const page = await shared.look(cookie);
      await page.until(() => true);
      shared.parts.store.load = async () => {
        throw new Error("the disk is on fire");
      };
      const answers = [
        await shared.ask("/api/sheet", { cookie }),
        await shared.ask("/api/placed", { method: "PUT", body: tick, cookie }),
        await shared.ask(`/api/sheet?code=${digits}`, { cookie }),
        await tryCode(digits),
      ];
      expect(answers[0].code).toBe(500);
      const state = await shared.sharing.state();
      const picture = await shared.sharing.qr(state.addresses[0]);
      await shared.sharing.revoke(state.devices[0].id);
      await page.closed;
      vi.restoreAllMocks();
      expect(shared.lines.join()).toContain("the disk is on fire");
      const all = JSON.stringify([said, shared.lines, answers, state, picture, page.events]);
      expect(token).toHaveLength(43);
      expect(digits).toHaveLength(6);
      expect(all).not.toContain(token);
      expect(all).not.toContain(digits);
    },
  ],
  [
    "[SR17] a name in a plan is markup or a script",
    async () => {
      const nasty = `<img src=x onerror="alert(1)">'"]]><script>alert(2)</script>`;
      const { lights, ...plan } = SHARED_PLAN;
      const named = { ...plan, title: nasty, lights: [{ ...lights[0], name: nasty }] };
      await shared.parts.store.save("a-work", { plan: named, history: null, revision: 2 });
      const page = await shared.look(await shared.pair("phone"));
      const { plan: live } = (await page.until(({ kind }) => kind === "plan")) as { plan: LivePlan };
      expect(live.title).toBe(nasty);
      expect(live.things.map(({ thing }) => thing)).toContain(`lights/${nasty}`);
      for (const drawing of [live.floor, live.side]) {
        const document = new DOMParser().parseFromString(drawing, "image/svg+xml");
        const elements = [...document.getElementsByTagName("*")];
        expect(elements.length).toBeGreaterThan(10);
        for (const element of elements) {
          expect(element.nodeName).not.toMatch(/script|img|image|foreignObject|iframe|use|^a$/i);
          for (const { name, value } of [...element.attributes]) {
            expect(name).not.toMatch(/^on|href/i);
            expect(value).not.toMatch(/javascript:|url\(\s*["']?\w+:/i);
          }
        }
      }
    },
  ],
  [
    "[SR17] a device's name or what it sends becomes a header or a line of the log",
    async () => {
      const answer = await tryCode(
        await shownCode(),
        "x\r\nset-cookie: admin=1\r\n\r\n<b>\u001b[2J\u202Etxt.exe",
      );
      expect(answer.code).toBe(204);
      expect(answer.headers["set-cookie"]).toHaveLength(1);
      const cookie = (answer.headers["set-cookie"]?.[0] ?? "").split(";")[0];
      const [{ name }] = (await shared.sharing.state()).devices;
      expect(name).toBe("x set-cookie: admin=1 <b> [2J txt.exe");
      for (const thing of ["lights/key\r\nx: y", "\u0000", "__proto__"]) {
        const body = JSON.stringify({ thing, isPlaced: true });
        expect((await shared.ask("/api/placed", { method: "PUT", body, cookie })).code).toBe(422);
      }
      const bad = await shared.ask("/api/sheet?units=%0d%0ax:y&paper=%0d%0ax:y", { cookie });
      expect([bad.code, bad.headers.x]).toEqual([200, undefined]);
      expect(shared.lines).toEqual([]);
    },
  ],
  [
    "[SR1] sharing stays on after it is needed",
    async () => {
      for (const end of [() => shared.sharing.turn(false), () => shared.sharing.stop()]) {
        await shared.sharing.turn(true);
        const host = await shared.host();
        expect((await shared.ask("/")).code).toBe(200);
        await end();
        await expect(fetch(`http://${host}/`)).rejects.toThrow();
      }
      expect((await shared.sharing.state()).isOn).toBe(false);
    },
  ],
];

describe("threats to what is shared", () => {
  it.each(THREATS)("%s", async (_, test) => {
    shared = await share({ limits: { all: 100, each: 27, headers_ms: 300, request_ms: 500 } });
    await test();
  });
  it("each stands in docs/security.md with its rule, and nothing else stands there", () => {
    const lines = readFileSync("docs/security.md", "utf8").split("\n");
    for (const [name] of THREATS) {
      const [, rule, threat] = /^\[(\w+)\] (.+)$/.exec(name) ?? [];
      expect(
        lines.filter((line) => line.startsWith(`| ${threat} |`) && line.endsWith(`| ${rule} |`)),
      ).toHaveLength(1);
    }
    expect(lines.filter((line) => /\| SR\d+ \|$/.test(line))).toHaveLength(THREATS.length);
  });
});
