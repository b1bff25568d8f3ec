import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** Short files that work longest. On a new machine nothing is known of earlier runs and the largest files would begin: these
 * would come last, one core working and one idle. */
const LONG = [
  "src/reading/quick-trier.test.ts",
  "reference/recovered-briefs.test.ts",
  "src/cli/cli.test.ts",
  "src/figure/hair.test.ts",
  "src/reading/shares.test.ts",
];

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const isLong = ({ moduleId }: TestSpecification) => LONG.some((name) => moduleId.endsWith(name));
    const sorted = await super.sort(files);
    return [...sorted.filter(isLong), ...sorted.filter((file) => !isLong(file))];
  }
}

export default defineConfig({
  test: {
    include: ["src/**/*.test.ts", "reference/**/*.test.ts", "properties/**/*.test.ts"],
    // for what hangs, not for what is slow: two examples of four people take a minute where much else runs
    testTimeout: 120_000,
    hookTimeout: 60_000,
    pool: "threads",
    execArgv: ["--import", "./scripts/test-loader.mjs"],
    experimental: { viteModuleRunner: false, nodeLoader: false },
    // a fresh start for each file loads all that it imports again: a third of the processor's time where files are short
    isolate: false,
    // left alone it keeps a core free, and takes nearly twice as long on two
    maxWorkers: 2,
    sequence: { sequencer: LongFirst },
  },
});
