import { defineConfig } from "vite";

/** The command line and the server: one entry, split so that PDF and server code load only when they are used. */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: "bin/entry.ts",
    outDir: "dist/node",
    emptyOutDir: true,
    target: "node20",
    rolldownOptions: { output: { entryFileNames: "entry.js", chunkFileNames: "[name]-[hash].js" } },
  },
  // everything that computes is bundled: one file to read at the start instead of hundreds
  ssr: {
    noExternal: ["zod", "fast-png", "hono", "@hono/node-server"],
    external: ["pdfkit", "svg-to-pdfkit"],
  },
});
