// A module as users get it: bundled. What is loaded file by file reads its imports through getters, and is slower.
import { basename, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "vite";

export async function bundled(path) {
  const name = basename(path).replace(/\.ts$/, "");
  // a folder each: several may be made at a time
  const outDir = `dist/bundled/${name}`;
  await build({
    configFile: false,
    publicDir: false,
    logLevel: "error",
    build: { ssr: path, outDir, target: "node20" },
    // as in vite.node.config.ts, where the reasons stand
    define: { __dirname: "import.meta.dirname" },
    ssr: { noExternal: true, external: ["sharp"] },
  });
  return import(pathToFileURL(resolve(outDir, `${name}.js`)).href);
}
