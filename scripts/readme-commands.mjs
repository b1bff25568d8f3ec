// Runs every command of the README's shell blocks, so that none of them can rot. `npm test` is what called this.
import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const blocks = [...readFileSync("README.md", "utf8").matchAll(/```sh\n([\s\S]*?)```/g)].map((m) => m[1]);
const commands = blocks
  .flatMap((block) => block.split("\n"))
  .map((line) => line.replace(/\s+#.*$/, "").trim())
  .filter((line) => line && !line.startsWith("#"));
const home = mkdtempSync(join(tmpdir(), "tapemark-readme-"));
const skipped = new Set(["npm test", "npm run test:long"]);
let failed = 0;
for (const command of commands) {
  if (skipped.has(command)) continue;
  const ok =
    command === "npm start"
      ? await starts()
      : spawnSync(command, { shell: true, stdio: ["ignore", "ignore", "inherit"] }).status === 0;
  console.log(`${ok ? "runs" : "FAILS"}: ${command}`);
  if (!ok) failed++;
}
rmSync(home, { recursive: true, force: true });
process.exitCode = failed > 0 || commands.length === 0 ? 1 : 0;

/** npm start without a browser: waits for its address, asks for the page, ends it. */
async function starts() {
  const child = spawn("npm", ["start", "--", "--no-browser", "--port", "0"], {
    detached: true,
    env: { ...process.env, TAPEMARK_DATA: home },
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
    return (await fetch(url)).ok;
  } catch (error) {
    console.error(String(error));
    return false;
  } finally {
    process.kill(-child.pid, "SIGTERM");
  }
}
