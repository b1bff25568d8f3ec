/** Requests that no page would send, at a real port over a real library: each is answered or its connection is closed. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it, vi } from "vitest";
import { createDesk } from "../src/files/index.ts";
import { NO_GEAR, plainReader } from "../src/files/testing/plain-reader.ts";
import { freshLibrary } from "../src/library/testing/fresh-library.ts";
import { startServer } from "../src/server/index.ts";
import { openPlan, WorkError } from "../src/workbench/index.ts";
import { amount } from "./amount.ts";
import { type Chance, createChance, damagedBytes, damagedDocument, heldBytes } from "./fuzz-parts.ts";

const SEED = 2_611_500;
const REQUESTS = 5000;
const AT_ONCE = 8;
/** A server that has said nothing by then, to somebody who has sent all that it will, waits for nothing. */
const LONGEST_MS = 30_000;
/** Bodies of up to two megabytes come and go; what stayed behind of each would come to many times that. */
const MOST_GROWTH_BYTES = 400 * 1024 * 1024;
const MARK = "words-of-a-plan";

const plan = readFileSync("examples/cellist-measured.json", "utf8");
const work = JSON.stringify({ revision: 1, plan: JSON.parse(plan), history: null, by: "fuzz 1" });

/** Of every kind of address one that is asked for as it should be. */
const USUAL: readonly (readonly [method: string, path: string, body: string])[] = [
  ["GET", "/", ""],
  ["GET", "/assets/none.js", ""],
  ["GET", "/api/open", ""],
  ["GET", "/api/works", ""],
  ["GET", "/api/work/cellist", ""],
  ["GET", "/api/work/cellist/glance", ""],
  ["PUT", "/api/work/cellist", work],
  ["POST", "/api/sheet?paper=a4&units=feet", plan],
  ["GET", "/api/gear", ""],
  ["PUT", "/api/gear", '{"bodies":{},"lights":{}}'],
  ["GET", "/api/frames?after=-1", ""],
  ["POST", "/api/frames?name=IMG_1.jpg", "not a photograph"],
  ["PUT", "/api/frames/watch", '{"folder":"/nowhere/at/all"}'],
  ["DELETE", "/api/frames/watch", ""],
  ["DELETE", "/api/frames/1", ""],
  ["GET", "/api/frames/1/picture", ""],
  ["GET", "/api/news", ""],
  ["PUT", "/api/hand", '{"key":"cellist"}'],
  ["GET", "/api/shoots?text=cello&stars=2&offset=0&limit=50", ""],
  ["GET", "/api/shoots/choices", ""],
  ["POST", "/api/shoots", '{"title":"words-of-a-plan","date":"2026-11-26"}'],
  ["GET", "/api/shoots/id-1", ""],
  ["PATCH", "/api/shoots/id-1", '{"revision":1,"fields":{"notes":"words-of-a-plan"}}'],
  ["GET", "/api/shoots/id-1/frames?offset=0&limit=50", ""],
  ["POST", "/api/shoots/id-1/sidecars", ""],
  ["PUT", "/api/work/cellist/shoot", '{"shoot":"id-1"}'],
  ["GET", "/api/work/cellist/shoot", ""],
  ["POST", "/api/work/cellist/versions", '{"name":"as shot"}'],
  ["PUT", "/api/work/cellist/read", '{"pattern":"loop"}'],
  ["PUT", "/api/work/cellist/placed", '{"thing":"lights/key","isPlaced":true}'],
  ["PATCH", "/api/frames/1", '{"stars":3,"isSelect":true}'],
  ["GET", "/api/frames/1/thumbnail", ""],
  ["GET", "/api/library", ""],
  ["POST", "/api/archives", "PK no archive"],
  ["POST", "/api/shoots/id-1/archive", ""],
  ["GET", "/api/archives/id-1", ""],
];
const METHODS = [
  "GET",
  "HEAD",
  "PUT",
  "POST",
  "PATCH",
  "DELETE",
  "OPTIONS",
  "TRACE",
  "get",
  "PROPFIND",
  "X",
  "",
];
const PATHS = [
  ...[
    "/../../etc/passwd",
    "/%2e%2e/%2e%2e/etc/passwd",
    "/..%5c..%5cx",
    "//evil.example/",
    "/%00",
    "/%",
    "/%ff%fe",
  ],
  ...[
    "http://evil.example/",
    "*",
    "",
    "/api",
    "/api/",
    "/api/work/",
    "/api/work/..%2fx",
    "/api/work/A",
    "/\ud800",
  ],
  ...[
    "/api/frames?after=x",
    "/api/frames?after=1e999",
    "/api/frames?name=%E0%A4%A",
    "/index.html/",
    "/a b",
    "/\\x",
  ],
];
const HEADERS = [
  ...["Host: evil.example", "Host:", "Origin: null", "Sec-Fetch-Site: cross-site", "Content-Length: 5"],
  ...[
    "Content-Length: -1",
    "Content-Length: 99999999999999999999",
    "Transfer-Encoding: chunked",
    "Expect: 100-continue",
  ],
  ...[
    "Expect: nothing",
    "Transfer-Encoding: gzip, chunked",
    "Upgrade: websocket",
    "Connection: Upgrade",
    "A",
    ": x",
  ],
  ...[
    "Content-Type: multipart/form-data",
    "Content-Encoding: gzip",
    "Range: bytes=0-",
    "If-None-Match: *",
    "A: \u0001",
  ],
];

