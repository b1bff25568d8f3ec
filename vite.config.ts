import { defineConfig } from "vite";
import { serviceWorker } from "./scripts/service-worker.mjs";

/** The rooms left of the adapters do nothing by being loaded (properties/rooms.test.ts): what of them only one page asks for
 * comes with that page, though it is reached through the same index. */
const PURE_ROOMS =
  /src\/(units|math|photometry|engine|figure|plan|staging|reading|sheet|finder|testframe|deliver|shoots|workbench)\//;

const LEAN = { treeshake: { moduleSideEffects: (id: string) => !PURE_ROOMS.test(id) } };

/** The workbench: plain files in dist/app that any static server can hand out.
 * JSX is compiled by Vite's own transformer; nothing is inlined, so a strict content policy holds. */
export default defineConfig({
  root: "src/app",
  base: "./",
  publicDir: "public",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  worker: { format: "es", rolldownOptions: LEAN },
  plugins: [serviceWorker("src/app/sw.js")],
  build: {
    outDir: "../../dist/app",
    emptyOutDir: true,
    target: "es2023",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: LEAN,
    // what comes first comes in one piece; scripts/bench-app.mjs holds it to 400 kB compressed
    chunkSizeWarningLimit: 1000,
  },
});
