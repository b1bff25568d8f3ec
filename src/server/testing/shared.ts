/** A plan that is shared at a real port of this machine, and devices that ask for it as raw as they like. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { type IncomingHttpHeaders, request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { checkPlan } from "../../plan/index.ts";
import type { Placed } from "../../shoots/index.ts";
import { createMemoryStore, setUpsOf, WorkError } from "../../workbench/index.ts";
import { createNewsDesk, toldStore } from "../news.ts";
import { createSharing, type OwnSharing, type SharingParts } from "../share.ts";

export const SHARED_PLAN = {
  format: "tapemark/plan",
  version: 1,
  title: "the cellist",
  room: { width: 5, depth: 6, height: 3 },
  lights: [
    {
      name: "key",
      position: [3, 2, 2],
      direction: { at: [2, 4, 1.5] },
      face: { shape: "disc", width: 1 },
      output: { wattSeconds: 400, stopsDown: 2 },
    },
  ],
  meters: [{ name: "chin", position: [2, 4, 1.5], direction: { at: [3, 2, 2] }, receptor: "dome" }],
};

export interface Asked {
  readonly method?: string;
  readonly headers?: Record<string, string>;
  readonly body?: string;
  readonly cookie?: string;
}

export interface Answered {
  readonly code: number;
  readonly body: string;
  readonly headers: IncomingHttpHeaders;
}

export interface Shared {
  readonly sharing: OwnSharing;
  readonly parts: SharingParts;
  readonly placed: Placed[];
  readonly lines: string[];
  /** sets clock and time that has passed; together unless said */
  readonly time: { now_ms: number; elapsed_ms: number };
  readonly host: () => Promise<string>;
  ask(path: string, asked?: Asked): Promise<Answered>;
  /** as the page does it */
  pair(name: string): Promise<string>;
  look(cookie: string, query?: string): Promise<Looking>;
  stop(): Promise<void>;
}

export interface Looking {
  readonly code: number;
  readonly events: Record<string, unknown>[];
  /** resolves when the server has closed it */
  readonly closed: Promise<void>;
  /** waits for one that fits */
  until(test: (event: Record<string, unknown>) => boolean): Promise<Record<string, unknown>>;
  leave(): void;
}

export async function share(changes: Partial<SharingParts> = {}): Promise<Shared> {
  const folder = mkdtempSync(join(tmpdir(), "tapemark-phone-"));
  const page = join(folder, "index.html");
  writeFileSync(page, "<p>the page of a device</p>");
  const time = { now_ms: Date.UTC(2026, 10, 26), elapsed_ms: 1000 };
  const placed: Placed[] = [];
  const lines: string[] = [];
  const news = createNewsDesk();
  const parts: SharingParts = {
    files: new Map([["/index.html", page]]),
    store: toldStore(createMemoryStore(), news),
    plans: { load: (key) => parts.store.load(key) },
    library: {
      placed: async () => [...placed],
      place: async (key, thing, isPlaced, by) => {
        const saved = checkPlan((await parts.store.load(key))?.plan);
        const setUp = saved.ok ? setUpsOf(saved.plan).get(thing) : undefined;
        // as the library does: nobody else looks at it
        if (setUp === undefined)
          throw new WorkError(`there is no "${thing}" in that plan`, "look at the plan again");
        const rest = placed.filter((entry) => entry.thing !== thing);
        placed.splice(0, placed.length, ...rest, ...(isPlaced ? [{ thing, by, at: "then", setUp }] : []));
        news.tell({ kind: "placed", key });
      },
    },
    news,
    hand: () => "a-work",
    meters: { ask: async () => ({ meters: [] }), stop: async () => {} },
    sheets: { ask: async () => ({ sheet: new Uint8Array([37, 80, 68, 70]) }), stop: async () => {} },
    addresses: () => ["127.0.0.1"],
    clock: { now: () => new Date(time.now_ms), elapsed_ms: () => time.elapsed_ms },
    port: 0,
    tellFault: (what, error) => lines.push(`${what}: ${error}`),
    ...changes,
  };
  await parts.store.save("a-work", { plan: SHARED_PLAN, history: null, revision: 1 });
  const sharing = createSharing(parts);
  await sharing.turn(true);
  const host = async () => new URL((await sharing.state()).addresses[0]).host;
  const ask = async (path: string, asked: Asked = {}) => once(await host(), path, asked);
  return {
    sharing,
    parts,
    placed,
    lines,
    time,
    host,
    ask,
    async pair(name) {
      const { code } = await sharing.newCode();
      const answer = await ask("/pair", {
        method: "POST",
        body: JSON.stringify({ code: code?.digits, name }),
      });
      if (answer.code !== 204) throw new Error(`pairing was answered ${answer.code} ${answer.body}`);
      return (answer.headers["set-cookie"]?.[0] ?? "").split(";")[0];
    },
    look: async (cookie, query = "") => look(await host(), cookie, query),
    async stop() {
      await sharing.stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** A request as the page sends it, except for what is said. Node's own client sends path and headers as they are. */
export function once(
  host: string,
  path: string,
  { method = "GET", headers, body, cookie }: Asked,
): Promise<Answered> {
  const { hostname, port } = new URL(`http://${host}`);
  const written =
    method === "GET"
      ? {}
      : {
          origin: `http://${host}`,
          "content-type": "application/json",
          "content-length": String(Buffer.byteLength(body ?? "")),
        };
  return new Promise((resolve, reject) => {
    const asked = request(
      {
        hostname,
        port,
        path,
        method,
        agent: false,
        headers: { host, ...written, ...(cookie === undefined ? {} : { cookie }), ...headers },
      },
      (answer) => {
        let text = "";
        answer.setEncoding("utf8");
        answer.on("data", (chunk) => {
          text += chunk;
        });
        answer.on("end", () =>
          resolve({ code: answer.statusCode ?? 0, body: text, headers: answer.headers }),
        );
        answer.on("error", reject);
      },
    );
    asked.on("error", reject);
    asked.end(body);
  });
}

export function look(host: string, cookie: string, query: string): Promise<Looking> {
  const { hostname, port } = new URL(`http://${host}`);
  return new Promise((resolve, reject) => {
    const asked = request(
      { hostname, port, path: `/api/live${query}`, agent: false, headers: { host, cookie } },
      (answer) => {
        const events: Record<string, unknown>[] = [];
        const waiting = new Set<() => void>();
        let rest = "";
        answer.setEncoding("utf8");
        answer.on("data", (chunk) => {
          const parts = (rest + chunk).split("\n\n");
          rest = parts.pop() ?? "";
          for (const part of parts) if (part.startsWith("data: ")) events.push(JSON.parse(part.slice(6)));
          for (const wake of waiting) wake();
        });
        const closed = new Promise<void>((done) => answer.on("close", () => done()));
        answer.on("error", () => {}); // cut off: `closed` says so
        resolve({
          code: answer.statusCode ?? 0,
          events,
          closed,
          until: (test) =>
            new Promise((found) => {
              const wake = () => {
                const event = events.find(test);
                if (event === undefined) return;
                waiting.delete(wake);
                found(event);
              };
              waiting.add(wake);
              wake();
            }),
          leave: () => asked.destroy(),
        });
      },
    );
    asked.on("error", reject);
    asked.end();
  });
}

/** What the plan in the store is now. */
export async function keptPlan(shared: Shared) {
  const saved = await shared.parts.store.load("a-work");
  const checked = checkPlan(saved?.plan);
  return { revision: saved?.revision, by: saved?.by, plan: checked.ok ? checked.plan : null, saved };
}
