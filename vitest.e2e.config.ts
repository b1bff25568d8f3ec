import { defineConfig } from "vitest/config";

/** The workbench in a real browser, against the real server. Two files at a time: each
 * waits for the other half of the work often enough that two cores are not too few. */
export default defineConfig({
  test: {
    include: ["e2e/**/*.e2e.ts"],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // a browser beside another on two cores is not the same twice; what needed it is named before the count
    retry: 1,
    maxWorkers: 2,
    pool: "forks",
  },
});
