import { defineConfig } from "vite";
import { serviceWorker } from "./scripts/service-worker.mjs";

/** The workbench: plain files in dist/app that any static server can hand out.
 * JSX is compiled by Vite's own transformer; nothing is inlined, so a strict content policy holds. */
export default defineConfig({
  root: "src/app",
  base: "./",
  publicDir: "public",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  worker: { format: "es" },
  plugins: [serviceWorker("src/app/sw.js")],
  build: {
    outDir: "../../dist/app",
    emptyOutDir: true,
    target: "es2023",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
});
