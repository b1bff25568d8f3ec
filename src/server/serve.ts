/** The workbench's server: bound to this machine alone. */
import { serve } from "@hono/node-server";
import { createGearFile, dataFolder } from "../files/index.ts";
import { fileError, WorkError } from "../workbench/index.ts";
import { createFileStore } from "./file-store.ts";
import { listFiles } from "./files.ts";
import { createRoutes, type RouteParts } from "./routes.ts";

export interface ServeOptions {
  /** folder of the built workbench */
  readonly appFolder: string;
  readonly opened: RouteParts["opened"];
  readonly sheet: RouteParts["sheet"];
  readonly desk: RouteParts["desk"] & { stop(): Promise<void> };
  /** a port asked for by hand; null takes the usual one, or a free one where that is busy */
  readonly port: number | null;
}

export interface Running {
  readonly url: string;
  /** something worth saying about the start; null where all is as usual */
  readonly note: string | null;
  stop(): Promise<void>;
}

/** Always the same, so that what a browser keeps for the page (theme, units) is found again. */
const USUAL_PORT = 7284;
const LOOPBACK = "127.0.0.1";

export async function startServer(options: ServeOptions): Promise<Running> {
  let files: Map<string, string>;
  try {
    files = listFiles(options.appFolder);
  } catch {
    throw new WorkError("the workbench has not been built", "run npm start, or npm run build");
  }
  let port = 0;
  const app = createRoutes({
    port: () => port,
    files,
    store: createFileStore(dataFolder(process.env, process.platform), () => new Date()),
    gear: createGearFile(dataFolder(process.env, process.platform), () => new Date()),
    opened: options.opened,
    sheet: options.sheet,
    desk: options.desk,
  });
  const listen = (wanted: number) =>
    new Promise<ReturnType<typeof serve>>((resolve, reject) => {
      const server = serve({ fetch: app.fetch, hostname: LOOPBACK, port: wanted }, (info) => {
        port = info.port;
        resolve(server);
      });
      server.once("error", reject);
    });
  let note: string | null = null;
  const server = await listen(options.port ?? USUAL_PORT).catch((error: NodeJS.ErrnoException) => {
    if (error.code === "EADDRINUSE" && options.port === null) {
      note = `the usual port ${USUAL_PORT} is busy (another Tapemark?); a free one was taken`;
      return listen(0);
    }
    if (error.code === "EADDRINUSE") {
      throw new WorkError(`port ${options.port} is busy`, "name another with --port, or leave --port away");
    }
    if (error.code === "EACCES")
      throw new WorkError(`port ${options.port} may not be used`, "name one above 1023");
    throw fileError(`could not listen on port ${options.port ?? USUAL_PORT}`, error);
  });
  return {
    note,
    url: `http://${LOOPBACK}:${port}/`,
    async stop() {
      // first: a page that waits for news holds a connection
      await options.desk.stop();
      await new Promise<void>((resolve) => {
        server.close(() => resolve());
        // open connections of a browser must not keep the command from ending
        if ("closeAllConnections" in server) server.closeAllConnections();
      });
    },
  };
}
