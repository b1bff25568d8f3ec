import { defineConfig } from "vitest/config";

/** The workbench in a real browser, against the real server. One file at a time: they share two cores. */
export default defineConfig({
  test: {
    include: ["e2e/**/*.e2e.ts"],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    fileParallelism: false,
    pool: "forks",
  },
});
