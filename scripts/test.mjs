// npm test: installs what tests need and runs everything; --long runs the large counts whole. The last line is the count.
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { demandBuild, demandNode, demandPackages } from "./ready.mjs";
import { ran, sideBySide } from "./side-by-side.mjs";

process.chdir(join(dirname(fileURLToPath(import.meta.url)), ".."));
demandNode();
demandPackages();
demandBuild();
if (process.argv.includes("--long")) process.env.TAPEMARK_LONG = "1";

const count = { passed: 0, failed: 0, skipped: 0 };
/** What failed and its first line of why, told once more before the count: a long output is often kept by its end only. */
const failures = [];
/** What passed at a second try only, with why the first failed: a race somewhere, in the test or in what it tests. */
const unsteady = [];
const folder = mkdtempSync(join(tmpdir(), "tapemark-test-"));

/** Packages' own programs, run by this Node: no shell and no npx in between, the same on every system. */
const PROGRAMS = {
  biome: "node_modules/@biomejs/biome/bin/biome",
  tsc: "node_modules/typescript/bin/tsc",
  vitest: "node_modules/vitest/vitest.mjs",
};

/** Whole checks, one of them each: format and lint, or types; and the published checks, which count each. */
async function check(checks) {
  const order = Object.keys(checks);
  await sideBySide({
    order,
    lanes: order.map((name) => [name]),
    run: (name) => {
      const [tool, ...args] = checks[name];
      return ran(process.execPath, [PROGRAMS[tool] ?? tool, ...args]);
    },
    tell: (name, { ok, said }) => {
      console.log(`\n== ${name}`);
      process.stdout.write(said);
      const each = /(\d+) checks, (\d+) outside/.exec(said);
      const outside = each ? Number(each[2]) : Number(!ok);
      count.failed += outside;
      if (outside > 0) failures.push(`${name}: see above`);
      count.passed += (each ? Number(each[1]) : 1) - outside;
    },
  });
}

/** The first lines of why: what was expected and the place, without the runner's own calls below it. */
const opening = (messages) => messages.join("\n").split("\n").slice(0, 12).join("\n");

function vitest(name, config) {
  console.log(`\n== ${name}`);
  const report = join(folder, `${name.replaceAll(" ", "-")}.json`);
  const args = [
    "run",
    "--config",
    config,
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${report}`,
  ];
  const { status } = spawnSync(process.execPath, [PROGRAMS.vitest, ...args], { stdio: "inherit" });
  if (!existsSync(report)) {
    count.failed++;
    failures.push(`${name}: ended without a report`);
    return;
  }
  const result = JSON.parse(readFileSync(report, "utf8"));
  count.passed += result.numPassedTests;
  count.failed += result.numFailedTests;
  count.skipped += result.numPendingTests + result.numTodoTests;
  // a file that does not load fails without a test of its own
  const isUnnamed = status !== 0 && result.numFailedTests === 0;
  if (isUnnamed) count.failed++;
  if (isUnnamed) failures.push(`${name}: ended with ${status}, no test failed`);
  for (const file of result.testResults) {
    if (file.status === "failed" && file.message) failures.push(`${file.name}: ${file.message}`);
    for (const { status, fullName, failureMessages } of file.assertionResults) {
      const told = `${file.name}: ${fullName}\n${opening(failureMessages)}`;
      if (status === "failed") failures.push(told);
      else if (failureMessages.length > 0) unsteady.push(told);
    }
  }
}

await check({
  "published checks": ["scripts/accuracy.mjs"],
  "format and lint": ["biome", "check", "."],
  "types, tsconfig.json": ["tsc", "-p", "tsconfig.json"],
  "types, tsconfig.app.json": ["tsc", "-p", "tsconfig.app.json"],
  "types, tsconfig.node.json": ["tsc", "-p", "tsconfig.node.json"],
});
vitest("unit reference and property tests", "vitest.config.ts");

const chromium = [
  process.env.CHROMIUM,
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/snap/bin/chromium",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
].find((path) => path && existsSync(path));
if (chromium) {
  process.env.CHROMIUM = chromium;
  vitest("browser tests", "vitest.e2e.config.ts");
} else {
  console.log("\n== browser tests: not run, there is no Chromium (set CHROMIUM to its path)");
  if (process.env.CI === "true") count.failed++;
  else count.skipped++;
}

rmSync(folder, { recursive: true, force: true });
if (unsteady.length > 0) console.log(`\n== passed at the second try\n${unsteady.join("\n")}`);
if (failures.length > 0) console.log(`\n== failed\n${failures.join("\n")}`);
console.log(
  `\n${count.passed} passed, ${count.failed} failed${count.skipped ? `, ${count.skipped} skipped` : ""}`,
);
process.exitCode = count.failed > 0 ? 1 : 0;
