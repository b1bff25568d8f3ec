/** What is taken from outside at most: bytes, depth, time. */
import { createServer, type Server } from "node:http";
import { getRequestListener, RequestError } from "@hono/node-server";
import type { Context, Hono, MiddlewareHandler } from "hono";
import { bodyLimit } from "hono/body-limit";
import { tellFault } from "./fault.ts";
import { SAFE_HEADERS } from "./guard.ts";

/** A plan with its undo history is far smaller; more is not a plan. */
const MOST_PLAN_BYTES = 32 * 1024 * 1024;
/** Everything else that is sent as text is a few fields. */
const MOST_FIELD_BYTES = 256 * 1024;
const PLANS = /^\/api\/(?:work\/[^/]+|sheet|contact|gear|shelf)$/;
/** Nothing that Tapemark writes is a third as deep. */
const MOST_DEPTH = 64;

/** A request has arrived whole within these, or is given up; an archive may be large. Where nothing at all moves for longer
 * than any sheet takes, nobody is there. */
const PATIENCE = { headers_ms: 10_000, request_ms: 900_000, idle_ms: 180_000, look_ms: 2000 };
const MOST_CONNECTIONS = 512;
const MOST_HEADER_BYTES = 16 * 1024;

const tooLarge = (what: string) => (c: Context) => {
  // what is still coming is not read
  const headers = { connection: "close" };
  return c.json({ problem: `that is larger than any ${what}`, cure: "check the file" }, 413, headers);
};
const limitPlan = bodyLimit({ maxSize: MOST_PLAN_BYTES, onError: tooLarge("plan") });
const limitFields = bodyLimit({ maxSize: MOST_FIELD_BYTES, onError: tooLarge("entry") });

/** Bounds what is sent as text: to be used after the routes that take files, which have bounds of their own. */
export function limitTexts(app: Hono): void {
  app.use("/api/*", (c, next) => (PLANS.test(c.req.path) ? limitPlan : limitFields)(c, next));
  app.use("/api/*", refuseDeep);
}

const refuseDeep: MiddlewareHandler = async (c, next) => {
  // read here once: whoever wants it next gets the same text
  if (isDeep(await c.req.text()))
    return c.json({ problem: "that is nested deeper than any plan", cure: "check the file" }, 400);
  await next();
  return undefined;
};

/** Whether brackets stand within brackets too often to be read or written safely. */
function isDeep(text: string): boolean {
  let depth = 0;
  let isQuoted = false;
  for (let i = 0; i < text.length; i++) {
    const letter = text.charCodeAt(i);
    if (isQuoted) {
      if (letter === BACKSLASH) i++;
      else if (letter === QUOTE) isQuoted = false;
    } else if (letter === QUOTE) isQuoted = true;
    else if (letter === BRACKET || letter === BRACE) {
      if (++depth > MOST_DEPTH) return true;
    } else if (letter === END_BRACKET || letter === END_BRACE) depth--;
  }
  return false;
}
const [BACKSLASH, QUOTE, BRACKET, BRACE, END_BRACKET, END_BRACE] = Array.from('\\"[{]}', (letter) =>
  letter.charCodeAt(0),
);

/** Which methods an address knows; none where there is no such address. */
export function methodsAt(app: Hono, path: string): string[] {
  const methods = new Set<string>();
  for (const route of app.routes) {
    if (route.method !== "ALL" && isAt(route.path, path)) methods.add(route.method);
  }
  if (methods.has("GET")) methods.add("HEAD");
  return [...methods].sort();
}

function isAt(pattern: string, path: string): boolean {
  const [wanted, given] = [pattern.split("/"), path.split("/")];
  return (
    wanted.length === given.length && wanted.every((part, i) => part.startsWith(":") || part === given[i])
  );
}

/** A server that waits for nobody who sends its request drop by drop. */
export function createPatientServer(fetch: Hono["fetch"], patience = PATIENCE): Server {
  const listener = getRequestListener(fetch, {
    errorHandler: (error) => {
      if (error instanceof RequestError) {
        const refusal = { problem: "that is no address", cure: "open the page that the start has named" };
        return Response.json(refusal, { status: 400, headers: SAFE_HEADERS });
      }
      tellFault("a request", error);
      return new Response(null, { status: 500, headers: SAFE_HEADERS });
    },
  });
  const server = createServer(
    {
      headersTimeout: patience.headers_ms,
      requestTimeout: patience.request_ms,
      connectionsCheckingInterval: patience.look_ms,
      maxHeaderSize: MOST_HEADER_BYTES,
    },
    listener,
  );
  server.setTimeout(patience.idle_ms);
  server.maxConnections = MOST_CONNECTIONS;
  return server;
}