function bodyOf(chance: Chance, usual: string): Buffer {
  const text = usual.replaceAll("Cellist", MARK);
  return chance.of<() => Buffer>([
    () => Buffer.from(text),
    () => damagedBytes(chance, Buffer.from(text)),
    () => Buffer.from(text.startsWith("{") ? damagedDocument(chance, text) : text),
    () => Buffer.from("[".repeat(1 + chance.below(50_000))),
    () => Buffer.alloc(chance.oneIn(20) ? 2_000_000 : 2000, "x"),
    () =>
      Buffer.from(chance.of(["null", "7", '""', "{}", "[]", "true", '{"revision":1,"plan":1,"history":1}'])),
  ])();
}

/** In pieces as they should be, or with sizes that are none. */
function chunked(chance: Chance, body: Buffer): Buffer {
  const cut = chance.below(body.length + 1);
  const pieces = [body.subarray(0, cut), body.subarray(cut)].filter((piece) => piece.length > 0);
  const size = (length: number) =>
    chance.oneIn(4) ? chance.of(["zz", "-1", "fffffffff", ""]) : length.toString(16);
  return Buffer.concat([
    ...pieces.flatMap((piece) => [Buffer.from(`${size(piece.length)}\r\n`), piece, Buffer.from("\r\n")]),
    Buffer.from(chance.oneIn(3) ? "" : "0\r\n\r\n"),
  ]);
}

function requestBytes(chance: Chance, port: number): Buffer {
  const [usualMethod, usualPath, usualBody] = chance.of(USUAL);
  const method = chance.oneIn(4) ? chance.of(METHODS) : usualMethod;
  const path = chance.oneIn(4) ? chance.of(PATHS) : usualPath;
  const body = chance.oneIn(3) ? Buffer.from(usualBody) : bodyOf(chance, usualBody);
  const headers = chance.oneIn(12) ? [] : [`Host: 127.0.0.1:${port}`];
  for (let more = chance.below(3); more > 0; more--) if (chance.oneIn(2)) headers.push(chance.of(HEADERS));
  if (chance.oneIn(30)) headers.push(`X: ${"x".repeat(chance.below(40_000))}`);
  const isChunked = chance.oneIn(5);
  if (isChunked) headers.push("Transfer-Encoding: chunked");
  else if (body.length > 0)
    headers.push(`Content-Length: ${body.length + (chance.oneIn(8) ? chance.below(9) - 4 : 0)}`);
  const head = Buffer.from(`${method} ${path} HTTP/1.1\r\n${headers.join("\r\n")}\r\n\r\n`);
  const whole = Buffer.concat([head, isChunked ? chunked(chance, body) : body]);
  if (chance.oneIn(10)) return damagedBytes(chance, whole.subarray(0, 4000));
  return chance.oneIn(12) ? whole.subarray(0, chance.below(whole.length)) : whole;
}

/** The codes of the answers to what is sent; none where the connection was closed without one. */
function send(port: number, bytes: Buffer): Promise<number[]> {
  return new Promise((resolve, reject) => {
    let said = "";
    const socket = connect({ port, host: "127.0.0.1", allowHalfOpen: true }, () => socket.end(bytes));
    const waited = setTimeout(() => {
      socket.destroy();
      reject(new Error(`nothing was said to ${JSON.stringify(bytes.toString("latin1").slice(0, 600))}`));
    }, LONGEST_MS);
    const end = () => {
      clearTimeout(waited);
      socket.destroy();
      resolve([...said.matchAll(/HTTP\/1\.1 (\d{3}) /g)].map(([, code]) => Number(code)));
    };
    socket.on("data", (chunk) => {
      said += chunk.toString("latin1");
      // news goes on for ever: it is enough that it has begun
      if (said.includes("text/event-stream")) end();
    });
    for (const over of ["end", "close", "error"]) socket.on(over, end);
  });
}

it(`[SV37] ${REQUESTS} requests that no page sends are answered or closed, and none is a fault (seed ${SEED})`, async () => {
  const folder = mkdtempSync(join(tmpdir(), "tapemark-fuzz-"));
  writeFileSync(join(folder, "index.html"), "<p>the workbench</p>");
  const log = vi.spyOn(console, "error").mockImplementation(() => undefined);
  const running = await startServer({
    appFolder: folder,
    library: freshLibrary(),
    opened: null,
    port: 0,
    sheet: async (text) => {
      const opened = openPlan(text);
      if (!opened.ok) throw new WorkError(opened.problems[0].what, "correct the plan");
      return new Uint8Array(100);
    },
    desk: (shelf) => createDesk({ reader: plainReader(), gear: NO_GEAR, now: () => new Date(), shelf }),
  });
  const port = Number(new URL(running.url).port);
  const before = heldBytes();
  const codes = new Map<number, number>();
  let faults = 0;
  let next = 0;
  const worker = async () => {
    for (let number = next++; number < amount(REQUESTS); number = next++) {
      for (const code of await send(port, requestBytes(createChance(SEED + number), port))) {
        codes.set(code, (codes.get(code) ?? 0) + 1);
        if (code >= 500) faults++;
      }
    }
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, worker));
    expect((await fetch(running.url)).status).toBe(200);
    const lines = log.mock.calls.map(([line]) => String(line));
    // every fault has its cause in one line, which quotes nothing of what was sent
    expect(lines.length).toBe(faults);
    for (const line of lines) {
      expect(line).toMatch(/^tapemark: [^\n]+ failed: [^\n]+$/);
      expect(line).not.toContain(MARK);
    }
    expect(heldBytes() - before).toBeLessThan(MOST_GROWTH_BYTES);
    // where all are refused at the door it would prove little
    for (const code of [200, 400, 403, 404, 405, 422])
      expect(codes.get(code) ?? 0, `${code}`).toBeGreaterThan(5);
  } finally {
    log.mockRestore();
    await running.stop();
    rmSync(folder, { recursive: true, force: true });
  }
  if (process.env.TAPEMARK_LONG === "1") console.log([...codes].sort(), { faults });
}, 600_000);
