import { defineConfig } from "vite";

/** The workbench: plain files in dist/app that any static server can hand out.
 * JSX is compiled by Vite's own transformer; nothing is inlined, so a strict content policy holds. */
export default defineConfig({
  root: "src/app",
  base: "./",
  publicDir: "public",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  worker: { format: "es" },
  build: {
    outDir: "../../dist/app",
    emptyOutDir: true,
    target: "es2023",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
});
