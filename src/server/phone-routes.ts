/** What a paired device may ask for: the page, the plan on the table, its sheet; ticks and meter readings the other way.
 * There is nothing else at this port. */
import type { HttpBindings } from "@hono/node-server";
import { getConnInfo } from "@hono/node-server/conninfo";
import { type Context, Hono, type MiddlewareHandler } from "hono";
import { bodyLimit } from "hono/body-limit";
import { getCookie } from "hono/cookie";
import { SaveConflict, type SentReading, WorkError } from "../workbench/index.ts";
import type { Device, Devices } from "./devices.ts";
import type { TellFault } from "./fault.ts";
import { readServed } from "./files.ts";
import type { LiveDesk } from "./live-desk.ts";
import { LiveStream } from "./live-stream.ts";
import { sentReadingOf } from "./live-write.ts";
import type { PairingCode } from "./pairing-code.ts";
import type { PairingLimits } from "./pairing-limits.ts";
import type { SheetRequest } from "./routes.ts";
import { isFromOwnPage, isJson, SHARE_HEADERS } from "./share-guard.ts";

export interface PhoneParts {
  /** the page's files by their address */
  readonly files: ReadonlyMap<string, string>;
  /** addresses that are shown, with the port */
  readonly hosts: () => readonly string[];
  readonly code: PairingCode;
  readonly limits: PairingLimits;
  readonly devices: Devices;
  readonly live: LiveDesk;
  readonly place: (thing: string, isPlaced: boolean, device: Device) => Promise<void>;
  readonly write: (sent: SentReading, device: Device) => Promise<void>;
  /** of the work on the table; null while there is none */
  readonly sheet: (options: SheetRequest) => Promise<Uint8Array | null>;
  readonly elapsed_ms: () => number;
  readonly tellFault: TellFault;
}

interface Env {
  Bindings: HttpBindings;
  Variables: { device: Device };
}

const COOKIE = "tapemark-device";
/** A reading with a long note is a tenth of it. */
const MOST_BYTES = 4096;

const refusal = (problem: string, cure: string) => ({ problem, cure });
const NOTHING = refusal("there is nothing at this address", "open the address that the workbench shows");
const UNPAIRED = refusal("this device is not paired", "type the code that the workbench shows");

export function createPhoneRoutes(parts: PhoneParts): Hono<Env> {
  const app = new Hono<Env>();
  app.use("*", async (c, next) => {
    const asked = { method: c.req.method, header: (name: string) => c.req.header(name) };
    // an address that brings a host of its own is for machines that pass requests on
    const isPlain = c.env.incoming.url?.startsWith("/") === true;
    if (!isPlain || !isFromOwnPage(asked, parts.hosts())) c.res = c.json(NOTHING, 404);
    else await next();
    for (const [name, value] of Object.entries(SHARE_HEADERS)) c.res.headers.set(name, value);
  });
  app.on(
    ["POST", "PUT"],
    "*",
    bodyLimit({
      maxSize: MOST_BYTES,
      onError: (c) => c.json(refusal("that is too long", "shorten the note"), 413),
    }),
    async (c, next) => {
      if (!isJson(c.req.header("content-type"))) return c.json(NOTHING, 404);
      return next();
    },
  );
  addPairing(app, parts);
  addLive(app, parts);
  addWrites(app, parts);
  app.get("*", (c) => {
    const file = readServed(parts.files, new URL(c.req.url).pathname);
    if (file === null) return c.json(NOTHING, 404);
    return c.body(new Uint8Array(file.bytes), 200, { "content-type": file.type });
  });
  app.notFound((c) => c.json(NOTHING, 404));
  app.onError((error, c) => {
    if (error instanceof WorkError)
      return c.json(refusal(error.problem, error.cure), error instanceof SaveConflict ? 409 : 422);
    parts.tellFault("a request of a paired device", error);
    return c.json(refusal("that failed", "try it again, or look at the workbench"), 500);
  });
  return app;
}

/** Goes before every route that is for paired devices. */
function paired({ devices }: PhoneParts): MiddlewareHandler<Env> {
  return async (c, next) => {
    const device = devices.find(getCookie(c, COOKIE) ?? "");
    if (device === null) return c.json(UNPAIRED, 401);
    c.set("device", device);
    return next();
  };
}

