import { defineConfig } from "vite";

/** The page of a paired device: plain files in dist/phone that the sharing listener hands out. Phones on set are old ones:
 * nothing newer than 2020 is asked of their browsers, colours of two themes included. */
export default defineConfig({
  root: "src/phone",
  base: "./",
  publicDir: false,
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    outDir: "../../dist/phone",
    emptyOutDir: true,
    target: "es2020",
    cssTarget: ["chrome87", "safari14", "firefox85"],
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
});
