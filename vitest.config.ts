import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["src/**/*.test.ts", "reference/**/*.test.ts", "properties/**/*.test.ts"],
    testTimeout: 60_000,
    pool: "threads",
    // left alone it keeps a core free, and takes nearly twice as long on two
    maxWorkers: 2,
  },
});