function addPairing(app: Hono<Env>, { code, limits, devices }: PhoneParts): void {
  app.post("/pair", async (c) => {
    const sent = (await bodyOf(c)) as { code?: unknown; name?: unknown } | null;
    if (typeof sent?.code !== "string" || typeof sent.name !== "string")
      return c.json(refusal("that is no code", "type the six digits that the workbench shows"), 400);
    // from here to the count nothing waits: however many are sent at once, they are looked at one by one
    const from = getConnInfo(c).remote.address ?? "";
    const wait = Math.ceil(limits.wait_ms(from) / 1000);
    if (wait > 0) {
      c.header("retry-after", String(wait));
      return c.json(refusal("too many tries", `wait ${wait} s, then type the code again`), 429);
    }
    if (devices.isFull)
      return c.json(
        refusal("no more devices can be paired", "take one off the list in the workbench first"),
        403,
      );
    const isRight = code.enter(sent.code.replace(/\s/g, ""));
    limits.tried(from, isRight);
    if (!isRight)
      return c.json(
        refusal(
          "that is not the code, or it counts no more",
          "type the one that the workbench shows now, or ask there for a new one",
        ),
        403,
      );
    // one page, one device: what was paired before on it is not left lying about
    const before = devices.find(getCookie(c, COOKIE) ?? "");
    if (before) devices.revoke(before.id, "this device was paired anew");
    const token = devices.pair(sent.name);
    c.header("set-cookie", `${COOKIE}=${token}; Path=/; HttpOnly; SameSite=Strict`);
    return c.body(null, 204);
  });
}

function addLive(app: Hono<Env>, parts: PhoneParts): void {
  const { devices, live, sheet, elapsed_ms } = parts;
  app.get("/api/live", paired(parts), (c) => {
    if (c.req.method !== "GET") return c.json(NOTHING, 404);
    const device = c.get("device");
    const stream = new LiveStream({
      elapsed_ms,
      onLeft: (left) => {
        live.remove(left);
        devices.leaves(device, left);
      },
      cut: () => c.env.outgoing.destroy(),
    });
    devices.looks(device, stream);
    live.add(stream, unitsOf(c));
    return c.body(stream.body, 200, {
      "content-type": "text/event-stream",
      // what is sent goes out as it is sent
      "x-accel-buffering": "no",
    });
  });
  app.get("/api/sheet", paired(parts), async (c) => {
    const pdf = await sheet({
      paper: c.req.query("paper") === "letter" ? "letter" : "a4",
      units: unitsOf(c),
    });
    if (pdf === null)
      return c.json(refusal("there is no plan on the table", "open one in the workbench"), 404);
    return c.body(new Uint8Array(pdf), 200, {
      "content-type": "application/pdf",
      "content-disposition": 'inline; filename="sheet.pdf"',
    });
  });
}

function addWrites(app: Hono<Env>, parts: PhoneParts): void {
  const { devices, place, write } = parts;
  const seldom: MiddlewareHandler<Env> = async (c, next) => {
    if (devices.mayWrite(c.get("device"))) return next();
    return c.json(refusal("that is too much at once", "wait a few seconds"), 429);
  };
  app.put("/api/placed", paired(parts), seldom, async (c) => {
    const sent = (await bodyOf(c)) as { thing?: unknown; isPlaced?: unknown } | null;
    if (typeof sent?.thing !== "string" || typeof sent.isPlaced !== "boolean")
      return c.json(refusal("that is no tick", "reload the page"), 400);
    await place(sent.thing, sent.isPlaced, c.get("device"));
    return c.body(null, 204);
  });
  app.post("/api/readings", paired(parts), seldom, async (c) => {
    const sent = sentReadingOf(await bodyOf(c));
    if (sent === null) return c.json(refusal("that is no reading", "reload the page"), 400);
    await write(sent, c.get("device"));
    return c.body(null, 204);
  });
}

function unitsOf(c: Context<Env>): "metric" | "feet" {
  return c.req.query("units") === "feet" ? "feet" : "metric";
}

function bodyOf(c: Context<Env>): Promise<unknown> {
  return c.req.json<unknown>().catch(() => null);
}
