// A module as users get it: bundled. What is loaded file by file reads its imports through getters, and is slower.
import { basename, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "vite";

export async function bundled(path) {
  await build({
    configFile: false,
    publicDir: false,
    logLevel: "error",
    build: { ssr: path, outDir: "dist/bench", target: "node20" },
    ssr: { noExternal: true },
  });
  const file = resolve("dist/bench", basename(path).replace(/\.ts$/, ".js"));
  return import(pathToFileURL(file).href);
}
