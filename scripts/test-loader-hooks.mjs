// What test-loader.mjs registers: TypeScript without its types, JSON without import attributes, as the bundler takes both.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { transformWithOxc } from "vite";

const JSX = { runtime: "automatic", importSource: "preact" };

export async function load(url, context, next) {
  const address = url.replace(/[?#].*$/, "");
  const isOurs = address.startsWith("file:") && !address.includes("/node_modules/");
  if (isOurs && /\.tsx?$/.test(address)) {
    const path = fileURLToPath(address);
    const { code, map } = await transformWithOxc(readFileSync(path, "utf8"), path, {
      jsx: JSX,
      sourcemap: true,
    });
    const lines = Buffer.from(JSON.stringify(map)).toString("base64");
    return {
      format: "module",
      source: `${code}\n//# sourceMappingURL=data:application/json;base64,${lines}`,
      shortCircuit: true,
    };
  }
  if (isOurs && address.endsWith(".json")) {
    const source = `export default ${readFileSync(fileURLToPath(address), "utf8")}`;
    return { format: "module", source, shortCircuit: true };
  }
  return next(url, context);
}
