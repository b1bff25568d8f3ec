import { defineConfig } from "vite";

/** The command line and the server, and the thread that searches: split so that PDF and server code load only when they are used. */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: true,
    outDir: "dist/node",
    emptyOutDir: true,
    target: "node20",
    rolldownOptions: {
      input: { entry: "bin/entry.ts", "finder-thread": "bin/finder-thread.ts" },
      output: { entryFileNames: "[name].js", chunkFileNames: "[name]-[hash].js" },
    },
  },
  // everything that computes is bundled: one file to read at the start instead of hundreds
  ssr: {
    noExternal: ["zod", "fast-png", "hono", "@hono/node-server"],
    external: ["pdfkit", "svg-to-pdfkit"],
  },
});
