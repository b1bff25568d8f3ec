// A module as users get it: bundled. What is loaded file by file reads its imports through getters, and is slower.
import { randomUUID } from "node:crypto";
import { mkdirSync, renameSync, writeFileSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "vite";

export async function bundled(path) {
  return import(pathToFileURL(await bundle(path)).href);
}

/** The same as a file, for a process of its own. */
export async function bundle(path) {
  const name = basename(path).replace(/\.ts$/, "");
  // a folder each: several may be made at a time
  const outDir = `dist/bundled/${name}`;
  const { output } = await build({
    configFile: false,
    publicDir: false,
    logLevel: "error",
    build: { ssr: path, outDir, target: "node20", write: false },
    // as in vite.node.config.ts, where the reasons stand
    define: { __dirname: "import.meta.dirname" },
    ssr: {
      noExternal: true,
      external: ["sharp", "@photostructure/sqlite", "pdfkit", "svg-to-pdfkit", "fontkit"],
    },
  });
  // put there whole: the same may be made twice at a time, and run while it is
  for (const { fileName, code, source } of output) {
    const file = join(outDir, fileName);
    const temporary = `${file}.${randomUUID()}`;
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(temporary, code ?? source);
    renameSync(temporary, file);
  }
  return resolve(outDir, `${name}.js`);
}
