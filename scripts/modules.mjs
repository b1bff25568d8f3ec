// Reads the project's TypeScript for scripts: Node 20 does not by itself. Nothing listens and nothing is watched.
import { createServer } from "vite";

/** Runs `use` with a loader of modules by their path from the root ("/reference/checks.ts"). */
export async function withModules(use) {
  const server = await createServer({
    configFile: false,
    server: { middlewareMode: true, ws: false, watch: null },
    optimizeDeps: { noDiscovery: true },
    appType: "custom",
    logLevel: "error",
  });
  try {
    return await use((path) => server.ssrLoadModule(path));
  } finally {
    await server.close();
  }
}
