/** Listens on this machine alone, at the usual port where that is free. */
import type { Server } from "node:http";
import type { Hono } from "hono";
import { fileError, WorkError } from "../workbench/index.ts";
import { createPatientServer } from "./limits.ts";

export interface Listening {
  readonly server: Server;
  /** something worth saying about the port; null where it is the one that was meant */
  readonly note: string | null;
}

/** Always the same, so that what a browser keeps for the page (theme, units) is found again. */
const USUAL_PORT = 7284;
const LOOPBACK = "127.0.0.1";

/** @param asked a port that was named by hand; null takes the usual one, or a free one where that is busy
 * Errors  WorkError where the port cannot be had */
export async function listenHere(fetch: Hono["fetch"], asked: number | null): Promise<Listening> {
  try {
    return { server: await listen(fetch, asked ?? USUAL_PORT), note: null };
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "EADDRINUSE" && asked === null) {
      const note = `the usual port ${USUAL_PORT} is busy (another Tapemark?); a free one was taken`;
      return { server: await listen(fetch, 0), note };
    }
    if (code === "EADDRINUSE")
      throw new WorkError(`port ${asked} is busy`, "name another with --port, or leave --port away");
    if (code === "EACCES") throw new WorkError(`port ${asked} may not be used`, "name one above 1023");
    throw fileError(`could not listen on port ${asked ?? USUAL_PORT}`, error);
  }
}

function listen(fetch: Hono["fetch"], port: number): Promise<Server> {
  return new Promise((resolve, reject) => {
    const server = createPatientServer(fetch);
    server.once("error", reject);
    server.listen(port, LOOPBACK, () => resolve(server));
  });
}
