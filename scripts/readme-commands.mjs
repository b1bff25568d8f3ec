// Runs every command of the README's shell blocks, so that none of them can rot. `npm test` is what called this.
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ran, sideBySide } from "./side-by-side.mjs";

const blocks = [...readFileSync("README.md", "utf8").matchAll(/```sh\n([\s\S]*?)```/g)].map((m) => m[1]);
/** What this is run after, its longer form, and what it has run. */
const skipped = new Set(["npm test", "npm run test:long", "npm run accuracy"]);
const commands = blocks
  .flatMap((block) => block.split("\n"))
  .map((line) => line.replace(/\s+#.*$/, "").trim())
  .filter((line) => line && !line.startsWith("#") && !skipped.has(line));
const home = mkdtempSync(join(tmpdir(), "tapemark-readme-"));
// what is measured here is read by nobody: once, and a short drag, show that it runs; and nobody's own library is touched
Object.assign(process.env, { BENCH_RUNS: "1", DRAG_MS: "2000", TAPEMARK_DATA: home });
let failed = 0;
await sideBySide({
  order: commands,
  lanes: lanesOf(commands),
  run: (command) =>
    command === "npm start" ? starts() : ran(command, [], { shell: true, stdout: "ignore" }),
  tell: (command, { ok, said, seconds }) => {
    if (said) process.stderr.write(said);
    console.log(`${ok ? "runs" : "FAILS"}: ${command} (${seconds.toFixed(0)} s)`);
    if (!ok) failed++;
  },
});
rmSync(home, { recursive: true, force: true });
process.exitCode = failed > 0 || commands.length === 0 ? 1 : 0;

/** One after the other: what writes the build and what runs from it, and what bundles for measuring. The longest begin first. */
function lanesOf(all) {
  const bundles = (command) => /^npm run bench(:peer)?$/.test(command);
  const built = (command) => /^(node bin\/tapemark\.js |npm start$|npm run bench:app$)/.test(command);
  const alone = all.filter((command) => !bundles(command) && !built(command));
  return [all.filter(bundles), ...alone.map((command) => [command]), all.filter(built)];
}

/** npm start without a browser: waits for its address, asks for the page, ends it. */
async function starts() {
  const began = performance.now();
  const ended = (ok, said) => ({ ok, said, seconds: (performance.now() - began) / 1000 });
  const child = spawn("npm", ["start", "--", "--no-browser", "--port", "0"], {
    detached: true,
    stdio: ["ignore", "pipe", "inherit"],
  });
  try {
    const url = await new Promise((resolve, reject) => {
      let said = "";
      child.stdout.on("data", (chunk) => {
        said += chunk;
        const match = /http:\/\/127\.0\.0\.1:\d+\//.exec(said);
        if (match) resolve(match[0]);
      });
      child.on("exit", () => reject(new Error("ended early")));
      setTimeout(() => reject(new Error("no address within two minutes")), 120_000).unref();
    });
    return ended((await fetch(url)).ok, "");
  } catch (error) {
    return ended(false, `${error}\n`);
  } finally {
    process.kill(-child.pid, "SIGTERM");
  }
}
