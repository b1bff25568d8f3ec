/** Listens at the private addresses of this machine and nowhere else: one port, the same at each of them. */
import { createServer, type Server } from "node:http";
import { getRequestListener, type HttpBindings } from "@hono/node-server";
import { WorkError } from "../workbench/index.ts";

/** Always the same, so that an address that a phone keeps is found again. */
export const USUAL_SHARE_PORT = 7285;
/** Another program may take a free port at one of the addresses between two looks. */
const MOST_TRIES = 5;

/** Whoever holds connections open, or sends its request slowly, holds up itself. */
export interface ShareLimits {
  /** connections at one address of this machine, and of one that they come from */
  readonly all: number;
  readonly each: number;
  readonly headers_ms: number;
  readonly request_ms: number;
}

const SHARE_LIMITS: ShareLimits = { all: 256, each: 64, headers_ms: 5000, request_ms: 10_000 };
const IDLE_MS = 5000;
const HEADER_BYTES = 8192;

export type ShareFetch = (request: Request, env: HttpBindings) => Response | Promise<Response>;

export interface Listening {
  readonly port: number;
  readonly addresses: readonly string[];
  /** no longer at this one */
  leave(address: string): void;
  stop(): Promise<void>;
}

/** @param port the one to begin with; 0 for any
 * Errors  WorkError where none of the addresses can be listened at */
export async function listenAt(
  addresses: readonly string[],
  port: number,
  fetch: ShareFetch,
  limits: ShareLimits = SHARE_LIMITS,
): Promise<Listening> {
  let failure: NodeJS.ErrnoException | null = null;
  for (let tries = 0, wanted = port; tries < MOST_TRIES; tries++, wanted = 0) {
    const servers = new Map<string, Server>();
    try {
      for (const address of addresses) {
        const server = await listenOnce(address, wanted, fetch, limits);
        servers.set(address, server);
        wanted = portOf(server);
      }
      return listening(wanted, servers);
    } catch (error) {
      failure = error as NodeJS.ErrnoException;
      for (const server of servers.values()) server.close();
      if (failure.code !== "EADDRINUSE" && failure.code !== "EACCES") break;
    }
  }
  throw new WorkError(
    `sharing cannot listen at ${addresses.join(", ")} (${failure?.code ?? "no free port"})`,
    "look whether this machine is still in that network, and switch sharing on again",
  );
}

function listening(port: number, servers: Map<string, Server>): Listening {
  const close = (server: Server) =>
    new Promise<void>((resolve) => {
      server.close(() => resolve());
      server.closeAllConnections();
    });
  return {
    port,
    get addresses() {
      return [...servers.keys()];
    },
    leave(address) {
      const server = servers.get(address);
      servers.delete(address);
      if (server) void close(server);
    },
    async stop() {
      const all = [...servers.values()];
      servers.clear();
      await Promise.all(all.map(close));
    },
  };
}

function listenOnce(address: string, port: number, fetch: ShareFetch, limits: ShareLimits): Promise<Server> {
  const server = createServer(
    {
      headersTimeout: limits.headers_ms,
      requestTimeout: limits.request_ms,
      keepAliveTimeout: IDLE_MS,
      maxHeaderSize: HEADER_BYTES,
      connectionsCheckingInterval: Math.min(1000, limits.headers_ms),
    },
    getRequestListener((request, env) => fetch(request, env as HttpBindings), {
      // what is no request is turned away without a word, here and in the log: anybody can send it
      errorHandler: () => new Response(null, { status: 400 }),
    }),
  );
  server.maxConnections = limits.all;
  limitEach(server, limits.each);
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen({ host: address, port, exclusive: true }, () => {
      server.off("error", reject);
      server.on("error", () => {}); // one connection that fails is no reason to end the others
      resolve(server);
    });
  });
}

/** No address takes all the places. */
function limitEach(server: Server, most: number): void {
  const open = new Map<string, number>();
  server.on("connection", (socket) => {
    const from = socket.remoteAddress ?? "";
    const count = (open.get(from) ?? 0) + 1;
    open.set(from, count);
    socket.once("close", () => {
      const left = (open.get(from) ?? 1) - 1;
      if (left > 0) open.set(from, left);
      else open.delete(from);
    });
    if (count > most) socket.destroy();
  });
}

function portOf(server: Server): number {
  const at = server.address();
  return typeof at === "object" && at !== null ? at.port : 0;
}
