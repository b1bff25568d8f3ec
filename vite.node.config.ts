import { defineConfig } from "vite";

/** The command line and the server, the thread that searches and the process that reads photographs: split so that PDF,
 * server and picture code load only when they are used. */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: true,
    outDir: "dist/node",
    emptyOutDir: true,
    target: "node20",
    rolldownOptions: {
      input: {
        entry: "bin/entry.ts",
        "finder-thread": "bin/finder-thread.ts",
        "photo-process": "bin/photo-process.ts",
        "copy-process": "bin/copy-process.ts",
        "print-process": "bin/print-process.ts",
        "share-process": "bin/share-process.ts",
      },
      output: { entryFileNames: "[name].js", chunkFileNames: "[name]-[hash].js" },
    },
  },
  // TensorFlow's loader of its WebAssembly asks where it lies, in words that modules do not know
  define: { __dirname: "import.meta.dirname" },
  // everything that computes is bundled: one file to read at the start instead of hundreds
  ssr: {
    noExternal: [
      "zod",
      "fast-png",
      "hono",
      "@hono/node-server",
      /^@tensorflow\//,
      "long",
      "seedrandom",
      "exifr",
    ],
    external: ["fontkit", "pdfkit", "svg-to-pdfkit"],
  },
});
